package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.SingularValueDecomposition;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.SimulatedProgramme;
import org.sideport.demo.SimulatedProgramme.Operation;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.MarkingRules;
import org.sideport.model.RatingState;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
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
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.assign.Adjudication.Disagreement;
import org.sideport.workflow.assign.Adjudication.Stage;

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

    private final SimulatedProgramme truth = new SimulatedProgramme(RUBRIC, 20_260_301L);
    private final Clock clock = Clock.systemUTC();

    @TempDir
    static Path dir;

    private Workspace workspace;
    private Workspace director;
    /** Who marked each case, in the order of giving. */
    private final Map<String, List<String>> markers = new LinkedHashMap<>();

    private int thirds;

    @BeforeAll
    void runTheProgramme() {
        workspace = Workspace.create(dir);
        director = workspace.as(new Caller.Person("P1", Set.of(Role.DIRECTOR)));
        truth.operations().forEach(o -> workspace.change(s -> s.cases().add(truth.surgicalCase(o))));
        Assignments assignments = new Assignments(director, clock);
        List<String> assessors = List.copyOf(SimulatedProgramme.SEVERITY.keySet());
        // weak trainees meet severe assessors more often, which raw means would take for severity
        for (int a = 0; a < 4; a++) {
            int which = a;
            List<String> firsts = truth.operations().stream()
                    .filter(o -> (o.trainee().charAt(2) + o.number() / 7) % 4 == which)
                    .map(Operation::code)
                    .toList();
            assignments.give(firsts, assessors.get(a), new Assignments.Terms(Purpose.FIRST, Hidden.ALL, null));
        }
        SecondDraw.Drawn drawn =
                assignments.draw(List.of(), 1, 7, new Assignments.Terms(Purpose.SECOND, Hidden.ALL, null), true);
        assertThat(drawn.isConnected()).isTrue();
        assertThat(drawn.pairs()).hasSize(120);
        assessors.forEach(this::markAll);
        settle(assignments, assessors);
    }

    @AfterAll
    void close() {
        workspace.close();
    }

    /** The assessor works through what is open, knowing labels only. */
    private void markAll(String assessor) {
        Workspace own = workspace.as(new Caller.Person(assessor, Set.of(Role.ASSESSOR)));
        Map<String, Operation> byCode = new HashMap<>();
        truth.operations().forEach(o -> byCode.put(o.code(), o));
        for (Assignments.Work work : new Assignments(own, clock).mine(assessor)) {
            if (work.assignment().state() == Assignment.State.OPEN) {
                assertThat(work.code()).startsWith("M-");
                // what is seen in the operation: only this test knows which it is
                Assignment known = workspace
                        .read(stores -> stores.assignments().find(work.code()))
                        .orElseThrow();
                MarkCase marking = new MarkCase(own);
                marking.rate(work.code(), truth.rate(byCode.get(known.caseCode()), assessor));
                marking.sign(work.code(), RUBRIC.id(), assessor, false);
            }
        }
    }

    private void settle(Assignments assignments, List<String> assessors) {
        Adjudication adjudication = new Adjudication(director, clock);
        for (Disagreement one : adjudication.disagreements()) {
            assertThat(one.stage()).isEqualTo(Stage.THIRD_WANTED);
            String third = assessors.stream()
                    .filter(a -> !one.assessors().containsKey(a))
                    .findFirst()
                    .orElseThrow();
            assignments.give(List.of(one.caseCode()), third, new Assignments.Terms(Purpose.THIRD, Hidden.ALL, null));
            thirds++;
        }
        assessors.forEach(this::markAll);
        for (Disagreement one : adjudication.disagreements()) {
            assertThat(one.stage()).isEqualTo(Stage.TO_SETTLE);
            String middle = one.assessors().entrySet().stream()
                    .sorted(Map.Entry.comparingByValue())
                    .skip(1)
                    .findFirst()
                    .orElseThrow()
                    .getKey();
            adjudication.letStand(one.caseCode(), one.rubric(), middle, "P1", "the middle one of three");
        }
        for (StoredRating one : workspace.read(stores -> stores.ratings().all())) {
            markers.computeIfAbsent(one.caseCode(), c -> new java.util.ArrayList<>())
                    .add(one.rating().assessor());
        }
    }

    @Test
    void everyCaseIsMarkedBlindByTwoAndNothingIsLeftOver() {
        List<StoredRating> ratings = workspace.read(stores -> stores.ratings().all());
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
        assertThat(new Adjudication(director, clock).disagreements())
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
        double[] true_ = trueVariances();
        double cases = SimulatedProgramme.CASES_EACH;
        // relative error: cases within trainees, and marks within cases, two of each
        double relative = true_[1] / cases + true_[2] / (2 * cases);
        double universe = varianceOfTheSix();
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
        double spread = Math.sqrt(2.0 / 114) * (true_[1] + true_[2] / 2);
        assertThat(within).isBetween(true_[1] - Z * spread, true_[1] + Z * spread);
    }

    /** Of all signed marks. */
    private LongData shares() {
        List<StoredRating> signed = director
                .<List<StoredRating>>read(s -> s.ratings().all())
                .stream()
                .filter(r -> r.state() == RatingState.SIGNED && !r.rating().self())
                .toList();
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

    /** Of the true mean shares of the six trainees, by a severity of nought on average. */
    private double varianceOfTheSix() {
        double[] means = new double[SimulatedProgramme.TRAINEES];
        for (Operation one : truth.operations()) {
            for (double severity : SimulatedProgramme.SEVERITY.values()) {
                means[one.trainee().charAt(2) - '1'] +=
                        truth.share(truth.expected(one.trainee(), one.number()) - severity)[0]
                                / (4 * SimulatedProgramme.CASES_EACH);
            }
        }
        double mean = java.util.Arrays.stream(means).average().orElseThrow();
        return java.util.Arrays.stream(means).map(m -> (m - mean) * (m - mean)).sum() / (means.length - 1);
    }

    /** Of expected shares: between trainees, between cases of a trainee (learning and chance), and of single marks. */
    private double[] trueVariances() {
        Random random = new Random(11);
        int n = 4000;
        double[] means = new double[n];
        double within = 0;
        double marks = 0;
        for (int t = 0; t < n; t++) {
            double start = SimulatedProgramme.MEAN_START + SimulatedProgramme.START_SD * random.nextGaussian();
            double gain = SimulatedProgramme.MEAN_GAIN + SimulatedProgramme.GAIN_SD * random.nextGaussian();
            double[] shares = new double[SimulatedProgramme.CASES_EACH];
            for (int c = 0; c < shares.length; c++) {
                double ability = start + gain * Math.log(c + 1.0) + SimulatedProgramme.CASE_SD * random.nextGaussian();
                for (double severity : SimulatedProgramme.SEVERITY.values()) {
                    double[] share = truth.share(ability - severity);
                    shares[c] += share[0] / 4;
                    marks += share[1] / (4.0 * n * shares.length);
                }
            }
            means[t] = java.util.Arrays.stream(shares).average().orElseThrow();
            double mean = means[t];
            within += java.util.Arrays.stream(shares)
                            .map(s -> (s - mean) * (s - mean))
                            .sum()
                    / (shares.length - 1)
                    / n;
        }
        double mean = java.util.Arrays.stream(means).average().orElseThrow();
        double between =
                java.util.Arrays.stream(means).map(m -> (m - mean) * (m - mean)).sum() / (n - 1);
        return new double[] {between - within / SimulatedProgramme.CASES_EACH, within, marks};
    }
}
