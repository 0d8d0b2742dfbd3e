package org.sideport.stats.agreement;

/**
 * What the distance of two values means; each gives Krippendorff's squared difference (Krippendorff 2011, Computing
 * Krippendorff's Alpha-Reliability, section E).
 */
public enum MeasurementLevel {
    NOMINAL,
    ORDINAL,
    INTERVAL,
    /** Values must not be negative. */
    RATIO;

    /**
     * @param values distinct, ascending
     * @param totals how often each value occurs in pairable units
     * @return [q][q], zero on the diagonal
     */
    double[][] squaredDifferences(double[] values, double[] totals) {
        int q = values.length;
        double[][] d = new double[q][q];
        for (int c = 0; c < q; c++) {
            double between = totals[c];
            for (int k = c + 1; k < q; k++) {
                between += totals[k];
                double ranks = between - (totals[c] + totals[k]) / 2;
                double distance =
                        switch (this) {
                            case NOMINAL -> 1;
                            case ORDINAL -> ranks;
                            case INTERVAL -> values[k] - values[c];
                            case RATIO -> (values[k] - values[c]) / (values[k] + values[c]);
                        };
                d[c][k] = distance * distance;
                d[k][c] = d[c][k];
            }
        }
        return d;
    }
}
