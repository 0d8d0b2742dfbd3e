package org.sideport.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;

/**
 * A programme of which everything is known: 6 trainees who learn, 4 assessors of known severity, 120 cases. An item's level
 * is drawn by the rating scale model (Andrich 1978, Psychometrika 43:561): the log odds of level k against k − 1 are
 * ability − severity − difficulty − step, in logits. A trainee's ability in the n-th case is start + gain · ln n + chance of
 * the case. The same seed gives the same programme.
 */
public final class SimulatedProgramme {

    /** In logits, adding up to 0: A1 is severe, A4 lenient. */
    public static final Map<String, Double> SEVERITY = severity();

    /** Spread of the trainees' abilities at their first case, of their gains, and of cases of one trainee, in logits. */
    public static final double START_SD = 0.9;

    public static final double MEAN_START = -0.8;
    public static final double MEAN_GAIN = 0.6;
    public static final double GAIN_SD = 0.15;
    public static final double CASE_SD = 0.5;

    public static final int TRAINEES = 6;
    public static final int CASES_EACH = 20;

    private static final double DIFFICULTY_SD = 0.5;
    /** Between neighbouring levels; they add up to 0. */
    private static final double STEP_WIDTH = 1.6;
    /** Of the global grade, 1 to {@link #GRADES}: of middling difficulty. */
    private static final double GRADE_WIDTH = 1.2;

    public static final int GRADES = 5;

    private final Rubric rubric;
    private final long seed;
    private final Map<String, Double> difficulty = new LinkedHashMap<>();
    private final Map<String, Double> start = new LinkedHashMap<>();
    private final Map<String, Double> gain = new LinkedHashMap<>();
    private final List<Operation> operations = new ArrayList<>();

    /** @param ability of the trainee in this case, logits */
    public record Operation(String code, String trainee, int number, double ability) {}

    public SimulatedProgramme(Rubric rubric, long seed) {
        this.rubric = rubric;
        this.seed = seed;
        Random random = new Random(seed);
        double mean = 0;
        for (Rubric.Item item : rubric.items()) {
            double drawn = DIFFICULTY_SD * random.nextGaussian();
            difficulty.put(item.id(), drawn);
            mean += drawn / rubric.items().size();
        }
        double centre = mean;
        difficulty.replaceAll((item, value) -> value - centre);
        for (int t = 1; t <= TRAINEES; t++) {
            String trainee = "T0" + t;
            start.put(trainee, MEAN_START + START_SD * random.nextGaussian());
            gain.put(trainee, MEAN_GAIN + GAIN_SD * random.nextGaussian());
            for (int n = 1; n <= CASES_EACH; n++) {
                operations.add(new Operation(
                        String.format(java.util.Locale.ROOT, "S-%03d", 100 * t + n),
                        trainee,
                        n,
                        expected(trainee, n) + CASE_SD * random.nextGaussian()));
            }
        }
    }

    private static Map<String, Double> severity() {
        Map<String, Double> severity = new LinkedHashMap<>();
        severity.put("A1", 0.7);
        severity.put("A2", 0.2);
        severity.put("A3", -0.2);
        severity.put("A4", -0.7);
        return java.util.Collections.unmodifiableMap(severity);
    }

    public Rubric rubric() {
        return rubric;
    }

    /** By trainee, then in the order of time. */
    public List<Operation> operations() {
        return operations;
    }

    public double gain(String trainee) {
        return gain.get(trainee);
    }

    /** Ability in the n-th case without the chance of the case. */
    public double expected(String trainee, int number) {
        return start.get(trainee) + gain.get(trainee) * Math.log(number);
    }

    /** The case without a recording, one a week. */
    public SurgicalCase surgicalCase(Operation one) {
        return new SurgicalCase(
                one.code(),
                one.trainee(),
                LocalDate.of(2026, 1, 5).plusWeeks(one.number()),
                rubric.procedure(),
                Map.of(),
                null);
    }

    /** An assessor's marks of a case: always the same ones. */
    public Rating rate(Operation one, String assessor) {
        Random random = new Random(seed ^ (one.code() + assessor).hashCode() * 0x9E3779B97F4A7C15L);
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            int level = drawn(chances(one.ability() - SEVERITY.get(assessor), item), random);
            scores.add(new ItemScore.Marked(item.id(), rubric.pointsOf(item).get(level), ""));
        }
        return new Rating(rubric.id(), rubric.version(), assessor, false, false, scores, "");
    }

    /** An assessor's global grade of a case, 1 to {@link #GRADES}, drawn apart from the marks: always the same one. */
    public int grade(Operation one, String assessor) {
        Random random = new Random(seed ^ (assessor + "grade" + one.code()).hashCode() * 0x9E3779B97F4A7C15L);
        return 1 + drawn(gradeChances(one.ability() - SEVERITY.get(assessor)), random);
    }

    /** Chances of the global grades, lowest first, that a standing brings. */
    public double[] gradeChances(double standing) {
        return chances(standing, GRADES - 1, GRADE_WIDTH);
    }

    private static int drawn(double[] chances, Random random) {
        double u = random.nextDouble();
        int level = 0;
        while (level < chances.length - 1 && u >= chances[level]) {
            u -= chances[level];
            level++;
        }
        return level;
    }

    /** Mean points of each item, in the rubric's order, that a standing brings. */
    public double[] expectedPoints(double standing) {
        return rubric.items().stream()
                .mapToDouble(item -> {
                    double[] chances = chances(standing, item);
                    double mean = 0;
                    for (int k = 0; k < chances.length; k++) {
                        mean += chances[k] * rubric.pointsOf(item).get(k);
                    }
                    return mean;
                })
                .toArray();
    }

    /** Chances of the levels of an item, lowest first. */
    private double[] chances(double standing, Rubric.Item item) {
        return chances(
                standing - difficulty.get(item.id()), rubric.pointsOf(item).size() - 1, STEP_WIDTH);
    }

    private static double[] chances(double standing, int steps, double width) {
        double[] chances = new double[steps + 1];
        chances[0] = 1;
        double sum = 1;
        for (int k = 1; k <= steps; k++) {
            double step = width * (k - (steps + 1) / 2.0);
            chances[k] = chances[k - 1] * Math.exp(standing - step);
            sum += chances[k];
        }
        for (int k = 0; k <= steps; k++) {
            chances[k] /= sum;
        }
        return chances;
    }

    /** Mean and variance of the sum of levels, 0 for the lowest, that a standing (ability less severity) brings. */
    public double[] sumOfLevels(double standing) {
        double mean = 0;
        double variance = 0;
        for (Rubric.Item item : rubric.items()) {
            double[] chances = chances(standing, item);
            double m = 0;
            double squares = 0;
            for (int k = 0; k < chances.length; k++) {
                m += k * chances[k];
                squares += k * k * chances[k];
            }
            mean += m;
            variance += squares - m * m;
        }
        return new double[] {mean, variance};
    }

    /** Mean and variance of the share of the applicable maximum that a standing brings; all weights equal. */
    public double[] share(double standing) {
        double lowest = 0;
        double most = 0;
        for (Rubric.Item item : rubric.items()) {
            lowest += rubric.pointsOf(item).get(0);
            most += rubric.maximumOf(item);
        }
        double[] sum = sumOfLevels(standing);
        return new double[] {(lowest + sum[0]) / most, sum[1] / (most * most)};
    }
}
