package org.sideport.workflow.assign;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.sideport.demo.SimulatedProgramme;
import org.sideport.demo.SimulatedProgramme.Operation;
import org.sideport.workflow.SignedMark;

/** What the shares of a {@link SimulatedProgramme} vary by, and how sure the mean of a trainee's marks is, from the model. */
final class PrecisionTheory {

    private final SimulatedProgramme truth;
    private final double[] variances;

    PrecisionTheory(SimulatedProgramme truth) {
        this.truth = truth;
        this.variances = trueVariances();
    }

    /** Variance of expected shares between cases of a trainee: learning and chance. */
    double cases() {
        return variances[1];
    }

    /** Variance of a single mark. */
    double marks() {
        return variances[2];
    }

    /**
     * @param relative variance of the natural logarithm of {@code 1 − phi}
     * @param semError standard error of the standard error of measurement, as it is estimated
     */
    record Expected(double phi, double relative, double sem, double semError) {

        double lower(double z) {
            return 1 - (1 - phi) * Math.exp(z * Math.sqrt(relative));
        }

        double upper(double z) {
            return 1 - (1 - phi) * Math.exp(-z * Math.sqrt(relative));
        }
    }

    /**
     * For the mean over a trainee's cases, and over those who marked a case: each variance enters with the sum of the squared
     * weights of its levels (Brennan 2001, Generalizability Theory, section 4.1). The severities of the four assessors are
     * known; the mean square between the six trainees is non-central chi-square (Searle 1971, section 2.5), those within have
     * 2σ⁴ / degrees of freedom: 114 of cases within trainees, 15 of trainees by assessors, and of single marks one for each
     * mark that is not needed for those.
     */
    Expected of(List<SignedMark> shown, int thirds) {
        Map<String, Integer> ofCase = new HashMap<>();
        shown.forEach(m -> ofCase.merge(m.caseCode(), 1, Integer::sum));
        Map<String, Double> ofAssessor = new HashMap<>();
        double single = 0;
        for (SignedMark mark : shown) {
            double weight = 1.0 / ofCase.size() / ofCase.get(mark.caseCode());
            single += weight * weight;
            ofAssessor.merge(mark.assessor(), weight, Double::sum);
        }
        double assessors = ofAssessor.values().stream().mapToDouble(w -> w * w).sum();
        double[] severity = severities();
        double interaction = severity[1];
        double error = cases() / ofCase.size() + single * marks() + assessors * (severity[0] + interaction);
        int all = 240 + thirds;
        double perCell = all / 24.0;
        double its = Math.pow((cases() + marks() / 2) / ofCase.size(), 2) * 2 / 114
                + Math.pow(single * marks(), 2) * 2 / (all - 120 - 18)
                + Math.pow(assessors * (interaction + marks() / perCell), 2) * 2 / 15
                + Math.pow(assessors, 2) * 4 * severity[0] / 3 * marks() / (all / 4.0);
        double universe = ofTheSix();
        double lambda = 5 * universe / (cases() / SimulatedProgramme.CASES_EACH + marks() / 40);
        double ofUniverse = 2 * (5 + 2 * lambda) / Math.pow(5 + lambda, 2);
        double phi = universe / (universe + error);
        double sem = Math.sqrt(error);
        return new Expected(phi, phi * phi * (ofUniverse + its / (error * error)), sem, Math.sqrt(its) / (2 * sem));
    }

    /** Variance of expected shares between the four assessors, and of trainees by assessors beside it. */
    private double[] severities() {
        int trainees = SimulatedProgramme.TRAINEES;
        List<Double> put = List.copyOf(SimulatedProgramme.SEVERITY.values());
        double[][] cell = new double[trainees][put.size()];
        double[] ofTrainee = new double[trainees];
        double[] ofAssessor = new double[put.size()];
        for (Operation one : truth.operations()) {
            int t = one.trainee().charAt(2) - '1';
            for (int a = 0; a < put.size(); a++) {
                double share = truth.share(one.ability() - put.get(a))[0] / SimulatedProgramme.CASES_EACH;
                cell[t][a] += share;
                ofTrainee[t] += share / put.size();
                ofAssessor[a] += share / trainees;
            }
        }
        double mean = java.util.Arrays.stream(ofAssessor).average().orElseThrow();
        double between = 0;
        double rest = 0;
        for (int a = 0; a < put.size(); a++) {
            between += Math.pow(ofAssessor[a] - mean, 2) / (put.size() - 1);
            for (int t = 0; t < trainees; t++) {
                rest += Math.pow(cell[t][a] - ofTrainee[t] - ofAssessor[a] + mean, 2)
                        / (put.size() - 1)
                        / (trainees - 1);
            }
        }
        return new double[] {between, rest};
    }

    /** Of the true mean shares of the six trainees, by a severity of nought on average. */
    double ofTheSix() {
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
