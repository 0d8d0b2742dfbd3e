package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.report.workbook.UnitFigures.Complications;
import org.sideport.report.workbook.UnitFigures.CurvePlace;
import org.sideport.report.workbook.UnitFigures.Learning;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.monitoring.BinaryChart;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.workflow.ComplicationsView.OfTrainee;
import org.sideport.workflow.ComputeTimings.TimedCase;
import org.sideport.workflow.ProgressTimes.Tagged;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.ProgressView.Timed;
import org.sideport.workflow.consent.CountedCases;

/** Times and complications over the cases of every trainee, for the workbook, by the rules of {@link FollowProgress}. */
final class WorkbookCourse {

    private static final double LEVEL = 0.95;

    private final int recent;
    private final CompleteLogs logs;
    private final List<Learning> learning = new ArrayList<>();
    private final List<CurvePlace> curves = new ArrayList<>();
    private final List<Complications> complications = new ArrayList<>();

    WorkbookCourse(int recent, CompleteLogs logs) {
        this.recent = recent;
        this.logs = logs;
    }

    List<Learning> learning() {
        return learning;
    }

    List<CurvePlace> curves() {
        return curves;
    }

    List<Complications> complications() {
        return complications;
    }

    /**
     * @param cases of the procedure
     * @param counted says which of all cases count, and so which are left out here
     * @param timed every tagging of these cases
     */
    void add(
            Procedure procedure,
            List<SurgicalCase> cases,
            CountedCases counted,
            List<TimedCase> timed,
            Map<String, List<Cut>> cuts,
            Progress progress) {
        Map<String, List<TimedCase>> byCase = timed.stream()
                .collect(Collectors.groupingBy(t -> t.surgicalCase().code()));
        Map<String, List<SurgicalCase>> byTrainee = cases.stream()
                .sorted(java.util.Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code))
                .collect(Collectors.groupingBy(SurgicalCase::trainee, TreeMap::new, Collectors.toList()));
        List<String> kinds = ProgressWatch.kinds(procedure);
        List<OfTrainee> rows = new ArrayList<>();
        int done = 0;
        for (Map.Entry<String, List<SurgicalCase>> own : byTrainee.entrySet()) {
            progress.check();
            progress.report((double) done++ / byTrainee.size(), own.getKey());
            List<OneCase> numbered = new ArrayList<>();
            List<Tagged> tagged = new ArrayList<>();
            Map<String, Collection<Tagging>> taggings = new HashMap<>();
            for (SurgicalCase one : own.getValue()) {
                OneCase of = new OneCase(numbered.size() + 1, one.code(), one.date(), CaseMix.of(one.descriptors()));
                numbered.add(of);
                List<TimedCase> all = byCase.getOrDefault(one.code(), List.of());
                taggings.put(one.code(), all.stream().map(TimedCase::tagging).toList());
                Tagging counting = counting(one.code(), all);
                if (counting != null) {
                    tagged.add(new Tagged(one, of.number(), counting, cuts.getOrDefault(one.code(), List.of())));
                }
            }
            times(procedure, own.getKey(), numbered, tagged);
            rows.add(UnitComplications.row(
                    procedure,
                    kinds,
                    own.getKey(),
                    numbered,
                    taggings,
                    logs.has(own.getKey(), procedure.id()),
                    UnitComplications.ofTrainee(counted, procedure, own.getKey())
                            .cases()));
        }
        ComplicationsView unit = UnitComplications.limited(procedure, kinds, rows, 0, counted.leftOut(procedure.id()));
        unit.trainees().forEach(of -> complications.add(complications(unit, of)));
    }

    /** Whose tags count: see {@link WhichTagging}. */
    private static @Nullable Tagging counting(String caseCode, List<TimedCase> all) {
        Map<String, Integer> spans = new HashMap<>();
        for (TimedCase one : all) {
            if (!one.tagging().spans().isEmpty()) {
                spans.put(one.timing().annotator(), one.tagging().spans().size());
            }
        }
        if (spans.isEmpty()) {
            return null;
        }
        String who = WhichTagging.most(spans, caseCode);
        return all.stream()
                .filter(t -> t.timing().annotator().equals(who))
                .findFirst()
                .map(TimedCase::tagging)
                .orElseThrow();
    }

    private void times(Procedure procedure, String trainee, List<OneCase> cases, List<Tagged> tagged) {
        List<Map<String, @Nullable Long>> byCase =
                tagged.stream().map(one -> ProgressTimes.of(procedure, one)).toList();
        if (byCase.isEmpty()) {
            return;
        }
        Learning whole =
                learning(procedure, trainee, ProgressView.WHOLE, "Whole operation", cases, tagged, byCase, true);
        learning.add(whole);
        for (Procedure.Term term : procedure.terms()) {
            if (!term.isStep() && !term.phase().idle() && byCase.stream().anyMatch(t -> t.containsKey(term.id()))) {
                learning.add(learning(procedure, trainee, term.id(), term.name(), cases, tagged, byCase, false));
            }
        }
    }

    private Learning learning(
            Procedure procedure,
            String trainee,
            String id,
            String name,
            List<OneCase> cases,
            List<Tagged> tagged,
            List<Map<String, @Nullable Long>> byCase,
            boolean drawn) {
        List<Timed> own = new ArrayList<>();
        int unsure = 0;
        for (int i = 0; i < byCase.size(); i++) {
            Long us = byCase.get(i).get(id);
            if (us != null && us > 0) {
                own.add(new Timed(cases.get(tagged.get(i).number() - 1), us));
            } else if (byCase.get(i).containsKey(id)) {
                unsure++;
            }
        }
        Outcome<Curve> fitted = ProgressTimes.curve(own, false);
        Outcome<Change> compared = ProgressTimes.change(own, recent);
        Curve curve = fitted instanceof Outcome.Found<Curve> found ? found.value() : null;
        Change change = compared instanceof Outcome.Found<Change> found ? found.value() : null;
        List<CurvePlace> places = curve == null
                ? List.of()
                : curve.places().stream()
                        .map(p ->
                                new CurvePlace(procedure.id(), trainee, p.caseNumber(), p.us(), p.lowUs(), p.highUs()))
                        .toList();
        if (drawn) {
            curves.addAll(places);
        }
        var doubling = curve == null ? null : curve.doubling();
        Interval doublingLimits = doubling == null ? null : finite(doubling.limits());
        Interval ratioLimits = change == null ? null : change.ratio().limits();
        return new Learning(
                procedure.id(),
                trainee,
                id,
                name,
                own.size(),
                unsure,
                curve == null ? null : curve.model().name().toLowerCase(Locale.ROOT),
                curve == null ? null : (Boolean) curve.showsChange(),
                places.isEmpty() ? null : places.get(0),
                places.isEmpty() ? null : places.get(places.size() - 1),
                doubling == null ? null : (Double) doubling.value(),
                doublingLimits == null ? null : (Double) doublingLimits.lower(),
                doublingLimits == null ? null : (Double) doublingLimits.upper(),
                change == null ? null : (Integer) change.recent(),
                change == null ? null : (Integer) change.earlier(),
                change == null ? null : (Double) change.recentUs(),
                change == null ? null : (Double) change.earlierUs(),
                change == null ? null : (Double) change.ratio().value(),
                ratioLimits == null ? null : (Double) ratioLimits.lower(),
                ratioLimits == null ? null : (Double) ratioLimits.upper(),
                note(fitted, compared));
    }

    private static @Nullable Interval finite(@Nullable Interval limits) {
        return limits != null && Double.isFinite(limits.lower()) && Double.isFinite(limits.upper()) ? limits : null;
    }

    private static String note(Outcome<Curve> fitted, Outcome<Change> compared) {
        List<String> notes = new ArrayList<>();
        if (fitted instanceof Outcome.Refused<Curve> refused) {
            notes.add("no curve: " + refused.refusal().why());
        }
        if (compared instanceof Outcome.Refused<Change> refused) {
            notes.add("no comparison: " + refused.refusal().why());
        }
        return String.join("; ", notes);
    }

    private static Complications complications(ComplicationsView unit, OfTrainee of) {
        int known = of.known();
        Interval limits = known == 0 ? null : BinomialLimits.CLOPPER_PEARSON.of(of.failures(), known, LEVEL);
        Interval near = of.inner();
        Interval far = of.outer();
        BinaryChart chart = of.monitoring() instanceof Outcome.Found<Monitoring> found
                ? found.value().chart()
                : null;
        ChartPoint last =
                chart == null ? null : chart.points().get(chart.points().size() - 1);
        return new Complications(
                unit.procedure().id(),
                of.trainee(),
                of.cases(),
                known,
                of.failures(),
                String.join(", ", unit.kinds()),
                of.share(),
                limits == null ? null : (Double) limits.lower(),
                limits == null ? null : (Double) limits.upper(),
                unit.rate(),
                near == null ? null : (Double) near.lower(),
                near == null ? null : (Double) near.upper(),
                far == null ? null : (Double) far.lower(),
                far == null ? null : (Double) far.upper(),
                last == null ? null : (Double) last.statistic(),
                last == null ? null : last.upper(),
                chart == null ? refused(of.monitoring()) : state(chart));
    }

    private static String refused(Outcome<Monitoring> watched) {
        Refusal refusal = ((Outcome.Refused<Monitoring>) watched).refusal();
        return "no chart: " + refusal.why();
    }

    private static String state(BinaryChart chart) {
        ChartPoint accepted = chart.first(SignalKind.ACCEPTED);
        ChartPoint alarm = chart.first(SignalKind.ALARM);
        if (accepted == null) {
            return "learning: no signal yet";
        }
        return "signal of an adequate rate at case " + accepted.caseNumber()
                + (alarm == null
                        ? "; none of a worse one since"
                        : "; signal of a worse one at case " + alarm.caseNumber());
    }
}
