package org.sideport.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.RatingSeal;
import org.sideport.model.Rubric;
import org.sideport.report.page.Feedback.Signed;
import org.sideport.report.page.FeedbackView.AnchorView;
import org.sideport.report.page.FeedbackView.DomainView;
import org.sideport.report.page.FeedbackView.ItemView;
import org.sideport.report.page.FeedbackView.MarkView;
import org.sideport.report.page.FeedbackView.MomentView;
import org.sideport.rubric.Score;

/** Signed marks in words. Every figure is the score's. */
final class MarkViews {

    private final PageWords words;
    private final LongFunction<String> jumpAt;

    /** @param jumpAt where to jump to see a moment, from microseconds */
    MarkViews(PageWords words, LongFunction<String> jumpAt) {
        this.words = words;
        this.jumpAt = jumpAt;
    }

    MarkView of(Signed signed) {
        Rubric rubric = signed.rubric().in(words.language());
        Score score = signed.score();
        List<DomainView> domains = new ArrayList<>();
        for (Score.DomainScore domain : score.domains()) {
            String title = rubric.domains().stream()
                    .filter(d -> d.id().equals(domain.domain()))
                    .map(Rubric.Domain::title)
                    .findFirst()
                    .orElse(domain.domain());
            domains.add(new DomainView(
                    title,
                    domain.share() == null
                            ? words.get("domain.none")
                            : words.get(
                                    "domain.sum", domain.points(), domain.maximum(), domain.marked(), domain.items()),
                    rubric.items().stream()
                            .filter(i -> i.domain().equals(domain.domain()))
                            .map(i -> item(
                                    rubric, i, signed.rating().score(i.id()).orElse(null)))
                            .toList()));
        }
        Double share = score.share();
        RatingSeal seal = signed.seal();
        Feedback.Agreement agreement = signed.agreement();
        String key = agreement != null ? "marks.agreed" : signed.rating().self() ? "marks.self" : "marks.assessor";
        return new MarkView(
                words.get(key, rubric.title(), signed.rating().assessor()),
                share == null ? words.get("share.none") : words.percent(share),
                words.get("share.basis", score.marked(), score.items(), score.excusedCount()),
                signed.rating().actions(),
                agreement == null ? signed.rating().comment() : agreement.why(),
                domains,
                agreement == null ? signedText(signed) : agreedText(signed, agreement),
                seal == null ? "" : seal.digest(),
                seal == null ? "" : words.get("digest.verify", seal.form(), signed.caseCode()),
                agreement != null);
    }

    private String agreedText(Signed signed, Feedback.Agreement agreement) {
        String said = words.get(
                "agreed",
                words.moment(agreement.at()),
                agreement.by(),
                signed.rubric().id(),
                signed.rubric().version());
        return agreement.standing().isEmpty() ? said : said + " " + words.get("agreed.stands", agreement.standing());
    }

    private String signedText(Signed signed) {
        List<String> said = new ArrayList<>();
        said.add(words.get(
                "signed",
                signed.signedAt() == null ? "" : words.moment(signed.signedAt()),
                signed.rating().assessor(),
                signed.rubric().id(),
                signed.rubric().version()));
        if (signed.rating().blind()) {
            said.add(words.get("signed.blind"));
        }
        if (!signed.reason().isEmpty()) {
            said.add(words.get("signed.amended", signed.reason()));
        }
        return String.join(" ", said);
    }

    private ItemView item(Rubric rubric, Rubric.Item item, @Nullable ItemScore score) {
        if (score == null) {
            return new ItemView(
                    item.title(), words.get("reason.missing"), false, "", List.of(), anchors(rubric, item, null));
        }
        List<MomentView> evidence = score.evidence().stream()
                .map(moment -> moment(moment, item.title()))
                .toList();
        if (score instanceof ItemScore.Excused excused) {
            return new ItemView(
                    item.title(),
                    words.get("reason." + excused.reason().id()),
                    false,
                    excused.comment(),
                    evidence,
                    anchors(rubric, item, null));
        }
        ItemScore.Marked marked = (ItemScore.Marked) score;
        return new ItemView(
                item.title(),
                given(rubric, item, marked),
                true,
                marked.comment(),
                evidence,
                anchors(rubric, item, marked));
    }

    private MomentView moment(MediaTime at, String item) {
        String clock = PageWords.clock(at.micros());
        return new MomentView(jumpAt.apply(at.micros()), clock, words.get("evidence.jump", clock, item));
    }

    private String given(Rubric rubric, Rubric.Item item, ItemScore.Marked marked) {
        String points = words.get("points", marked.points(), rubric.maximumOf(item));
        Double value = marked.value();
        return switch (item.kind()) {
            case CHECK -> words.get(marked.points() > 0 ? "check.done" : "check.not") + " (" + points + ")";
            case LEVEL ->
                rubric.levels().stream()
                        .filter(l -> l.points() == marked.points())
                        .map(l -> words.get("points.level", marked.points(), rubric.maximumOf(item), l.label()))
                        .findFirst()
                        .orElse(points);
            case COUNT, MEASURED ->
                value == null ? points : words.get("number", words.number(value, 1), item.unit(), points);
        };
    }

    private List<AnchorView> anchors(Rubric rubric, Rubric.Item item, ItemScore.@Nullable Marked marked) {
        Integer points = marked == null ? null : (Integer) marked.points();
        if (item.kind().isNumber()) {
            return item.bands().stream()
                    .map(b -> new AnchorView(
                            Integer.toString(b.points()),
                            words.get("band", words.number(b.from(), 1), item.unit(), b.text()),
                            marked != null
                                    && marked.value() != null
                                    && item.takes(marked.value())
                                    && item.band(marked.value()).equals(b)))
                    .toList();
        }
        if (item.kind() == Rubric.Kind.CHECK) {
            return List.of();
        }
        return rubric.levels().stream()
                .map(level -> new AnchorView(
                        Integer.toString(level.points()),
                        item.anchors().stream()
                                .filter(a -> a.points() == level.points())
                                .map(Rubric.Anchor::text)
                                .filter(t -> !t.isBlank())
                                .findFirst()
                                .orElse(level.label() + ": " + level.meaning()),
                        points != null && points == level.points()))
                .toList();
    }
}
