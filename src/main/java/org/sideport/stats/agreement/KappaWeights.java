package org.sideport.stats.agreement;

/** How much a disagreement counts: agreement weights, 1 on the diagonal and at most 1 elsewhere. */
public enum KappaWeights {
    /** Any disagreement counts in full (Cohen 1960). */
    NONE,
    /** 1 − |i − j| ⁄ (q − 1) (Cicchetti & Allison 1971). */
    LINEAR,
    /** 1 − (i − j)² ⁄ (q − 1)² (Cohen 1968; Fleiss & Cohen 1973). */
    QUADRATIC;

    /**
     * @param values of the q categories, ascending: distances are taken between values, so that a level that nobody used
     *     keeps its place
     * @return [q][q]
     */
    public double[][] of(double[] values) {
        int q = values.length;
        double range = q == 0 ? 0 : values[q - 1] - values[0];
        double[][] weights = new double[q][q];
        for (int i = 0; i < q; i++) {
            for (int j = 0; j < q; j++) {
                double d = i == j ? 0 : Math.abs(values[i] - values[j]) / range;
                weights[i][j] = switch (this) {
                    case NONE -> i == j ? 1 : 0;
                    case LINEAR -> 1 - d;
                    case QUADRATIC -> 1 - d * d;
                };
            }
        }
        return weights;
    }
}
