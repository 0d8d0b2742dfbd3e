package org.sideport.stats.geometry;

/**
 * Scale of one still at one zoom. A change of zoom, of focus or of the height of the eye makes it void.
 *
 * @param mmPerPx positive
 * @param sd standard uncertainty of {@code mmPerPx}, not negative
 */
public record Calibration(double mmPerPx, double sd) {

    public Calibration {
        if (!(mmPerPx > 0) || !(sd >= 0) || !Double.isFinite(mmPerPx) || !Double.isFinite(sd)) {
            throw new IllegalArgumentException(mmPerPx + " mm/px, sd " + sd);
        }
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
        if (!(px > 0)) {
            throw new IllegalArgumentException("a length of " + px + " px");
        }
        double scale = lengthMm / px;
        return new Calibration(scale, scale * Math.hypot(lengthSd / lengthMm, pxSd / px));
    }

    /** Standard uncertainty over value: what it adds to each length, whatever its size. */
    public double relativeSd() {
        return sd / mmPerPx;
    }
}
