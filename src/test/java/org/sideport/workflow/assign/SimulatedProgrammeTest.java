package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.SingularValueDecomposition;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.SimulatedPanel;
import org.sideport.demo.SimulatedProgramme;
import org.sideport.demo.SimulatedProgramme.Operation;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.MarkingRules;
import org.sideport.model.RatingState;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.rubric.Scorer;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.stats.Estimate;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.gtheory.DStudy;
import org.sideport.stats.gtheory.GStudy;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.Measure;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.CutProposal;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.DecisionView;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.Precision;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.assign.Adjudication.Stage;
import org.sideport.workflow.assign.CutTheory.Known;

/**
 * A whole programme in a real store, from giving cases to what the figures say, each person under an account of the own role.
 * All that must come out was put in ({@link SimulatedProgramme}); the limits follow from the model and the design, by the
 * formulas named at each check, before anything is estimated.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SimulatedProgrammeTest {

    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();
    /** Two-sided, 1 in 1000 by chance for one figure. */
    private static final double Z = 3.29;

    @TempDir
    static Path dir;

    private final Clock clock = Clock.systemUTC();
    private ProgrammeRun run;
    private SimulatedProgramme truth;
    private Workspace workspace;
    private Workspace director;
    private Map<String, List<String>> markers;
    private int thirds;
    private CutProposal cut;
    private Standard kept;
    private LocalDate agreedOn;

    @BeforeAll
    void runTheProgramme() {
        run = new ProgrammeRun(dir, RUBRIC, 20_260_301L, clock);
        truth = run.truth();
        workspace = run.workspace();
        director = run.director();
        markers = run.markers();
        thirds = run.thirds();
        setTheStandard();
    }

    private void setTheStandard() {
        SimulatedPanel panel = new SimulatedPanel(truth, 1971);
        Map<String, Map<String, Double>> said = panel.judgements();
        StandardRounds rounds = new StandardRounds(director, clock);
        String round = rounds.open(RUBRIC.id(), List.copyOf(said.keySet()), "borderline: may go on without the trainer")
                .round()
                .id();
        said.forEach((judge, points) -> new StandardRounds(
                        workspace.as(new Caller.Person(judge, Set.of(Role.ASSESSOR))), clock)
                .judge(round, judge, points));
        rounds.close(round, List.of(), "");
        Standards standards = new Standards(director, clock);
        cut = standards.propose(RUBRIC.id(), null, new CutBasis.Judged(round)).orElseThrow();
        agreedOn = LocalDate.now(clock);
        kept = standards.agree(cut, List.of("P1", "J1", "J2"), agreedOn, "after discussion");
    }

    @AfterAll
    void close() {
        run.close();
    }

    @Test
    void everyCaseIsMarkedBlindByTwoAndNothingIsLeftOver() {
        List<StoredRating> ratings = run.marks();
        assertThat(ratings).hasSize(240 + thirds).allSatisfy(r -> {
            assertThat(r.state()).isEqualTo(RatingState.SIGNED);
            assertThat(r.rating().blind()).isTrue();
        });
        assertThat(markers)
                .hasSize(120)
                .allSatisfy((code, by) -> assertThat(by).hasSizeBetween(2, 3).doesNotHaveDuplicates());
        assertThat(new Assignments(director, clock).all())
                .hasSize(240 + thirds)
                .allMatch(a -> a.state() == Assignment.State.DONE);
        assertThat(run.ofMarks(new Adjudication(director, clock)))
                .hasSize(thirds)
                .allMatch(d -> d.stage() == Stage.SETTLED);
        assertThat(workspace.read(stores -> stores.audit().all()).stream()
                        .filter(e -> e.deed().equals("marks.adjudicate")))
                .hasSize(thirds);
        assertThat(new CaseList(director).newest(-1)).hasSize(120);
    }

    /**
     * How many cases differ too much: each pair's difference of shares is nearly normal with a mean and variance that the
     * model gives; the count of those beyond the limit then has mean Σp and variance Σp(1 − p). Items far apart are put out
     * of the way for this, by counting from the marks as the rule says.
     */
    @Test
    void asManyCasesAskForAThirdAsTheModelSays() {
        double mean = 0;
        double variance = 0;
        int found = 0;
        Map<String, Operation> byCode = new HashMap<>();
        truth.operations().forEach(o -> byCode.put(o.code(), o));
        for (Map.Entry<String, List<String>> one : markers.entrySet()) {
            Operation operation = byCode.get(one.getKey());
            List<String> two = workspace.read(stores -> stores.assignments().ofCase(one.getKey())).stream()
                    .filter(a -> a.purpose() != Purpose.THIRD)
                    .map(Assignment::assessor)
                    .toList();
            double[] first = truth.share(operation.ability() - SimulatedProgramme.SEVERITY.get(two.get(0)));
            double[] second = truth.share(operation.ability() - SimulatedProgramme.SEVERITY.get(two.get(1)));
            double sd = Math.sqrt(first[1] + second[1]);
            // half a point of continuity, a point being one part of the maximum of all items
            double limit =
                    MarkingRules.USUAL.shareLimit() - .5 / (4.0 * RUBRIC.items().size());
            double p = normal((-limit - (first[0] - second[0])) / sd) + normal((-limit + first[0] - second[0]) / sd);
            mean += p;
            variance += p * (1 - p);
            MarkGap gap = MarkGap.of(RUBRIC, truth.rate(operation, two.get(0)), truth.rate(operation, two.get(1)));
            found += Math.abs(gap.shareGap()) >= MarkingRules.USUAL.shareLimit() - 1e-9 ? 1 : 0;
        }
        System.out.printf(
                "simulated programme: %d of 120 beyond the share limit, expected %.1f (SD %.1f); %d thirds%n",
                found, mean, Math.sqrt(variance), thirds);
        assertThat((double) found).isBetween(mean - Z * Math.sqrt(variance) - 1, mean + Z * Math.sqrt(variance) + 1);
        assertThat(thirds).isGreaterThanOrEqualTo(found);
    }

    private static double normal(double z) {
        return new org.hipparchus.distribution.continuous.NormalDistribution().cumulativeProbability(z);
    }

    /**
     * Information on the difference of two assessors that a case gives them, given the sum of both: V₁V₂/(V₁ + V₂), where V is
     * the variance of an assessor's sum of levels by the model. Over all cases that makes the information matrix; its
     * pseudo-inverse is the covariance of severities that add up to 0 (Fischer 1973; Searle 1971, section 5.4).
     */
    private Map<String, Double> standardErrors() {
        List<String> assessors = List.copyOf(SimulatedProgramme.SEVERITY.keySet());
        RealMatrix information = new Array2DRowRealMatrix(4, 4);
        for (Operation one : truth.operations()) {
            List<String> by = markers.get(one.code());
            double total = 0;
            double[] v = new double[4];
            for (String a : by) {
                v[assessors.indexOf(a)] = truth.sumOfLevels(one.ability() - SimulatedProgramme.SEVERITY.get(a))[1];
                total += v[assessors.indexOf(a)];
            }
            for (int i = 0; i < 4; i++) {
                for (int j = 0; j < 4; j++) {
                    information.addToEntry(i, j, (i == j ? v[i] : 0) - v[i] * v[j] / total);
                }
            }
        }
        RealMatrix covariance =
                new SingularValueDecomposition(information).getSolver().getInverse();
        Map<String, Double> errors = new LinkedHashMap<>();
        for (int i = 0; i < 4; i++) {
            errors.put(assessors.get(i), Math.sqrt(covariance.getEntry(i, i)));
        }
        return errors;
    }

    @Test
    void severitiesComeBackWithinWhatTheDesignAllows() {
        ManyFacetRasch fit = new FollowCohort(director, clock)
                .severity(RUBRIC.id(), null, .95, 0)
                .orElseThrow()
                .fit();
        Map<String, Double> errors = standardErrors();
        for (Measure measure : fit.assessors()) {
            double put = SimulatedProgramme.SEVERITY.get(measure.label());
            double error = errors.get(measure.label());
            Estimate found = measure.logits();
            System.out.printf(
                    "simulated programme: %s severity %.2f, found %.3f (SE %.3f), by theory SE %.3f%n",
                    measure.label(), put, found.value(), found.se(), error);
            assertThat(found.value()).isBetween(put - Z * error, put + Z * error);
            // what is said of the uncertainty agrees with theory, to a tenth for the steps and difficulties found too
            assertThat(found.se() / error).isBetween(.85, 1.15);
        }
        assertThat(fit.assessorsAlike().p()).isLessThan(.001);
    }

    /**
     * Learning: a case's measure has its ability, plus an error with the inverse of the information of the assessors' sums,
     * plus the chance of the case. The slope on ln n of 20 cases then has the variance of weighted least squares.
     */
    @Test
    void learningComesBackOfEachTrainee() {
        ManyFacetRasch fit = new FollowCohort(director, clock)
                .severity(RUBRIC.id(), null, .95, 0)
                .orElseThrow()
                .fit();
        Map<String, Double> measures = new HashMap<>();
        fit.trainees().stream()
                .filter(m -> m.logits() != null)
                .forEach(m -> measures.put(m.label(), m.logits().value()));
        double put = 0;
        double slope = 0;
        double variance = 0;
        for (int t = 1; t <= SimulatedProgramme.TRAINEES; t++) {
            String trainee = "T0" + t;
            List<Operation> own = truth.operations().stream()
                    .filter(o -> o.trainee().equals(trainee))
                    .toList();
            double meanX = own.stream()
                    .mapToDouble(o -> Math.log(o.number()))
                    .average()
                    .orElseThrow();
            double sxx = own.stream()
                    .mapToDouble(o -> Math.pow(Math.log(o.number()) - meanX, 2))
                    .sum();
            double one = 0;
            double its = 0;
            for (Operation o : own) {
                double weight = (Math.log(o.number()) - meanX) / sxx;
                double information = markers.get(o.code()).stream()
                        .mapToDouble(a -> truth.sumOfLevels(o.ability() - SimulatedProgramme.SEVERITY.get(a))[1])
                        .sum();
                one += weight * measures.get(o.code());
                its += weight * weight * (1 / information + Math.pow(SimulatedProgramme.CASE_SD, 2));
            }
            assertThat(one)
                    .as(trainee)
                    .isBetween(truth.gain(trainee) - Z * Math.sqrt(its), truth.gain(trainee) + Z * Math.sqrt(its));
            put += truth.gain(trainee) / SimulatedProgramme.TRAINEES;
            slope += one / SimulatedProgramme.TRAINEES;
            variance += its / Math.pow(SimulatedProgramme.TRAINEES, 2);
        }
        System.out.printf(
                "simulated programme: mean gain %.3f, found %.3f, by theory SE %.3f%n",
                put, slope, Math.sqrt(variance));
        assertThat(slope).isBetween(put - Z * Math.sqrt(variance), put + Z * Math.sqrt(variance));
    }

    /**
     * The coefficient for ranking of a trainee's mean over 20 cases by two assessors each, for these six trainees. Their true
     * means are known, so that the mean square between them follows a non-central chi-square with 5 degrees of freedom and
     * non-centrality λ = 5 · true variance / error variance (Searle 1971, section 2.5), whose relative variance is
     * 2(5 + 2λ)/(5 + λ)²; the mean square within has 2/114. From these come the limits of ln(1 − G).
     */
    @Test
    void theCoefficientComesBackWithinItsLimits() {
        PrecisionTheory theory = new PrecisionTheory(truth);
        double cases = SimulatedProgramme.CASES_EACH;
        // relative error: cases within trainees, and marks within cases, two of each
        double relative = theory.cases() / cases + theory.marks() / (2 * cases);
        double universe = theory.ofTheSix();
        double g = universe / (universe + relative);
        GStudy study =
                GStudy.of(shares(), "trainee", Map.of(), GStudy.Method.REML).orElseThrow();
        DStudy.Coefficients found = new DStudy(study.design(), Map.of("case", 20, "assessor", 2), Set.of())
                .coefficients(study)
                .orElseThrow();
        double lambda = 5 * universe / relative;
        double sd = Math.sqrt(2 * (5 + 2 * lambda) / Math.pow(5 + lambda, 2) + 2.0 / 114);
        double lower = 1 - (1 - g) * Math.exp(Z * sd);
        double upper = 1 - (1 - g) * Math.exp(-Z * sd);
        System.out.printf(
                "simulated programme: G for ranking %.3f by theory, found %.3f, limits %.3f to %.3f; phi found %.3f%n",
                g, found.g(), lower, upper, found.phi());
        assertThat(lower).isGreaterThan(.7);
        assertThat(found.g()).isBetween(lower, upper);
        assertThat(found.phi()).isLessThanOrEqualTo(found.g());
        // cases within trainees, by chi-square with 114 degrees of freedom, and the marks' own chance adding to both
        double within = study.lines().stream()
                .filter(l -> l.effect().facets().contains("case")
                        && !l.effect().facets().contains("assessor"))
                .mapToDouble(l -> l.variance())
                .sum();
        double spread = Math.sqrt(2.0 / 114) * (theory.cases() + theory.marks() / 2);
        assertThat(within).isBetween(theory.cases() - Z * spread, theory.cases() + Z * spread);
    }

    /** Of all signed marks. */
    private LongData shares() {
        List<StoredRating> signed = run.marks();
        Map<String, String> trainees = new HashMap<>();
        truth.operations().forEach(o -> trainees.put(o.code(), o.trainee()));
        return new LongData(
                List.of(
                        Factor.of(
                                "trainee",
                                signed.stream()
                                        .map(r -> trainees.get(r.caseCode()))
                                        .toList()),
                        Factor.of(
                                "case",
                                signed.stream().map(StoredRating::caseCode).toList()),
                        Factor.of(
                                "assessor",
                                signed.stream().map(r -> r.rating().assessor()).toList())),
                signed.stream()
                        .mapToDouble(r -> Scorer.score(RUBRIC, r.rating()).share())
                        .toArray());
    }

    /** What judges who see the borderline trainee would say, closed and agreed as people do it; limits by {@link CutTheory}. */
    @Test
    void theJudgesCutComesBackAndIsAgreed() {
        double most = RUBRIC.items().stream().mapToDouble(RUBRIC::maximumOf).sum();
        Known put = CutTheory.angoff(truth, most);
        Known error = CutTheory.angoffError(truth, most);
        tell("judges' cut", put, cut);
        assertThat(cut.share()).isBetween(put.value() - Z * put.se(), put.value() + Z * put.se());
        assertThat(cut.standardError()).isBetween(error.value() - Z * error.se(), error.value() + Z * error.se());
        assertThat(put.value()).isBetween(cut.lower(), cut.upper());
        // the borderline trainee's expected share, not that of another ability a third of a logit away
        assertThat(Math.abs(cut.share() - truth.share(SimulatedPanel.BORDERLINE + .33)[0]))
                .isGreaterThan(Z * put.se());

        assertThat(new Standards(director, clock).all()).containsExactly(kept);
        assertThat(kept.rubricVersion()).isEqualTo(RUBRIC.version());
        assertThat(kept.number()).isEqualTo(1);
        assertThat(kept.agreedOn()).isEqualTo(agreedOn);
        assertThat(kept.agreedBy()).containsExactly("P1", "J1", "J2");
        assertThat(kept.setBy()).isEqualTo("P1");
    }

    /** Global grades that the same assessors gave apart, of every fourth of the cases; limits by {@link CutTheory}. */
    @Test
    void borderlineRegressionComesBack() {
        double[] standings = markers.entrySet().stream()
                .filter(e -> run.isGraded(e.getKey()))
                .flatMapToDouble(e -> e.getValue().stream()
                        .mapToDouble(a -> run.operation(e.getKey()).ability() - SimulatedProgramme.SEVERITY.get(a)))
                .toArray();
        for (double grade : new double[] {2, 2.5, 3}) {
            CutProposal cut = new Standards(director, clock)
                    .propose(RUBRIC.id(), null, new CutBasis.Line(new CutBasis.Grades(ProgrammeRun.GRADE, null), grade))
                    .orElseThrow();
            Known put = CutTheory.regression(truth, standings, grade);
            tell("borderline regression at " + grade, put, cut);
            assertThat(cut.n()).isEqualTo(standings.length);
            assertThat(cut.share()).isBetween(put.value() - Z * put.se(), put.value() + Z * put.se());
            assertThat(put.value()).isBetween(cut.lower(), cut.upper());
        }
    }

    /** A panel sorts cases by what it sees of their ability; a case has one score, over those who marked it. */
    @Test
    void contrastingGroupsComeBack() {
        SimulatedPanel.Sorted sorted = new SimulatedPanel(truth, 1982).sort();
        CutProposal cut = new Standards(director, clock)
                .propose(
                        RUBRIC.id(),
                        null,
                        new CutBasis.Groups(
                                CutBasis.Members.CASES,
                                sorted.weaker().stream().map(Operation::code).toList(),
                                sorted.stronger().stream().map(Operation::code).toList()))
                .orElseThrow();
        Known put = CutTheory.crossing(scores(sorted.weaker()), scores(sorted.stronger()));
        tell("contrasting groups", put, cut);
        assertThat(cut.share()).isBetween(put.value() - Z * put.se(), put.value() + Z * put.se());
        assertThat(put.value()).isBetween(cut.lower(), cut.upper());
    }

    private List<CutTheory.Score> scores(List<Operation> operations) {
        return operations.stream()
                .map(o -> {
                    List<double[]> by = markers.get(o.code()).stream()
                            .map(a -> truth.share(o.ability() - SimulatedProgramme.SEVERITY.get(a)))
                            .toList();
                    int k = by.size();
                    return new CutTheory.Score(
                            by.stream().mapToDouble(s -> s[0]).sum() / k,
                            by.stream().mapToDouble(s -> s[1]).sum() / k / k);
                })
                .toList();
    }

    private static void tell(String what, Known put, CutProposal cut) {
        System.out.printf(
                "simulated programme: %s %.4f by theory (SE %.4f), found %.4f (SE said %.4f), limits %.4f to %.4f%n",
                what, put.value(), put.se(), cut.share(), cut.standardError(), cut.lower(), cut.upper());
    }

    /**
     * What a panel has before it: all of a trainee's cases, then the latest two only, with wishes that theory says are met, are
     * not met, and where chance decides. Limits of Φ by {@link PrecisionTheory}.
     */
    @Test
    void theDecisionViewSaysWhatTheoryKnowsAndWhereItIsNotEnough() {
        PrecisionTheory theory = new PrecisionTheory(truth);
        Decisions decisions = new Decisions(director, clock);
        int enough = 0;
        int tooFew = 0;
        for (int t = 1; t <= SimulatedProgramme.TRAINEES; t++) {
            for (int last : new int[] {0, 2}) {
                for (double wish : new double[] {.5, Decisions.USUAL_WISH, .95}) {
                    DecisionView view =
                            decisions.show(new Decisions.Question("T0" + t, RUBRIC.id(), null, last, wish, 15));
                    Precision found = view.precision().orElseThrow();
                    PrecisionTheory.Expected put = theory.of(view.marks(), thirds);
                    String what = view.trainee() + " last " + last + " wish " + wish;
                    assertThat(view.cases()).as(what).isEqualTo(last == 0 ? SimulatedProgramme.CASES_EACH : last);
                    assertThat(found.coefficients().phi()).as(what).isBetween(put.lower(Z), put.upper(Z));
                    assertThat(found.coefficients().semAbsolute())
                            .as(what)
                            .isBetween(put.sem() - Z * put.semError(), put.sem() + Z * put.semError());
                    if (put.lower(Z) >= wish) {
                        enough++;
                        assertThat(found.enough()).as(what).isTrue();
                        assertThat(found.more()).as(what).isEmpty();
                    } else if (put.upper(Z) < wish) {
                        tooFew++;
                        assertThat(found.enough()).as(what).isFalse();
                        assertThat(DecisionFigures.of(view)).containsEntry("enough", false);
                        assertThat(found.more()).as(what).allMatch(m -> m.phi() >= wish);
                    }
                    assertThat(view.standard()).isEqualTo(kept);
                    assertThat(view.distance()).isEqualTo(view.mean() - kept.share());
                    if (wish == Decisions.USUAL_WISH) {
                        System.out.printf(
                                "simulated programme: %s last %d: phi %.3f by theory, found %.3f; SEM %.4f, found"
                                        + " %.4f; %s%n",
                                view.trainee(),
                                view.cases(),
                                put.phi(),
                                found.coefficients().phi(),
                                put.sem(),
                                found.coefficients().semAbsolute(),
                                found.enough() ? "enough" : "not enough");
                    }
                }
            }
        }
        assertThat(enough).isPositive();
        assertThat(tooFew).isPositive();
    }
}
