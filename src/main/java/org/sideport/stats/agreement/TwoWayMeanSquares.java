package org.sideport.stats.agreement;

/**
 * Mean squares of a complete table of subjects by raters without replication (Shrout & Fleiss 1979, Psychological Bulletin
 * 86:420, table 1), in squared units of the score.
 *
 * @param subjects n
 * @param raters k
 * @param betweenSubjects BMS, with n − 1 degrees of freedom
 * @param withinSubjects WMS, with n (k − 1)
 * @param betweenRaters JMS, with k − 1
 * @param error EMS, with (n − 1)(k − 1)
 */
public record TwoWayMeanSquares(
        int subjects, int raters, double betweenSubjects, double withinSubjects, double betweenRaters, double error) {

    /** Below this share of the largest score, a root mean square is rounding of the input and stands for zero. */
    private static final double ROUNDING = 1e-12;

    /**
     * From centred scores, so that a large common level costs no digits.
     *
     * @param scores at least two rows of the same length, at least 2, without gaps
     */
    static TwoWayMeanSquares of(double[][] scores) {
        int n = scores.length;
        int k = scores[0].length;
        double origin = scores[0][0];
        double grand = 0;
        double largest = 0;
        double[] raterMeans = new double[k];
        double[] subjectMeans = new double[n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < k; j++) {
                double score = scores[i][j] - origin;
                largest = Math.max(largest, Math.abs(scores[i][j]));
                subjectMeans[i] += score / k;
                raterMeans[j] += score / n;
            }
            grand += subjectMeans[i] / n;
        }
        double subjectSquares = 0;
        double withinSquares = 0;
        double errorSquares = 0;
        double raterSquares = 0;
        for (double mean : raterMeans) {
            raterSquares += (mean - grand) * (mean - grand);
        }
        for (int i = 0; i < n; i++) {
            double subject = subjectMeans[i] - grand;
            subjectSquares += subject * subject;
            for (int j = 0; j < k; j++) {
                double within = scores[i][j] - origin - subjectMeans[i];
                double error = within - (raterMeans[j] - grand);
                withinSquares += within * within;
                errorSquares += error * error;
            }
        }
        double zero = largest * ROUNDING * largest * ROUNDING;
        return new TwoWayMeanSquares(
                n,
                k,
                cleaned(k * subjectSquares / (n - 1), zero),
                cleaned(withinSquares / ((double) n * (k - 1)), zero),
                cleaned(n * raterSquares / (k - 1), zero),
                cleaned(errorSquares / ((double) (n - 1) * (k - 1)), zero));
    }

    private static double cleaned(double meanSquare, double zero) {
        return meanSquare <= zero ? 0 : meanSquare;
    }

    /** Of the two-way model: subject, rater, and rater × subject with error; an estimate below zero is left as it is. */
    public TwoWayComponents twoWay() {
        return new TwoWayComponents(
                (betweenSubjects - error) / raters, (betweenRaters - error) / subjects, error, raters);
    }

    /** Subject variance of the one-way model, (BMS − WMS) ÷ k; its residual is WMS. May be negative. */
    public double oneWaySubject() {
        return (betweenSubjects - withinSubjects) / raters;
    }
}
