package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.monitoring.FunnelLimits;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.CohortTimesView.Term;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.ComplicationsView.OfTrainee;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.Monitoring;

/** A unit as charts: complications, times, assessors. */
public final class UnitCharts {

    /** Beside the place of a phase: trainees on its left, what they are held against on its right. */
    private static final double ASIDE = 0.22;

    private static final int PLACES = 120;
    private static final int MOST_TERMS = 12;

    /** What times are held against first where the unit has no exemplars. */
    public static final String USUAL = ProgressCharts.USUAL_PUBLISHED;

    private final ProgressWords words;
    private final ProgressSentences sentences;

    public UnitCharts(ProgressWords words) {
        this.words = words;
        this.sentences = new ProgressSentences(words);
    }

    /** Empty where the unit's rate is unknown, or none or all of the cases failed. */
    public Optional<Chart> funnel(ComplicationsView view) {
        Double rate = view.rate();
        if (rate == null || !(rate > 0 && rate < 1)) {
            return Optional.empty();
        }
        int most = view.trainees().stream().mapToInt(OfTrainee::known).max().orElse(0);
        if (most == 0) {
            return Optional.empty();
        }
        List<Layer> layers = new ArrayList<>();
        layers.add(band(words.get("funnel.outer"), Ink.OTHERS, rate, most, ComplicationsView.OUTER));
        layers.add(band(words.get("funnel.inner"), Ink.REFERENCE, rate, most, ComplicationsView.INNER));
        layers.add(new Layer.Level(words.get("funnel.rate", percent(rate)), Ink.FIT, 100 * rate));
        List<Layer.At> at = new ArrayList<>();
        for (OfTrainee one : view.trainees()) {
            Double share = one.share();
            if (share != null) {
                at.add(new Layer.At(one.known(), 100 * share, one.trainee()));
            }
        }
        layers.add(new Layer.Points(words.get("funnel.trainee"), Ink.MAIN, Mark.DISC, at, true));
        double top = Stream.concat(
                        at.stream().map(Layer.At::y),
                        Stream.of(100
                                * FunnelLimits.at(rate, Math.max(1, most / 4), ComplicationsView.OUTER)
                                        .upper()))
                .mapToDouble(y -> y)
                .max()
                .orElse(1);
        return Optional.of(new Chart(
                "funnel",
                words.get("funnel.title"),
                Axis.of(words.get("funnel.x"), "", 0, 1.15 * most, Axis.Scale.LINEAR),
                Axis.of(words.get("funnel.y"), "%", -0.03 * top, Math.min(100, 1.1 * top), Axis.Scale.LINEAR),
                layers,
                words.get("funnel.note", kinds(view)),
                sentence(view)));
    }

    private Layer band(String name, Ink ink, double rate, int most, double level) {
        TreeSet<Integer> at = new TreeSet<>(List.of(1, most));
        for (int i = 1; i < PLACES; i++) {
            at.add(Math.max(1, (int) Math.round((double) i * most / PLACES)));
        }
        return new Layer.Band(
                name,
                ink,
                at.stream()
                        .map(n -> {
                            Interval limits = FunnelLimits.at(rate, n, level);
                            return new Layer.Range(n, 100 * limits.lower(), 100 * limits.upper());
                        })
                        .toList());
    }

    private String kinds(ComplicationsView view) {
        return String.join(
                ", ",
                view.kinds().stream()
                        .map(id -> view.procedure()
                                .findEvent(id)
                                .map(e -> e.name())
                                .orElse(id))
                        .toList());
    }

    /** How often, over how many, and how many lie outside. */
    public String sentence(ComplicationsView view) {
        Double rate = view.rate();
        Interval limits = view.rateLimits();
        if (view.masked()) {
            return words.get("funnel.hidden", words.cases(view.known()), view.fewest());
        }
        if (rate == null || limits == null) {
            return words.get("funnel.none", words.cases(view.cases()));
        }
        long outside = view.trainees().stream()
                .filter(t -> {
                    Interval outer = t.outer();
                    Double share = t.share();
                    return outer != null && share != null && !outer.contains(share);
                })
                .count();
        long masked = view.trainees().stream().filter(OfTrainee::masked).count();
        return words.get(
                        "funnel.sentence",
                        words.cases(view.known()),
                        view.cases() - view.known(),
                        view.failures(),
                        percent(rate),
                        percent(limits.lower()),
                        percent(limits.upper()),
                        outside)
                + (masked == 0 ? "" : " " + words.get("funnel.masked", masked, view.fewest()));
    }

    private String percent(double share) {
        return words.get("percent", words.number(100 * share, 1));
    }

    /** Of one trainee, case by case; empty unless the log is stated to be complete. */
    public Optional<Chart> watch(ComplicationsView view, OfTrainee of) {
        return of.monitoring() instanceof Outcome.Found<Monitoring> found
                ? Optional.of(WatchChart.of(
                        words,
                        "watch-"
                                + of.trainee()
                                        .toLowerCase(java.util.Locale.ROOT)
                                        .replaceAll("[^a-z0-9_-]", "-"),
                        words.get("watch.of", of.trainee()),
                        view.procedure(),
                        of.numbered(),
                        found.value(),
                        sentences.monitoring(of.monitoring())))
                : Optional.empty();
    }

    /**
     * So many phases and steps to a chart that each name can be read.
     *
     * @param reference id of what it is held against; {@code null} for what comes first
     * @param steps whether the steps of phases are drawn too
     * @return none without a time
     */
    public List<Chart> times(CohortTimesView view, @Nullable String reference, boolean steps) {
        List<Term> terms = view.terms().stream().filter(t -> steps || !t.step()).toList();
        int charts = (terms.size() + MOST_TERMS - 1) / MOST_TERMS;
        List<Chart> all = new ArrayList<>();
        for (int i = 0; i < charts; i++) {
            all.add(times(
                    view,
                    terms.subList(i * terms.size() / charts, (i + 1) * terms.size() / charts),
                    reference,
                    i == 0 ? "cohort-times" : "cohort-times-" + (i + 1),
                    charts == 1 ? words.get("times.title") : words.get("times.title.part", i + 1, charts)));
        }
        return all;
    }

    private Chart times(CohortTimesView view, List<Term> terms, @Nullable String reference, String id, String title) {
        List<Axis.Tick> ticks = new ArrayList<>();
        List<Layer.At> trainees = new ArrayList<>();
        List<Layer.Stretch> halves = new ArrayList<>();
        List<Layer.At> middles = new ArrayList<>();
        List<Layer.Stretch> heldHalves = new ArrayList<>();
        List<Layer.At> heldMiddles = new ArrayList<>();
        String heldName = "";
        for (int i = 0; i < terms.size(); i++) {
            Term term = terms.get(i);
            double x = i + 1.0;
            String name = name(term);
            ticks.add(new Axis.Tick(x, shortName(view, term)));
            term.trainees().forEach(t -> trainees.add(new Layer.At(x - ASIDE, t.medianUs() / 1e6, t.trainee())));
            halves.add(new Layer.Stretch(x, term.lowUs() / 1e6, term.highUs() / 1e6, name));
            middles.add(new Layer.At(x, term.middleUs() / 1e6, name));
            Held held = held(term, reference).orElse(null);
            if (held != null) {
                heldName = sentences.heldName(held);
                heldHalves.add(new Layer.Stretch(
                        x + ASIDE, held.usual().lowUs() / 1e6, held.usual().highUs() / 1e6, name));
                heldMiddles.add(new Layer.At(x + ASIDE, held.usual().middleUs() / 1e6, name));
            }
        }
        List<Layer> layers = new ArrayList<>();
        layers.add(new Layer.Points(words.get("times.trainee"), Ink.MAIN, Mark.RING, trainees));
        layers.add(new Layer.Whiskers(words.get("times.halves"), Ink.FIT, halves));
        layers.add(new Layer.Points(words.get("times.middle"), Ink.FIT, Mark.SQUARE, middles));
        if (!heldHalves.isEmpty()) {
            layers.add(new Layer.Whiskers(words.get("times.held.halves", heldName), Ink.REFERENCE, heldHalves));
            layers.add(new Layer.Points(
                    words.get("times.held.middle", heldName), Ink.REFERENCE, Mark.TRIANGLE, heldMiddles));
        }
        double[] heights = Stream.concat(
                        Stream.concat(trainees.stream(), heldMiddles.stream()).map(Layer.At::y),
                        Stream.concat(halves.stream(), heldHalves.stream()).flatMap(s -> Stream.of(s.low(), s.high())))
                .mapToDouble(y -> y)
                .toArray();
        return new Chart(
                id,
                title,
                new Axis(words.get("times.x"), "", 0.4, terms.size() + 0.6, Axis.Scale.LINEAR, ticks),
                Axis.around(words.get("axis.time"), "s", Axis.Scale.LOG, heights),
                layers,
                timesNote(view, terms, reference),
                words.get(
                        "times.sentence",
                        String.join("; ", terms.stream().map(this::timed).toList())));
    }

    private String timed(Term term) {
        return words.get(
                "times.one",
                name(term),
                words.seconds(term.middleUs()),
                words.seconds(term.lowUs()),
                words.seconds(term.highUs()),
                term.trainees().size());
    }

    private String timesNote(CohortTimesView view, List<Term> terms, @Nullable String reference) {
        String note = words.get("times.note", terms.get(0).trainees().size(), view.last());
        String held = terms.stream()
                .map(t -> held(t, reference).orElse(null))
                .filter(Objects::nonNull)
                .findFirst()
                .map(sentences::held)
                .orElse("");
        return (note + " " + held).strip() + " " + words.get("note.caution");
    }

    /**
     * What a phase is held against.
     *
     * @param reference its id; {@code null} for the unit's exemplars, else published times of much experience
     */
    public static Optional<Held> held(Term term, @Nullable String reference) {
        return term.references().stream()
                .filter(h -> reference == null ? h.title().isEmpty() : h.id().equals(reference))
                .findFirst()
                .or(() -> reference != null
                        ? Optional.empty()
                        : term.references().stream()
                                .filter(h -> h.id().equals(USUAL))
                                .findFirst()
                                .or(() -> term.references().stream().findFirst()));
    }

    private String name(Term term) {
        return term.name().isEmpty() ? words.get("whole") : term.name();
    }

    private String shortName(CohortTimesView view, Term term) {
        return term.id().equals(ProgressView.WHOLE)
                ? words.get("times.whole")
                : view.procedure().terms().stream()
                        .filter(t -> t.id().equals(term.id()))
                        .map(t -> t.shortName())
                        .findFirst()
                        .orElse(term.name());
    }

    /** Each assessor less the others of the same cases; empty where no case was marked by two. */
    public Optional<Chart> assessors(CohortView view) {
        List<CohortView.Assessor> some = view.assessors().stream()
                .filter(a -> a.difference() != null)
                .sorted(Comparator.comparing(
                        CohortView.Assessor::difference, Comparator.nullsLast(Comparator.<Double>naturalOrder())))
                .toList();
        if (some.isEmpty()) {
            return Optional.empty();
        }
        List<Axis.Tick> ticks = new ArrayList<>();
        List<Layer.At> at = new ArrayList<>();
        List<Layer.Stretch> limits = new ArrayList<>();
        double edge = 1;
        for (int i = 0; i < some.size(); i++) {
            CohortView.Assessor one = some.get(i);
            double y = 100 * Objects.requireNonNullElse(one.difference(), 0.0);
            ticks.add(new Axis.Tick(i + 1.0, one.code()));
            at.add(new Layer.At(i + 1.0, y, one.code()));
            edge = Math.max(edge, Math.abs(y));
            if (one.lower() != null && one.upper() != null) {
                limits.add(new Layer.Stretch(i + 1.0, 100 * one.lower(), 100 * one.upper(), one.code()));
                edge = Math.max(edge, 100 * Math.max(Math.abs(one.lower()), Math.abs(one.upper())));
            }
        }
        List<Layer> layers = new ArrayList<>();
        layers.add(new Layer.Level(words.get("severity.zero"), Ink.REFERENCE, 0));
        if (!limits.isEmpty()) {
            layers.add(new Layer.Whiskers(words.get("severity.limits"), Ink.MAIN, limits));
        }
        layers.add(new Layer.Points(words.get("severity.mean"), Ink.MAIN, Mark.DISC, at));
        CohortView.Assessor first = some.get(0);
        CohortView.Assessor last = some.get(some.size() - 1);
        return Optional.of(new Chart(
                "assessors",
                words.get("severity.title"),
                new Axis(words.get("severity.x"), "", 0.4, some.size() + 0.6, Axis.Scale.LINEAR, ticks),
                Axis.of(words.get("axis.gap"), words.get("axis.gap.unit"), -1.1 * edge, 1.1 * edge, Axis.Scale.LINEAR),
                layers,
                words.get("severity.note"),
                words.get(
                        "severity.sentence",
                        some.size(),
                        first.code(),
                        words.number(100 * Objects.requireNonNullElse(first.difference(), 0.0), 1),
                        first.shared(),
                        last.code(),
                        words.number(100 * Objects.requireNonNullElse(last.difference(), 0.0), 1),
                        last.shared())));
    }
}
