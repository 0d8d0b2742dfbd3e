package org.sideport.stats.agreement;

/**
 * Variances of the two-way model of scores, in squared units of the score. Estimates from mean squares may be negative and
 * are kept so: a negative one says that there is no sign of that source of variation.
 *
 * @param subject true differences between subjects
 * @param rater severity: differences between raters over all subjects
 * @param residual rater × subject, and chance
 * @param ratersPerSubject k; for incomplete data the harmonic mean of the numbers of raters of the subjects
 */
public record TwoWayComponents(double subject, double rater, double residual, double ratersPerSubject) {

    public TwoWayComponents {
        if (!Double.isFinite(subject + rater + residual) || !(ratersPerSubject >= 1)) {
            throw new IllegalArgumentException(
                    "components " + subject + ", " + rater + ", " + residual + " with " + ratersPerSubject + " raters");
        }
    }

    /** Share of a component in the total, negative ones counted as zero; 0 if there is no variance at all. */
    public double share(double component) {
        double total = Math.max(0, subject) + Math.max(0, rater) + Math.max(0, residual);
        return total == 0 ? 0 : Math.max(0, component) / total;
    }
}
