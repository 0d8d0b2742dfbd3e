package org.sideport.stats.geometry;

/**
 * Scale of one still at one zoom. A change of zoom, of focus or of the height of the eye makes it void.
 *
 * @param mmPerPx positive
 * @param sd standard uncertainty of {@code mmPerPx}, not negative
 * @param estimatedSd the part of it that was estimated from the scatter of marks; 0 if none was
 * @param freedom degrees of freedom of that part; 0 if none was estimated
 */
public record Calibration(double mmPerPx, double sd, double estimatedSd, int freedom) {

    public Calibration {
        if (!(estimatedSd >= 0 && estimatedSd <= sd) || freedom < 0) {
            throw new IllegalArgumentException(estimatedSd + " of " + sd + " with " + freedom + " degrees of freedom");
        }
        if (!(mmPerPx > 0) || !(sd >= 0) || !Double.isFinite(mmPerPx) || !Double.isFinite(sd)) {
            throw new IllegalArgumentException(mmPerPx + " mm/px, sd " + sd);
        }
    }

    /** Whose uncertainty is known. */
    public Calibration(double mmPerPx, double sd) {
        this(mmPerPx, sd, 0, 0);
    }

    /**
     * From a known length in the picture, for instance the white-to-white distance; relative variances add.
     *
     * @param lengthMm positive
     * @param lengthSd standard uncertainty of the length; for a population mean the spread in the population
     * @param px its length in the picture, positive
     * @param pxSd standard uncertainty of that
     */
    public static Calibration ofKnownLength(double lengthMm, double lengthSd, double px, double pxSd) {
        return ofKnownLength(lengthMm, lengthSd, px, pxSd, 0);
    }

    /**
     * As {@link #ofKnownLength(double, double, double, double)}.
     *
     * @param freedom degrees of freedom that {@code pxSd} was estimated with; 0 if it is known
     */
    public static Calibration ofKnownLength(double lengthMm, double lengthSd, double px, double pxSd, int freedom) {
        if (!(px > 0)) {
            throw new IllegalArgumentException("a length of " + px + " px");
        }
        double scale = lengthMm / px;
        return new Calibration(
                scale,
                scale * Math.hypot(lengthSd / lengthMm, pxSd / px),
                freedom > 0 ? scale * pxSd / px : 0,
                freedom);
    }

    /** Standard uncertainty over value: what it adds to each length, whatever its size. */
    public double relativeSd() {
        return sd / mmPerPx;
    }

    /** Variance of the estimated part, relative to the square of the value. */
    double estimatedRelativeVariance() {
        return estimatedSd / mmPerPx * (estimatedSd / mmPerPx);
    }
}
