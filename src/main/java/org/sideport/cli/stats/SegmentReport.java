package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.segments.LabelConfusion;
import org.sideport.stats.segments.LabelOrder;
import org.sideport.stats.segments.PooledAgreement;
import org.sideport.stats.segments.Segment;
import org.sideport.stats.segments.SegmentMatching.BoundaryDeviations;
import org.sideport.stats.segments.SegmentSequence;
import org.sideport.stats.segments.SegmentalScore;
import org.sideport.stats.segments.TaggerAgreement;

/** How the agreement of two taggers is said. */
record SegmentReport(
        List<String> pair, List<Case> cases, List<String> order, Bootstrap bootstrap, List<String> leftOut) {

    private static final String NO_PHASE = "(no phase)";

    record Case(String code, SegmentSequence reference, SegmentSequence other, TaggerAgreement agreement) {}

    Answer answer() {
        List<LabelConfusion> times =
                cases.stream().map(c -> c.agreement().time()).toList();
        LabelConfusion all = times.stream().reduce(LabelConfusion::plus).orElseThrow();
        List<String> warnings = new ArrayList<>(leftOut);
        @Nullable Estimate kappa = null;
        if (PooledAgreement.kappa(times, bootstrap) instanceof Outcome.Found<Estimate> found) {
            kappa = found.value();
            warnings.addAll(kappa.warnings());
        } else {
            warnings.add("There is no kappa: both used one and the same phase throughout.");
        }
        double accuracy = all.accuracy().orElseThrow();
        List<String> lines = new ArrayList<>(Answer.lines(caseTable()));
        lines.add("");
        lines.add("Overlap of each phase (time with it by both over time with it by either), all cases:");
        lines.addAll(Answer.lines(overlapTable(all)));
        if (!order.isEmpty()) {
            lines.add("");
            lines.add("Distance from the standard order:");
            lines.addAll(Answer.lines(orderTable()));
        }
        lines.add("");
        lines.add("All cases: accuracy " + Figures.percent(accuracy) + ", kappa "
                + (kappa == null ? "–" : Figures.of(kappa)));
        Map<String, @Nullable Object> json = Json.object(
                "reference",
                pair.get(0),
                "other",
                pair.get(1),
                "accuracy",
                accuracy,
                "kappa",
                kappa == null ? null : Figures.json(kappa),
                "overlap",
                overlap(all),
                "cases",
                cases.stream().map(this::json).toList());
        return new Answer(
                json,
                lines,
                warnings,
                "The two taggers gave the same phase to " + Figures.percent(accuracy)
                        + " of the time; agreement says that tags can be repeated, not that they are right, and long phases"
                        + " weigh most in it: look at each phase's overlap too.");
    }

    private TextTable caseTable() {
        TextTable table = new TextTable(
                "case",
                ">accuracy",
                ">kappa",
                ">edit",
                ">F1@10",
                ">F1@25",
                ">F1@50",
                ">boundaries median s",
                ">95 % s",
                ">missed",
                ">extra");
        for (Case c : cases) {
            TaggerAgreement a = c.agreement();
            BoundaryDeviations b = a.boundaries();
            table.row(
                    c.code(),
                    Figures.percent(a.time().accuracy().orElseThrow()),
                    Figures.plain(value(a.time().kappa())),
                    Figures.plain(a.editScore(), 1),
                    Figures.plain(a.f1().get(0).f1()),
                    Figures.plain(a.f1().get(1).f1()),
                    Figures.plain(a.f1().get(2).f1()),
                    b == null ? "–" : Figures.plain(b.medianAbsoluteUs() / 1e6),
                    b == null ? "–" : Figures.plain(b.p95AbsoluteUs() / 1e6),
                    Integer.toString(a.matching().missed().size()),
                    Integer.toString(a.matching().extra().size()));
        }
        return table;
    }

    private static TextTable overlapTable(LabelConfusion all) {
        TextTable table = new TextTable("phase", ">overlap");
        for (String label : all.labels()) {
            Double iou = all.intersectionOverUnion(label);
            if (iou != null) {
                table.row(label.equals(LabelConfusion.NO_LABEL) ? NO_PHASE : label, Figures.plain(iou));
            }
        }
        return table;
    }

    private TextTable orderTable() {
        TextTable table =
                new TextTable("case", "annotator", ">edits", ">share", ">pairs the other way", ">of", "missing");
        for (Case c : cases) {
            orderRow(table, c.code(), pair.get(0), c.reference());
            orderRow(table, c.code(), pair.get(1), c.other());
        }
        return table;
    }

    private void orderRow(TextTable table, String code, String annotator, SegmentSequence sequence) {
        LabelOrder.StandardDistance d = LabelOrder.distance(sequence, order);
        table.row(
                code,
                annotator,
                Integer.toString(d.editDistance()),
                Figures.plain(d.normalised()),
                Integer.toString(d.discordantPairs()),
                Integer.toString(d.pairs()),
                String.join(", ", d.missing()));
    }

    private static List<Object> overlap(LabelConfusion confusion) {
        List<Object> list = new ArrayList<>();
        for (String label : confusion.labels()) {
            Double iou = confusion.intersectionOverUnion(label);
            if (iou != null) {
                list.add(Json.object("phase", label.equals(LabelConfusion.NO_LABEL) ? null : label, "overlap", iou));
            }
        }
        return list;
    }

    private Map<String, @Nullable Object> json(Case c) {
        TaggerAgreement a = c.agreement();
        BoundaryDeviations b = a.boundaries();
        LabelConfusion frames = a.frames();
        return Json.object(
                "case",
                c.code(),
                "compared_us",
                a.time().total(),
                "accuracy",
                a.time().accuracy().orElseThrow(),
                "kappa",
                value(a.time().kappa()),
                "frames",
                frames == null
                        ? null
                        : Json.object(
                                "compared",
                                frames.total(),
                                "accuracy",
                                value(frames.accuracy()),
                                "kappa",
                                value(frames.kappa())),
                "overlap",
                overlap(a.time()),
                "edit_score",
                a.editScore(),
                "f1",
                a.f1().stream().map(SegmentReport::json).toList(),
                "boundaries",
                b == null
                        ? null
                        : Json.object(
                                "n",
                                b.n(),
                                "mean_us",
                                Math.round(b.meanUs()),
                                "median_absolute_us",
                                Math.round(b.medianAbsoluteUs()),
                                "p95_absolute_us",
                                Math.round(b.p95AbsoluteUs()),
                                "max_absolute_us",
                                Math.round(b.maxAbsoluteUs())),
                "missed",
                a.matching().missed().stream().map(SegmentReport::json).toList(),
                "extra",
                a.matching().extra().stream().map(SegmentReport::json).toList(),
                "orders",
                List.of(order(pair.get(0), c.reference()), order(pair.get(1), c.other())));
    }

    private Map<String, @Nullable Object> order(String annotator, SegmentSequence sequence) {
        LabelOrder found = LabelOrder.of(sequence);
        LabelOrder.@Nullable StandardDistance d = order.isEmpty() ? null : LabelOrder.distance(sequence, order);
        return Json.object(
                "annotator",
                annotator,
                "episodes",
                found.episodes().stream()
                        .map(e -> Json.object(
                                "phase",
                                e.label(),
                                "count",
                                e.count(),
                                "returns",
                                e.returns(),
                                "total_us",
                                e.totalUs()))
                        .toList(),
                "transitions",
                found.transitions(),
                "standard",
                d == null
                        ? null
                        : Json.object(
                                "edit_distance",
                                d.editDistance(),
                                "edit_distance_share",
                                d.normalised(),
                                "discordant_pairs",
                                d.discordantPairs(),
                                "pairs",
                                d.pairs(),
                                "missing",
                                d.missing()));
    }

    private static Map<String, @Nullable Object> json(SegmentalScore score) {
        return Json.object(
                "overlap_percent",
                score.percent(),
                "f1",
                score.f1(),
                "true_positives",
                score.truePositives(),
                "false_positives",
                score.falsePositives(),
                "false_negatives",
                score.falseNegatives());
    }

    private static Map<String, @Nullable Object> json(Segment segment) {
        return Json.object("phase", segment.label(), "start_us", segment.startUs(), "end_us", segment.endUs());
    }

    private static @Nullable Double value(Outcome<Double> outcome) {
        return outcome instanceof Outcome.Found<Double> found ? found.value() : null;
    }
}
