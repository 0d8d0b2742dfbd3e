package org.sideport.model;

/**
 * How wide a cornea is from white to white, which is what gives a still its scale.
 *
 * @param mm positive
 * @param sdMm standard uncertainty; for a mean of people, their spread
 * @param own whether it was measured on this very eye
 */
public record WhiteToWhite(double mm, double sdMm, boolean own) {

    /**
     * Mean and standard deviation of the horizontal white-to-white distance in 743 eyes: Rüfer, Schröder and Erb 2005,
     * Cornea 24:259 (number of eyes from memory).
     */
    public static final WhiteToWhite POPULATION = new WhiteToWhite(11.71, 0.42, false);

    /** What a biometer's reading is taken to be uncertain by where nothing is said, mm; from memory. */
    public static final double READING_SD = 0.1;

    /** Smaller and larger corneas are typing errors. */
    private static final double LEAST = 7;

    private static final double MOST = 16;

    public WhiteToWhite {
        if (!(mm >= LEAST && mm <= MOST)) {
            throw new InputException(
                    "a cornea " + mm + " mm wide", null, "give the white-to-white distance in mm, for instance 11.8");
        }
        if (!(sdMm >= 0 && sdMm <= 2)) {
            throw new InputException("an uncertainty of " + sdMm + " mm", null, "give it in mm, for instance 0.1");
        }
    }
}
