package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.CasePoints;
import org.sideport.workflow.ProgressView.CaseShare;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.ItemMarks;
import org.sideport.workflow.ProgressView.Marks;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.assign.SelfAndAssessor;

/** The charts of a trainee's progress. */
public final class ProgressCharts {

    /** What is drawn beside the times where the unit has no exemplar. */
    static final String USUAL_PUBLISHED = "published_much_experience";

    private final ProgressView view;
    private final ProgressWords words;
    private final ProgressSentences sentences;

    public ProgressCharts(ProgressView view, ProgressWords words) {
        this.view = view;
        this.words = words;
        this.sentences = new ProgressSentences(words);
    }

    /** Everything there is to draw. */
    public List<Chart> all() {
        List<Chart> all = new ArrayList<>();
        view.times().forEach(term -> all.add(time(term, usual(term))));
        share().ifPresent(all::add);
        all.addAll(items());
        gap().ifPresent(all::add);
        monitoring().ifPresent(all::add);
        return all;
    }

    /** What a phase is held against first: the unit's exemplars, else published times of much experience. */
    public static @Nullable Held usual(TermTimes term) {
        return term.references().stream()
                .filter(h -> h.title().isEmpty())
                .findFirst()
                .or(() -> term.references().stream()
                        .filter(h -> h.id().equals(USUAL_PUBLISHED))
                        .findFirst())
                .orElse(null);
    }

    /** @param held what to draw it against; {@code null} for nothing */
    public Chart time(TermTimes term, @Nullable Held held) {
        return TimeChart.of(view, term, held, words);
    }

    private Axis numbers() {
        return Axis.of(words.get("axis.case"), "", 0, Math.max(1, view.cases().size()) + 1.0, Axis.Scale.LINEAR);
    }

    /** Share of the applicable marks, case by case. */
    public Optional<Chart> share() {
        Marks marks = view.marks();
        if (marks == null || marks.shares().isEmpty()) {
            return Optional.empty();
        }
        List<CaseShare> shares = marks.shares();
        String note = words.get(
                "share.note",
                shares.size(),
                marks.rubric().title(),
                marks.rubric().version());
        return Optional.of(new Chart(
                "marks",
                words.get("title.share"),
                numbers(),
                Axis.of(words.get("axis.share"), "%", 0, 100, Axis.Scale.LINEAR),
                List.of(new Layer.Points(
                        words.get("layer.share"),
                        Ink.MAIN,
                        Mark.DISC,
                        shares.stream()
                                .map(s -> new Layer.At(s.of().number(), 100 * s.share(), s.of().code()))
                                .toList())),
                marks.otherVersions() == 0 ? note : note + " " + words.get("share.versions", marks.otherVersions()),
                words.get(
                        "share.sentence",
                        words.cases(shares.size()),
                        marks.rubric().title(),
                        words.percent(shares.stream()
                                .mapToDouble(CaseShare::share)
                                .min()
                                .orElse(0)),
                        words.percent(shares.stream()
                                .mapToDouble(CaseShare::share)
                                .max()
                                .orElse(0)),
                        words.percent(shares.get(shares.size() - 1).share()))));
    }

    /** Each item of the rubric, small, all alike. */
    public List<Chart> items() {
        Marks marks = view.marks();
        return marks == null
                ? List.of()
                : marks.items().stream().map(this::item).toList();
    }

    private Chart item(ItemMarks item) {
        List<CasePoints> points = item.points();
        return new Chart(
                "item-" + item.item().replaceAll("[^a-z0-9_-]", "-"),
                item.title(),
                numbers(),
                Axis.of(words.get("axis.points"), "", 0, item.most() * 1.1, Axis.Scale.LINEAR),
                List.of(new Layer.Points(
                        words.get("layer.points"),
                        Ink.MAIN,
                        Mark.DISC,
                        points.stream()
                                .map(p -> new Layer.At(p.of().number(), p.points(), p.of().code()))
                                .toList())),
                words.get("item.note", points.size()),
                words.get(
                        "item.sentence",
                        item.title(),
                        words.cases(points.size()),
                        words.plain(points.stream()
                                .mapToDouble(CasePoints::points)
                                .min()
                                .orElse(0)),
                        words.plain(points.stream()
                                .mapToDouble(CasePoints::points)
                                .max()
                                .orElse(0)),
                        words.plain(item.most()),
                        words.plain(points.get(points.size() - 1).points())));
    }

    /** Own marks less those of the assessors. */
    public Optional<Chart> gap() {
        SelfAndAssessor.OverTime gap = view.gap();
        if (gap == null) {
            return Optional.empty();
        }
        Map<String, Integer> numbers = view.cases().stream().collect(Collectors.toMap(OneCase::code, OneCase::number));
        List<Layer.At> at = gap.cases().stream()
                .filter(c -> numbers.containsKey(c.caseCode()))
                .map(c -> new Layer.At(numbers.getOrDefault(c.caseCode(), 0), 100 * c.gap(), c.caseCode()))
                .toList();
        if (at.isEmpty()) {
            return Optional.empty();
        }
        List<Layer> layers = new ArrayList<>();
        layers.add(new Layer.Level(words.get("layer.zero"), Ink.REFERENCE, 0));
        LimitsOfAgreement agreement = gap.agreement();
        if (agreement != null && gap.cases().size() >= SelfAndAssessor.FEW) {
            layers.add(new Layer.Level(
                    words.get("layer.mean"), Ink.FIT, 100 * agreement.bias().value()));
            layers.add(new Layer.Level(
                    words.get("layer.agreement.low"),
                    Ink.OTHERS,
                    100 * agreement.lower().value()));
            layers.add(new Layer.Level(
                    words.get("layer.agreement.high"),
                    Ink.OTHERS,
                    100 * agreement.upper().value()));
        }
        layers.add(new Layer.Points(words.get("layer.gap"), Ink.MAIN, Mark.DISC, at));
        double furthest = layers.stream()
                .flatMap(l -> l instanceof Layer.Points p ? p.at().stream().map(Layer.At::y) : level(l).stream())
                .mapToDouble(Math::abs)
                .max()
                .orElse(10);
        double edge = Math.max(10, 1.1 * furthest);
        return Optional.of(new Chart(
                "gap",
                words.get("title.gap"),
                numbers(),
                Axis.of(words.get("axis.gap"), words.get("axis.gap.unit"), -edge, edge, Axis.Scale.LINEAR),
                layers,
                words.get("gap.note", at.size()),
                words.get(
                        "gap.sentence",
                        words.cases(at.size()),
                        words.number(at.stream().mapToDouble(Layer.At::y).min().orElse(0), 0),
                        words.number(at.stream().mapToDouble(Layer.At::y).max().orElse(0), 0),
                        sentences.gap(gap))));
    }

    private static Optional<Double> level(Layer layer) {
        return layer instanceof Layer.Level level ? Optional.of(level.y()) : Optional.empty();
    }

    /** Complications case by case; empty where they may not be charted. */
    public Optional<Chart> monitoring() {
        if (!(view.monitoring() instanceof Outcome.Found<Monitoring> found)) {
            return Optional.empty();
        }
        return Optional.of(WatchChart.of(
                words,
                "complications",
                words.get("title.watch"),
                view.procedure(),
                view.cases(),
                found.value(),
                sentences.monitoring(view)));
    }
}
