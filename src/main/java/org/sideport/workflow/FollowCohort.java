package org.sideport.workflow;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.Score;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.agreement.AgreementSummary;
import org.sideport.stats.agreement.RatingMatrix;
import org.sideport.stats.data.Factor;
import org.sideport.stats.describe.MeanLimits;
import org.sideport.stats.rasch.Estimation;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.Markings;
import org.sideport.stats.rasch.StepModel;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Follows a cohort by one rubric. */
public final class FollowCohort {

    /** As many latest cases as the workbook takes. */
    public static final int USUAL_LAST = org.sideport.report.workbook.WorkbookData.USUAL_RECENT_CASES;

    private static final double LEVEL = 0.95;

    private final Workspace workspace;
    private final Clock clock;
    private final Vocabularies vocabularies;

    public FollowCohort(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * @param version {@code null} for the rubric's version in use now
     * @param last how many of the latest marked cases the means are over, at least 1
     * @param wish coefficient Φ to plan for, between 0 and 1
     * @param minutes of an assessor for one case, above 0
     * @throws InputException if there is no such rubric, or a number does not fit
     */
    public CohortView show(String rubricId, @Nullable String version, int last, double wish, double minutes) {
        Access.require(workspace, Permission.SEE_COHORT);
        if (last < 1 || !(wish > 0 && wish < 1) || !(minutes > 0)) {
            throw new InputException(
                    "a cohort cannot be shown over " + last + " cases, for a coefficient of " + wish + " at " + minutes
                            + " minutes",
                    null,
                    "write such as 6, 0.80 and 15");
        }
        return workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            List<SignedMark> marks = SignedMarks.of(stores, rubric).all();
            List<SurgicalCase> cases = stores.cases().all().stream()
                    .filter(c -> c.procedure().equals(rubric.procedure()))
                    .toList();
            return new CohortView(
                    rubric,
                    last,
                    rows(rubric, cases, marks, last),
                    missing(cases, marks),
                    work(stores, cases),
                    assessors(marks),
                    agreement(marks),
                    UnitPrecision.of(marks)
                            .flatMap(unit -> unit.fromNothing(wish, minutes)
                                    .map(plans -> new CohortView.Planner(wish, minutes, plans, unit.described()))));
        });
    }

    /**
     * Severity of each assessor in logits, out of all signed marks of level items. Each case stands for itself, so that a
     * trainee's learning does not look like severity; only cases that two or more marked tell of the difference.
     *
     * @param version {@code null} for the rubric's version in use now
     * @param level of the limits, such as 0.95
     * @return refused, in plain words, where the marks are too few
     * @throws InputException if there is no such rubric
     */
    public Outcome<ManyFacetRasch> severity(String rubricId, @Nullable String version, double level) {
        Access.require(workspace, Permission.SEE_COHORT);
        record Read(Rubric rubric, List<SignedMark> marks) {}
        Read read = workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            return new Read(rubric, SignedMarks.of(stores, rubric).all());
        });
        return severity(read.rubric(), read.marks(), level);
    }

    static Outcome<ManyFacetRasch> severity(Rubric rubric, List<SignedMark> signed, double level) {
        List<String> cases = new ArrayList<>();
        List<String> assessors = new ArrayList<>();
        List<String> items = new ArrayList<>();
        List<Integer> levels = new ArrayList<>();
        for (SignedMark mark : signed) {
            for (ItemScore score : mark.rating().scores()) {
                Integer points = score.pointsOrNull();
                Rubric.Item item = rubric.item(score.item()).orElse(null);
                if (points != null && item != null && item.kind() == Rubric.Kind.LEVEL) {
                    cases.add(mark.caseCode());
                    assessors.add(mark.assessor());
                    items.add(item.id());
                    levels.add(rubric.pointsOf(item).indexOf(points));
                }
            }
        }
        if (levels.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there is no signed mark of a level item with this rubric",
                    "have cases marked by two assessors each and signed");
        }
        Markings marks = new Markings(
                Factor.of("case", cases),
                Factor.of("assessor", assessors),
                Factor.of("item", items),
                levels.stream().mapToInt(Integer::intValue).toArray());
        return ManyFacetRasch.fit(marks, StepModel.RATING_SCALE, Estimation.BIAS_REDUCED, level);
    }

    static List<CohortView.Row> rows(Rubric rubric, List<SurgicalCase> cases, List<SignedMark> marks, int last) {
        Map<String, Integer> trainees = new TreeMap<>();
        cases.forEach(c -> trainees.merge(c.trainee(), 1, Integer::sum));
        Map<String, List<SignedMark>> byTrainee = new LinkedHashMap<>();
        marks.forEach(m ->
                byTrainee.computeIfAbsent(m.trainee(), t -> new ArrayList<>()).add(m));
        List<CohortView.Row> rows = new ArrayList<>();
        trainees.forEach((trainee, n) -> {
            List<SignedMark> own = byTrainee.getOrDefault(trainee, List.of());
            rows.add(new CohortView.Row(
                    trainee,
                    n,
                    cell(own, SignedMark::share, last),
                    rubric.domains().stream()
                            .map(domain -> cell(own, mark -> share(mark, domain.id()), last))
                            .toList()));
        });
        return rows;
    }

    private static @Nullable Double share(SignedMark mark, String domain) {
        return mark.score().domains().stream()
                .filter(d -> d.domain().equals(domain))
                .map(Score.DomainScore::share)
                .filter(Objects::nonNull)
                .findFirst()
                .orElse(null);
    }

    private static CohortView.Cell cell(
            List<SignedMark> marks, Function<SignedMark, @Nullable Double> share, int last) {
        List<Double> means = new ArrayList<>();
        LocalDate latest = null;
        for (List<SignedMark> ofCase : Decisions.byCase(marks).values()) {
            double[] shares = ofCase.stream()
                    .map(share)
                    .filter(Objects::nonNull)
                    .mapToDouble(s -> s)
                    .toArray();
            if (shares.length > 0) {
                means.add(Arrays.stream(shares).average().orElseThrow());
                latest = ofCase.get(0).date();
            }
        }
        double[] recent = means.subList(Math.max(0, means.size() - last), means.size()).stream()
                .mapToDouble(m -> m)
                .toArray();
        Interval limits = limits(recent);
        return new CohortView.Cell(
                means.size(),
                recent.length,
                recent.length == 0
                        ? null
                        : (Double) Arrays.stream(recent).average().orElseThrow(),
                limits == null ? null : (Double) Math.max(limits.lower(), 0),
                limits == null ? null : (Double) Math.min(limits.upper(), 1),
                latest);
    }

    private static @Nullable Interval limits(double[] values) {
        return MeanLimits.of(values, LEVEL) instanceof Outcome.Found<Estimate> found
                ? found.value().limits()
                : null;
    }

    private static List<CohortView.Missing> missing(List<SurgicalCase> cases, List<SignedMark> marks) {
        Set<String> marked = new HashSet<>();
        marks.forEach(m -> marked.add(m.caseCode()));
        return cases.stream()
                .filter(c -> !marked.contains(c.code()))
                .sorted(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code))
                .map(c -> new CohortView.Missing(c.code(), c.trainee(), c.date()))
                .toList();
    }

    private List<CohortView.Work> work(Stores stores, List<SurgicalCase> cases) {
        LocalDate today = LocalDate.now(clock);
        Set<String> codes = new HashSet<>();
        cases.forEach(c -> codes.add(c.code()));
        return stores.cohort().openWork().stream()
                .filter(w -> codes.contains(w.caseCode()))
                .map(w -> new CohortView.Work(
                        w.caseCode(),
                        w.trainee(),
                        w.assessor(),
                        w.dueOn(),
                        w.dueOn() != null && w.dueOn().isBefore(today)))
                .toList();
    }

    static List<CohortView.Assessor> assessors(List<SignedMark> marks) {
        Map<String, List<SignedMark>> byCase = Decisions.byCase(marks);
        Map<String, List<SignedMark>> byAssessor = new TreeMap<>();
        marks.forEach(m ->
                byAssessor.computeIfAbsent(m.assessor(), a -> new ArrayList<>()).add(m));
        List<CohortView.Assessor> rows = new ArrayList<>();
        byAssessor.forEach((code, own) -> {
            List<Double> differences = new ArrayList<>();
            for (SignedMark mark : own) {
                byCase.getOrDefault(mark.caseCode(), List.of()).stream()
                        .filter(other -> !other.assessor().equals(code))
                        .mapToDouble(SignedMark::share)
                        .average()
                        .ifPresent(others -> differences.add(mark.share() - others));
            }
            double[] all = differences.stream().mapToDouble(d -> d).toArray();
            Interval limits = limits(all);
            rows.add(new CohortView.Assessor(
                    code,
                    own.size(),
                    (int) own.stream().map(SignedMark::trainee).distinct().count(),
                    all.length,
                    all.length == 0
                            ? null
                            : (Double) Arrays.stream(all).average().orElseThrow(),
                    limits == null ? null : (Double) limits.lower(),
                    limits == null ? null : (Double) limits.upper()));
        });
        return rows;
    }

    static CohortView.@Nullable Agreement agreement(List<SignedMark> marks) {
        List<String> assessors =
                marks.stream().map(SignedMark::assessor).distinct().sorted().toList();
        Map<String, double[]> rows = new LinkedHashMap<>();
        for (SignedMark mark : marks) {
            for (ItemScore score : mark.rating().scores()) {
                if (score instanceof ItemScore.Marked marked) {
                    double[] row = rows.computeIfAbsent(mark.caseCode() + " " + score.item(), key -> {
                        double[] empty = new double[assessors.size()];
                        Arrays.fill(empty, Double.NaN);
                        return empty;
                    });
                    row[assessors.indexOf(mark.assessor())] = marked.points();
                }
            }
        }
        RatingMatrix table = new RatingMatrix(
                List.copyOf(rows.keySet()), assessors, rows.values().toArray(new double[0][]));
        return AgreementSummary.of(table) instanceof Outcome.Found<AgreementSummary> found
                ? new CohortView.Agreement(
                        found.value().comparisons(),
                        found.value().exact(),
                        found.value().withinOneLevel())
                : null;
    }
}
