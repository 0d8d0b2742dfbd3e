package org.sideport.stats.rasch;

/**
 * How well marks agree with the model (Wright & Masters 1982, Rating Scale Analysis, pages 99 to 101). Expected is 1; above
 * 1 the marks are more erratic, below 1 more uniform than the model says. The standardised values are about standard
 * normal (Wilson & Hilferty's cube root).
 *
 * @param n marks, of trainees and assessors that are not extreme
 * @param outfit mean of the squared standardised residuals; a single surprising mark tells
 * @param infit the same weighted by the information of each mark
 */
public record MeanSquares(int n, double outfit, double outfitZ, double infit, double infitZ) {

    /** Sums over marks. */
    static final class Sum {
        private int n;
        private double squares;
        private double kurtosis;
        private double residuals;
        private double variance;
        private double excess;

        void add(int score, MarkCurve.Moments m) {
            double d = score - m.mean();
            double v = m.variance();
            n++;
            squares += d * d / v;
            kurtosis += m.fourth() / (v * v);
            residuals += d * d;
            variance += v;
            excess += m.fourth() - v * v;
        }

        int n() {
            return n;
        }

        MeanSquares meanSquares() {
            double outfit = squares / n;
            double infit = residuals / variance;
            return new MeanSquares(
                    n,
                    outfit,
                    standardised(outfit, Math.sqrt((kurtosis / n - 1) / n)),
                    infit,
                    standardised(infit, Math.sqrt(excess) / variance));
        }

        /** Two marks of even chance have no spread at all; then there is nothing to standardise by. */
        private static double standardised(double meanSquare, double q) {
            return q < 1e-8 ? 0 : (Math.cbrt(meanSquare) - 1) * (3 / q) + q / 3;
        }
    }
}
