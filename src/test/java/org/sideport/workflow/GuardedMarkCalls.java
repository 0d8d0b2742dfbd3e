package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.StoredRating;

/** Marking. */
final class GuardedMarkCalls {

    private GuardedMarkCalls() {}

    static void add(GuardedCalls all) {
        marks(all);
    }

    private static MarkSession marking(GuardedCalls.Given g) {
        boolean self = g.code().equals("T03");
        var rating = Unit.rating(g.code(), self, GuardedCalls.ITEM);
        return new MarkSession(
                g.on(), GuardedCalls.CASE, new Vocabularies(g.anyones()).rubric(Unit.RUBRIC.id()), null, rating, "");
    }

    private static void marks(GuardedCalls all) {
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkCase.open(String,String,boolean,Rubric)",
                g -> new MarkCase(g.on())
                        .open(GuardedCalls.CASE, g.code(), g.code().equals("T03"), Unit.RUBRIC));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkCase.rate(String,Rating)",
                g -> new MarkCase(g.on())
                        .rate(GuardedCalls.CASE, Unit.rating(g.code(), g.code().equals("T03"))));
        all.underCode(GuardedCalls.Call.MARKING, "MarkCase.sign(String,String,String,boolean)", g -> {
            new MarkCase(g.anyones()).rate(GuardedCalls.CASE, Unit.rating(g.code(), g.isSelf()));
            return new MarkCase(g.on()).sign(GuardedCalls.CASE, Unit.RUBRIC.id(), g.code(), g.isSelf());
        });
        all.underCode(GuardedCalls.Call.MARKING, "MarkCase.amend(String,Rating,String)", g -> {
            g.signed(g.code(), 0, 3);
            var other = Unit.withPoints(Unit.rating(g.code(), g.isSelf()), GuardedCalls.ITEM, 2);
            return new MarkCase(g.on()).amend(GuardedCalls.CASE, other, "why");
        });
        all.underCode(GuardedCalls.Call.MARKING, "AmendMark.begin(String,String,String,boolean,String)", g -> {
            g.signed(g.code(), 0, 3);
            return GuardedCalls.done(() ->
                    new AmendMark(g.on()).begin(GuardedCalls.CASE, Unit.RUBRIC.id(), g.code(), g.isSelf(), "why"));
        });
        all.underCode(GuardedCalls.Call.MARKING, "AmendMark.giveUp(String,String,String,boolean)", g -> {
            g.signed(g.code(), 0, 3);
            var begun = new AmendMark(g.anyones());
            if (g.anyones().<List<StoredRating>>read(s -> s.ratings().ofCase(GuardedCalls.CASE)).stream()
                    .noneMatch(r -> r.amends() != null && r.state() == RatingState.DRAFT)) {
                begun.begin(GuardedCalls.CASE, Unit.RUBRIC.id(), g.code(), g.isSelf(), "why");
            }
            return GuardedCalls.done(
                    () -> new AmendMark(g.on()).giveUp(GuardedCalls.CASE, Unit.RUBRIC.id(), g.code(), g.isSelf()));
        });
        all.underCode(
                GuardedCalls.Call.MARKING, "LoadRatings.load(Path)", g -> new LoadRatings(g.on()).load(ratings(g)));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.mark(String,int)",
                g -> GuardedCalls.done(() -> marking(g).mark(GuardedCalls.ITEM, 3)));
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.excuse(String,NotApplicable)", g -> {
            String item = Unit.RUBRIC.items().stream()
                    .filter(i -> i.notApplicable().contains(NotApplicable.NOT_VISIBLE))
                    .findFirst()
                    .orElseThrow()
                    .id();
            return GuardedCalls.done(() -> marking(g).excuse(item, NotApplicable.NOT_VISIBLE));
        });
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.clear(String)",
                g -> GuardedCalls.done(() -> marking(g).clear(GuardedCalls.ITEM)));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.comment(String,String)",
                g -> GuardedCalls.done(
                        () -> marking(g).comment(Unit.RUBRIC.items().get(1).id(), "good")));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.overallComment(String)",
                g -> GuardedCalls.done(() -> marking(g).overallComment("good")));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.agree(List)",
                g -> GuardedCalls.done(() -> marking(g).agree(List.of("more"))));
        all.underCode(
                GuardedCalls.Call.MARKING,
                "MarkSession.toggleEvidence(String,MediaTime)",
                g -> GuardedCalls.done(() ->
                        marking(g).toggleEvidence(Unit.RUBRIC.items().get(1).id(), GuardedCalls.AT)));
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.sign()", g -> {
            var rating = Unit.rating(g.code(), g.code().equals("T03"));
            var stored = new MarkCase(g.anyones());
            boolean fits = g.code().equals("T03") == rating.self();
            if (fits) {
                try {
                    stored.rate(GuardedCalls.CASE, rating);
                } catch (org.sideport.model.InputException signedBefore) {
                    // signed by an earlier try of this test
                }
            }
            var kept = g.anyones()
                    .read(s -> s.ratings().ofCase(GuardedCalls.CASE).stream()
                            .filter(r -> r.rating().assessor().equals(g.code()))
                            .findFirst()
                            .orElseThrow());
            MarkSession one = of(g, kept);
            return GuardedCalls.done(one::sign);
        });
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.digest()", g -> {
            g.signed(g.code(), 0, 3);
            var kept = g.anyones()
                    .read(s -> s.ratings().ofCase(GuardedCalls.CASE).stream()
                            .filter(r -> r.rating().assessor().equals(g.code()))
                            .findFirst()
                            .orElseThrow());
            return of(g, kept).digest();
        });
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.retry()", g -> {
            MarkSession session = marking(g);
            // what another program kept while the database was away; taking it up is refused as saving it is
            new PendingMarks(g.on().dir())
                    .keep(GuardedCalls.CASE, Unit.rating(g.code(), g.isSelf()), Set.of(session.rating()));
            try {
                session.takeUp();
            } catch (InputException refused) {
                // and so is trying once more, below
            }
            return GuardedCalls.done(session::retry);
        });
        measured(all);
    }

    private static MarkSession of(GuardedCalls.Given g, StoredRating kept) {
        Vocabularies.RubricText text = new Vocabularies(g.anyones()).rubric(Unit.RUBRIC.id());
        return new MarkSession(g.on(), GuardedCalls.CASE, text, kept, kept.rating(), "");
    }

    private static Vocabularies.RubricText withTimes(GuardedCalls.Given g) throws IOException {
        Path file = g.anyones().dir().resolve("rubrics").resolve("timed.json");
        Files.createDirectories(file.getParent());
        Files.writeString(file, """
            {"id": "timed", "version": "1.0.0", "title": "Timed", "procedure": "phaco",
             "source": "made up for a test", "levels": [], "domains": [{"id": "all", "title": "All"}],
             "items": [{"id": "time", "domain": "all", "title": "Time", "kind": "measured", "phase": "rhexis",
               "unit": "s", "quantity": "phase_time",
               "bands": [{"from": 0, "points": 2}, {"from": 90, "points": 0}]}]}
            """);
        return new Vocabularies(g.anyones()).rubric("timed");
    }

    private static MarkSession empty(GuardedCalls.Given g, Vocabularies.RubricText text) {
        Rating none =
                new Rating(text.rubric().id(), text.rubric().version(), g.code(), g.isSelf(), false, List.of(), "");
        return new MarkSession(g.on(), GuardedCalls.CASE, text, null, none, "");
    }

    /** Marks by a number need a rubric that has such items. */
    private static void measured(GuardedCalls all) {
        GuardedCalls.Work byValue = g -> {
            Vocabularies.RubricText text = withTimes(g);
            Rubric.Item item = text.rubric().items().stream()
                    .filter(i -> i.kind().isNumber())
                    .findFirst()
                    .orElseThrow();
            MarkSession one = empty(g, text);
            return GuardedCalls.done(
                    () -> one.markValue(item.id(), Math.ceil(item.bands().get(0).from())));
        };
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.markValue(String,double)", byValue);
        all.underCode(GuardedCalls.Call.MARKING, "MarkSession.markFromTags(String,String)", g -> {
            Vocabularies.RubricText text = withTimes(g);
            Rubric.Item item = text.rubric().items().stream()
                    .filter(i -> i.quantity() == Rubric.Quantity.PHASE_TIME)
                    .findFirst()
                    .orElseThrow();
            PhaseSpan span = new PhaseSpan(
                    Objects.requireNonNull(item.phase()), MediaTime.ofSeconds(1), MediaTime.ofSeconds(61), null);
            g.tagged("A1", new Tagging(TaggingStyle.START_AND_END, List.of(span), List.of()));
            MarkSession one = empty(g, text);
            return GuardedCalls.done(() -> one.markFromTags(item.id(), "A1"));
        });
    }

    private static Path ratings(GuardedCalls.Given g) {
        return Unit.csv(
                g.dir(),
                "case,rubric,version,assessor,self,item,points,not_applicable,comment",
                GuardedCalls.CASE + "," + Unit.RUBRIC.id() + "," + Unit.RUBRIC.version() + "," + g.code() + ","
                        + g.code().equals("T03") + "," + GuardedCalls.ITEM + ",3,,");
    }
}
