package org.sideport.stats.learning;

import org.jspecify.annotations.Nullable;

/**
 * The break with the least sum of squares, by exact enumeration at the cost of one pass: sums over the cases before each
 * place give all fits. Two levels: every place between neighbours. Two joined lines: in each gap the crossing of the
 * separate lines, if it lies there, else an end of the gap (Hudson 1966, Journal of the American Statistical Association
 * 61:1097).
 */
final class BreakSearch {

    /** Fewest different case numbers on either side. */
    static final int FEWEST = 3;

    /**
     * @param at two levels: first case number of the second part; two lines: where they join
     * @param before number of cases up to the break
     * @param sumOfSquares left by the broken fit
     */
    record Break(double at, int before, double sumOfSquares) {}

    private final double[] x;
    private final ChangePoint.Shape shape;
    private final double mean;
    private final double spread;
    private final double[] sumX;
    private final double[] sumXx;
    private final boolean[] allowed;

    /** @param caseNumber ascending */
    BreakSearch(double[] caseNumber, ChangePoint.Shape shape) {
        this.shape = shape;
        int n = caseNumber.length;
        double sum = 0;
        for (double v : caseNumber) {
            sum += v;
        }
        mean = sum / n;
        x = new double[n];
        sumX = new double[n + 1];
        sumXx = new double[n + 1];
        for (int i = 0; i < n; i++) {
            x[i] = caseNumber[i] - mean;
            sumX[i + 1] = sumX[i] + x[i];
            sumXx[i + 1] = sumXx[i] + x[i] * x[i];
        }
        spread = sumXx[n];
        allowed = new boolean[n + 1];
        int total = 0;
        for (int i = 0; i < n; i++) {
            total += i == 0 || x[i] > x[i - 1] ? 1 : 0;
        }
        int different = 0;
        for (int k = 1; k < n; k++) {
            different += k == 1 || x[k - 1] > x[k - 2] ? 1 : 0;
            allowed[k] = x[k] > x[k - 1] && different >= FEWEST && total - different >= FEWEST;
        }
    }

    /** @return {@code null} if no place leaves enough on either side */
    @Nullable
    Break best(double[] y) {
        int n = x.length;
        double level = 0;
        for (double v : y) {
            level += v / n;
        }
        double[] sumY = new double[n + 1];
        double[] sumXy = new double[n + 1];
        double total = 0;
        for (int i = 0; i < n; i++) {
            double c = y[i] - level;
            sumY[i + 1] = sumY[i] + c;
            sumXy[i + 1] = sumXy[i] + x[i] * c;
            total += c * c;
        }
        double slope = sumXy[n] / spread;
        double straight = shape == ChangePoint.Shape.LEVELS ? total : total - slope * sumXy[n];
        double most = -1;
        double at = 0;
        int before = 0;
        for (int k = 1; k < n; k++) {
            if (!allowed[k]) {
                continue;
            }
            if (shape == ChangePoint.Shape.LEVELS) {
                double gain = sumY[k] * sumY[k] * (1.0 / k + 1.0 / (n - k));
                if (gain > most) {
                    most = gain;
                    at = x[k];
                    before = k;
                }
                continue;
            }
            for (double place : places(k, sumY, sumXy)) {
                double gain = gain(k, place, slope, sumY, sumXy);
                if (gain > most) {
                    most = gain;
                    at = place;
                    before = k;
                }
            }
        }
        return before == 0 ? null : new Break(at + mean, before, Math.max(0, straight - most));
    }

    /** Both ends of the gap after case k and, if it lies between them, the crossing of the lines on either side. */
    private double[] places(int k, double[] sumY, double[] sumXy) {
        int n = x.length;
        double[] left = line(k, sumX[k], sumXx[k], sumY[k], sumXy[k]);
        double[] right = line(n - k, sumX[n] - sumX[k], sumXx[n] - sumXx[k], sumY[n] - sumY[k], sumXy[n] - sumXy[k]);
        double crossing = (left[0] - right[0]) / (right[1] - left[1]);
        return crossing > x[k - 1] && crossing < x[k]
                ? new double[] {x[k - 1], crossing, x[k]}
                : new double[] {x[k - 1], x[k]};
    }

    private static double[] line(int n, double sx, double sxx, double sy, double sxy) {
        double slope = (sxy - sx * sy / n) / (sxx - sx * sx / n);
        return new double[] {(sy - slope * sx) / n, slope};
    }

    /** By how much a bend at the place lowers the sum of squares of the straight line. */
    private double gain(int k, double place, double slope, double[] sumY, double[] sumXy) {
        int n = x.length;
        int right = n - k;
        double sx = sumX[n] - sumX[k];
        double sxx = sumXx[n] - sumXx[k];
        double bend = sx - right * place;
        double bendX = sxx - place * sx;
        double square = sxx - 2 * place * sx + right * place * place;
        double free = square - bend * bend / n - bendX * bendX / spread;
        double along = (sumXy[n] - sumXy[k]) - place * (sumY[n] - sumY[k]) - bendX * slope;
        return free > 1e-12 * square ? along * along / free : 0;
    }
}
