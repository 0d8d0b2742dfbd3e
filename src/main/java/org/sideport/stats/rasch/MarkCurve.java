package org.sideport.stats.rasch;

/**
 * Probabilities of the scores of one mark as a function of the ability: proportional to {@code exp(score · ability +
 * logWeight)}.
 */
@SuppressWarnings("ArrayRecordComponent")
record MarkCurve(int[] scores, double[] logWeights) {

    /** Mean and central moments of the score. */
    record Moments(double mean, double variance, double third, double fourth) {}

    /** The same with the log weights raised by the score times so much: another facet's measure made part of it. */
    MarkCurve shifted(double by) {
        double[] weights = logWeights.clone();
        for (int k = 0; k < weights.length; k++) {
            weights[k] += scores[k] * by;
        }
        return new MarkCurve(scores, weights);
    }

    double[] probabilities(double ability) {
        double[] p = new double[scores.length];
        double highest = Double.NEGATIVE_INFINITY;
        for (int k = 0; k < p.length; k++) {
            p[k] = scores[k] * ability + logWeights[k];
            highest = Math.max(highest, p[k]);
        }
        double sum = 0;
        for (int k = 0; k < p.length; k++) {
            p[k] = Math.exp(p[k] - highest);
            sum += p[k];
        }
        for (int k = 0; k < p.length; k++) {
            p[k] /= sum;
        }
        return p;
    }

    /** Log of the sum that makes the probabilities. */
    double logSum(double ability) {
        return logWeights[0] + scores[0] * ability - Math.log(probabilities(ability)[0]);
    }

    double mean(double ability) {
        return moments(ability).mean();
    }

    Moments moments(double ability) {
        double[] p = probabilities(ability);
        double mean = 0;
        for (int k = 0; k < p.length; k++) {
            mean += p[k] * scores[k];
        }
        double variance = 0;
        double third = 0;
        double fourth = 0;
        for (int k = 0; k < p.length; k++) {
            double d = scores[k] - mean;
            variance += p[k] * d * d;
            third += p[k] * d * d * d;
            fourth += p[k] * d * d * d * d;
        }
        return new Moments(mean, variance, third, fourth);
    }
}
