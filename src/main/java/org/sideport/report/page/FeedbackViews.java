package org.sideport.report.page;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Descriptor;
import org.sideport.model.Procedure.DescriptorKind;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Severity;
import org.sideport.model.Voice;
import org.sideport.report.page.Feedback.Film;
import org.sideport.report.page.Feedback.Times;
import org.sideport.report.page.Feedback.Usual;
import org.sideport.report.page.FeedbackView.ChartView;
import org.sideport.report.page.FeedbackView.CommentView;
import org.sideport.report.page.FeedbackView.EventView;
import org.sideport.report.page.FeedbackView.Fact;
import org.sideport.report.page.FeedbackView.FilmView;
import org.sideport.report.page.FeedbackView.PhaseView;
import org.sideport.report.page.FeedbackView.ReplyView;
import org.sideport.report.page.FeedbackView.RowView;
import org.sideport.report.page.FeedbackView.SpanView;
import org.sideport.report.page.FeedbackView.StillView;
import org.sideport.report.page.FeedbackView.TimesView;
import org.sideport.report.page.FeedbackView.VoiceView;

/** Makes views of feedback: what stands in the template, in the reader's language. */
final class FeedbackViews {

    /** Colours of phases that style sheets know. */
    private static final int LOOKS = 7;

    private final Feedback feedback;
    private final PageWords words;
    private final boolean paper;

    FeedbackViews(Feedback feedback, PageWords words, boolean paper) {
        this.feedback = feedback;
        this.words = words;
        this.paper = paper;
    }

    FeedbackView made() {
        String heading = words.get("heading", feedback.of().code());
        Film film = feedback.film();
        MarkViews marks = new MarkViews(words, this::jump);
        return new FeedbackView(
                words.get("title", heading),
                heading,
                facts(),
                film == null
                        ? null
                        : new FilmView(
                                address(film.folder(), film.file()), PageWords.clock(film.durationUs()), film.sound()),
                spans(),
                legend(),
                events(),
                feedback.comments().stream().map(this::comment).toList(),
                feedback.marks().stream().map(marks::of).toList(),
                times(),
                words.cautions(),
                words.get(film == null ? "made.paper" : "made", words.moment(feedback.madeAt()), feedback.program()),
                feedback.program());
    }

    private List<Fact> facts() {
        List<Fact> facts = new ArrayList<>();
        String trainee = feedback.of().traineeOrNull();
        if (trainee != null) {
            facts.add(new Fact(words.get("fact.trainee"), trainee));
        }
        if (feedback.of().dateOrNull() != null) {
            facts.add(new Fact(words.get("fact.date"), words.date(feedback.of().date())));
        }
        facts.add(new Fact(words.get("fact.procedure"), feedback.procedure().title()));
        feedback.procedure()
                .withComputed(feedback.of().descriptors())
                .forEach((id, value) -> feedback.procedure()
                        .descriptor(id)
                        // free words might tell who the patient is
                        .filter(d -> d.kind() != DescriptorKind.TEXT)
                        .ifPresent(d -> facts.add(fact(d, value))));
        return facts;
    }

    private static Fact fact(Descriptor descriptor, String value) {
        // "Nuclear grade 2", not "2 grade"
        boolean said = descriptor
                .name()
                .toLowerCase(Locale.ROOT)
                .endsWith(descriptor.unit().toLowerCase(Locale.ROOT));
        return new Fact(descriptor.name(), said ? value : value + " " + descriptor.unit());
    }

    /** Each part encoded, so that it is a name whatever is in it. */
    static String address(String folder, String file) {
        return encoded(folder) + "/" + encoded(file);
    }

    private static String encoded(String name) {
        return URLEncoder.encode(name, StandardCharsets.UTF_8).replace("+", "%20");
    }

    /** The middle of the frame that is on the screen then: rounding does not reach its neighbours. */
    static long middleUs(@Nullable Film film, long us) {
        return film == null ? us : (film.frames().startUs(us) + film.frames().endUs(us)) / 2;
    }

    private String jump(long us) {
        return MediaTime.ofMicros(middleUs(feedback.film(), us)).toSecondsText();
    }

    /** Style class of a phase's colour, by its place among those that are not idle. */
    private String look(String id) {
        List<Procedure.Phase> coloured =
                feedback.procedure().phases().stream().filter(p -> !p.idle()).toList();
        int place = feedback.procedure()
                .find(id)
                .map(term -> coloured.indexOf(term.phase()))
                .orElse(-1);
        return place < 0 ? "px" : "p" + place % LOOKS;
    }

    private List<PhaseSpan> tagged() {
        return feedback.tagging() == null ? List.of() : feedback.tagging().spans();
    }

    private List<SpanView> spans() {
        return tagged().stream()
                .map(span -> {
                    Term term = feedback.procedure().find(span.phase()).orElse(null);
                    String name = term == null ? span.phase() : term.name();
                    Operator operator = span.operator();
                    String by = operator == null
                            ? name
                            : name + " ("
                                    + words.get("operator." + operator.name().toLowerCase(Locale.ROOT)) + ")";
                    String from = PageWords.clock(span.start().micros());
                    return new SpanView(
                            look(span.phase()),
                            term == null ? span.phase() : term.shortName(),
                            span.end() == null
                                    ? words.get("span.open", by, from)
                                    : words.get(
                                            "span",
                                            by,
                                            from,
                                            PageWords.clock(span.end().micros())));
                })
                .toList();
    }

    private List<PhaseView> legend() {
        Set<PhaseView> legend = new LinkedHashSet<>();
        for (Procedure.Phase phase : feedback.procedure().phases()) {
            if (tagged().stream()
                    .anyMatch(span -> feedback.procedure()
                            .find(span.phase())
                            .filter(t -> t.phase().equals(phase))
                            .isPresent())) {
                legend.add(new PhaseView(look(phase.id()), phase.name()));
            }
        }
        return List.copyOf(legend);
    }

    private List<EventView> events() {
        return feedback.tagging() == null
                ? List.of()
                : feedback.tagging().events().stream().map(this::event).toList();
    }

    private EventView event(PointEvent event) {
        String name = feedback.procedure()
                .findEvent(event.kind())
                .map(kind -> kind.name())
                .orElse(event.kind());
        Severity severity = event.severity();
        return new EventView(
                jump(event.at().micros()),
                PageWords.clock(event.at().micros()),
                severity == null
                        ? name
                        : name + " (" + words.get("severity." + severity.name().toLowerCase(Locale.ROOT)) + ")",
                event.note());
    }

    private CommentView comment(CommentThread thread) {
        Comment comment = thread.comment();
        String clock = PageWords.clock(comment.from().micros());
        Voice voice = comment.voice();
        String tone = words.get("tone." + comment.tone().id());
        String to =
                comment.to() == null ? "" : "–" + PageWords.clock(comment.to().micros());
        return new CommentView(
                jump(comment.from().micros()),
                clock + to,
                words.get("comment.jump", clock, tone),
                comment.tone().id(),
                tone,
                comment.author(),
                item(comment.item()),
                !comment.drawing().isEmpty(),
                still(comment.id(), clock),
                comment.text(),
                voice == null ? null : voice(voice),
                thread.replies().stream()
                        .map(r -> new ReplyView(r.author(), r.text()))
                        .toList());
    }

    private @Nullable StillView still(String comment, String clock) {
        Feedback.Still still = feedback.stills().get(comment);
        if (still == null) {
            return null;
        }
        Film film = feedback.film();
        return new StillView(
                film == null ? still.picture() : address(film.folder(), still.picture()),
                words.get("comment.still", clock),
                still.width(),
                still.height());
    }

    private VoiceView voice(Voice voice) {
        Film film = feedback.film();
        String file = feedback.voices().getOrDefault(voice.sha256(), "");
        return new VoiceView(
                film == null || file.isEmpty() ? "" : address(film.folder(), file),
                PageWords.clock(voice.lengthUs()),
                voice.captions().stream().map(Caption::text).toList());
    }

    private String item(@Nullable ItemLink link) {
        if (link == null) {
            return "";
        }
        return feedback.marks().stream()
                .map(Feedback.Signed::rubric)
                .filter(r -> r.id().equals(link.rubric()))
                .flatMap(r -> r.in(words.language()).item(link.item()).stream())
                .map(i -> i.title())
                .findFirst()
                .orElse("");
    }

    private @Nullable TimesView times() {
        Times times = feedback.times();
        if (times == null) {
            return null;
        }
        List<String> notes = new ArrayList<>();
        if (times.rows().stream().anyMatch(Feedback.Row::unsure)) {
            notes.add(words.get("times.unsure"));
        }
        times.against().stream()
                .map(Feedback.Against::note)
                .filter(n -> !n.isEmpty())
                .forEach(notes::add);
        return new TimesView(
                words.get(
                        "times.basis",
                        times.whole().annotator(),
                        clock(times.whole().operatingUs()),
                        clock(times.whole().idleUs())),
                times.against().stream().map(Feedback.Against::name).toList(),
                times.rows().stream().map(row -> row(row, times)).toList(),
                notes,
                times.charts().stream().map(this::chart).toList());
    }

    private String clock(@Nullable Long us) {
        return us == null ? words.get("time.unknown") : PageWords.clock(us);
    }

    private RowView row(Feedback.Row row, Times times) {
        return new RowView(
                look(row.phase()),
                row.name(),
                row.step(),
                (row.unsure() ? "≥ " : "") + clock(row.activeUs()),
                Integer.toString(row.episodes()),
                times.against().stream()
                        .map(a -> usual(row.usual().get(a.id())))
                        .toList());
    }

    private String usual(@Nullable Usual usual) {
        return usual == null
                ? words.get("usual.none")
                : words.get(
                        usual.quartiles() ? "usual.quartiles" : "usual.range",
                        PageWords.clock(usual.lowUs()),
                        PageWords.clock(usual.highUs()),
                        PageWords.clock(usual.middleUs()),
                        usual.n());
    }

    private ChartView chart(Chart chart) {
        return ChartViews.of(chart, paper);
    }
}
