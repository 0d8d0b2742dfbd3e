package org.sideport.workflow;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
import org.sideport.workflow.consent.CountedCases;

/** Follows a cohort by one rubric. */
public final class FollowCohort {

    /** As many latest cases as the workbook takes. */
    public static final int USUAL_LAST = org.sideport.report.workbook.WorkbookData.USUAL_RECENT_CASES;

    /** As many latest cases tell of severity; a choice of ours: older ones say little of the present. */
    public static final int USUAL_SEVERITY_CASES = 300;

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
     * What to show.
     *
     * @param version {@code null} for the rubric's version in use now
     * @param last how many of the latest marked cases the means are over, at least 1
     * @param wish coefficient Φ to plan for, between 0 and 1
     * @param minutes of an assessor for one case, above 0
     */
    public record Question(
            String rubric, @Nullable String version, int last, CohortView.By by, double wish, double minutes) {

        public Question {
            if (last < 1 || !(wish > 0 && wish < 1) || !(minutes > 0)) {
                throw new InputException(
                        "a cohort cannot be shown over " + last + " cases, for a coefficient of " + wish + " at "
                                + minutes + " minutes",
                        null,
                        "write such as 6, 0.80 and 15");
            }
        }

        /** As usual. */
        public static Question of(String rubric) {
            return new Question(
                    rubric, null, USUAL_LAST, CohortView.By.DOMAIN, Decisions.USUAL_WISH, Decisions.USUAL_MINUTES);
        }
    }

    /**
     * @throws InputException if there is no such rubric
     */
    public CohortView show(Question asked) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> {
            Rubric rubric = SignedMarks.rubric(stores, vocabularies, asked.rubric(), asked.version())
                    .rubric();
            List<SurgicalCase> all = stores.cases().bare();
            List<SignedMark> marks = SignedMarks.of(
                            stores, rubric, all, stores.ratings().signed(rubric.id()))
                    .all();
            CountedCases counted = CountedCases.forAssessment(stores, all);
            List<SurgicalCase> cases = counted.cases().stream()
                    .filter(c -> c.procedure().equals(rubric.procedure()))
                    .toList();
            List<CohortView.Competency> competencies = competencies(rubric, asked.by());
            return new CohortView(
                    rubric,
                    asked.last(),
                    competencies,
                    rows(competencies, cases, marks, asked.last()),
                    missing(cases, marks),
                    work(stores, cases),
                    assessors(marks),
                    agreement(marks),
                    UnitPrecision.of(marks)
                            .flatMap(unit -> unit.fromNothing(asked.wish(), asked.minutes())
                                    .map(plans -> new CohortView.Planner(
                                            asked.wish(), asked.minutes(), plans, unit.described()))),
                    counted.leftOut(rubric.procedure()));
        });
    }

    /**
     * Which rubric is meant.
     *
     * @param id empty for the one with most signed marks of assessors
     * @throws InputException if there is no such rubric, or no mark yet
     */
    public Rubric rubric(String id, @Nullable String version) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(
                stores -> SignedMarks.rubric(stores, vocabularies, id, version).rubric());
    }

    /**
     * The marks behind a cell, the latest case first; single marks as everywhere only where they may be shown.
     *
     * @param competency id of a domain or item; {@code null} for all items
     * @throws InputException if there is no such rubric or competency
     */
    public CellMarks marks(String rubricId, @Nullable String version, String trainee, @Nullable String competency) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            return CellMarks.of(
                    rubric,
                    trainee,
                    competency,
                    SignedMarks.of(stores, rubric, trainee).all(),
                    stores.ratings().reached(trainee, Access.marks(stores.caller())),
                    code -> stores.cases()
                            .find(code)
                            .filter(c -> c.recording() != null)
                            .isPresent());
        });
    }

    /**
     * Severity of each assessor in logits, out of all signed marks of level items. Each case stands for itself, so that a
     * trainee's learning does not look like severity; only cases that two or more marked tell of the difference.
     *
     * @param version {@code null} for the rubric's version in use now
     * @param level of the limits, such as 0.95
     * @param most the latest so many cases that several marked, where there are more; 0 for all cases. Each case has a
     *     parameter of its own, so thousands of them take minutes
     * @return refused, in plain words, where the marks are too few
     * @throws InputException if there is no such rubric
     */
    public Outcome<Severity> severity(String rubricId, @Nullable String version, double level, int most) {
        Access.require(workspace, Permission.SEE_COHORT);
        record Read(Rubric rubric, List<SignedMark> marks) {}
        Read read = workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            return new Read(rubric, SignedMarks.of(stores, rubric).all());
        });
        return severity(read.rubric(), read.marks(), level, most);
    }

    static Outcome<Severity> severity(Rubric rubric, List<SignedMark> signed, double level, int most) {
        List<SignedMark> latest = latest(signed, most);
        List<String> cases = new ArrayList<>();
        List<String> assessors = new ArrayList<>();
        List<String> items = new ArrayList<>();
        List<Integer> levels = new ArrayList<>();
        List<Integer> pointsOf =
                rubric.levels().stream().map(Rubric.Level::points).sorted().toList();
        // where points go up by one they are the levels, as the marking screen shows them; else levels are counted from
        // 0
        boolean inSteps =
                !pointsOf.isEmpty() && pointsOf.get(pointsOf.size() - 1) - pointsOf.get(0) == pointsOf.size() - 1;
        for (SignedMark mark : latest) {
            for (ItemScore score : mark.rating().scores()) {
                Integer points = score.pointsOrNull();
                Rubric.Item item = rubric.item(score.item()).orElse(null);
                if (points != null && item != null && item.kind() == Rubric.Kind.LEVEL) {
                    cases.add(mark.caseCode());
                    assessors.add(mark.assessor());
                    items.add(item.id());
                    levels.add(inSteps ? points : pointsOf.indexOf(points));
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
        int leftOut = Decisions.byCase(signed).size() - Decisions.byCase(latest).size();
        return ManyFacetRasch.fit(marks, StepModel.RATING_SCALE, Estimation.BIAS_REDUCED, level)
                .map(fit -> new Severity(fit, leftOut));
    }

    /** @param leftOut marked cases that are not in it, since there are too many or only one assessor marked them */
    public record Severity(ManyFacetRasch fit, int leftOut) {}

    private static List<SignedMark> latest(List<SignedMark> marks, int most) {
        Map<String, List<SignedMark>> byCase = Decisions.byCase(marks);
        if (most == 0 || byCase.size() <= most) {
            return marks;
        }
        List<List<SignedMark>> several =
                byCase.values().stream().filter(of -> of.size() > 1).toList();
        return several.subList(Math.max(0, several.size() - most), several.size()).stream()
                .flatMap(List::stream)
                .toList();
    }

    static List<CohortView.Competency> competencies(Rubric rubric, CohortView.By by) {
        return by == CohortView.By.DOMAIN
                ? rubric.domains().stream()
                        .map(d -> new CohortView.Competency(d.id(), d.title(), 0))
                        .toList()
                : rubric.items().stream()
                        .map(i -> new CohortView.Competency(i.id(), i.title(), rubric.maximumOf(i)))
                        .toList();
    }

    static List<CohortView.Row> rows(
            List<CohortView.Competency> competencies, List<SurgicalCase> cases, List<SignedMark> marks, int last) {
        Map<String, Integer> trainees = new TreeMap<>();
        cases.forEach(c -> trainees.merge(c.trainee(), 1, Integer::sum));
        Map<String, List<SignedMark>> byTrainee = new HashMap<>();
        marks.forEach(m ->
                byTrainee.computeIfAbsent(m.trainee(), t -> new ArrayList<>()).add(m));
        List<CohortView.Row> rows = new ArrayList<>();
        trainees.forEach((trainee, n) -> {
            var own =
                    Decisions.byCase(byTrainee.getOrDefault(trainee, List.of())).values();
            rows.add(new CohortView.Row(
                    trainee,
                    n,
                    cell(own, SignedMark::share, last),
                    competencies.stream()
                            .map(one -> cell(own, mark -> share(mark, one), last))
                            .toList()));
        });
        return rows;
    }

    /** Of the applicable maximum; {@code null} if nothing of it is marked. */
    static @Nullable Double share(SignedMark mark, CohortView.Competency of) {
        if (of.most() > 0) {
            for (ItemScore score : mark.rating().scores()) {
                if (score.item().equals(of.id())) {
                    Integer points = score.pointsOrNull();
                    return points == null ? null : (Double) ((double) points / of.most());
                }
            }
            return null;
        }
        for (Score.DomainScore domain : mark.score().domains()) {
            if (domain.domain().equals(of.id())) {
                return domain.share();
            }
        }
        return null;
    }

    private static CohortView.Cell cell(
            Collection<List<SignedMark>> byCase, Function<SignedMark, @Nullable Double> share, int last) {
        double[] means = new double[byCase.size()];
        int n = 0;
        LocalDate latest = null;
        for (List<SignedMark> ofCase : byCase) {
            double sum = 0;
            int marked = 0;
            for (SignedMark mark : ofCase) {
                Double of = share.apply(mark);
                if (of != null) {
                    sum += of;
                    marked++;
                }
            }
            if (marked > 0) {
                means[n++] = sum / marked;
                latest = ofCase.get(0).date();
            }
        }
        double[] recent = Arrays.copyOfRange(means, Math.max(0, n - last), n);
        Interval limits = limits(recent);
        return new CohortView.Cell(
                n,
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

    private static double[] unmarked(int assessors) {
        double[] empty = new double[assessors];
        Arrays.fill(empty, Double.NaN);
        return empty;
    }

    static CohortView.@Nullable Agreement agreement(List<SignedMark> marks) {
        List<String> assessors =
                marks.stream().map(SignedMark::assessor).distinct().sorted().toList();
        Map<String, Integer> column = new HashMap<>();
        assessors.forEach(a -> column.put(a, column.size()));
        List<String> names = new ArrayList<>();
        List<double[]> rows = new ArrayList<>();
        for (List<SignedMark> ofCase : Decisions.byCase(marks).values()) {
            Map<String, double[]> ofItem = new LinkedHashMap<>();
            for (SignedMark mark : ofCase) {
                int at = column.getOrDefault(mark.assessor(), 0);
                for (ItemScore score : mark.rating().scores()) {
                    if (score instanceof ItemScore.Marked marked) {
                        ofItem.computeIfAbsent(score.item(), key -> unmarked(assessors.size()))[at] = marked.points();
                    }
                }
            }
            // a table of a whole unit names its rows only to be told apart
            ofItem.values().forEach(row -> {
                names.add(String.valueOf(names.size()));
                rows.add(row);
            });
        }
        RatingMatrix table = new RatingMatrix(names, assessors, rows.toArray(new double[0][]));
        return AgreementSummary.of(table) instanceof Outcome.Found<AgreementSummary> found
                ? new CohortView.Agreement(
                        found.value().comparisons(),
                        found.value().exact(),
                        found.value().withinOneLevel())
                : null;
    }
}
