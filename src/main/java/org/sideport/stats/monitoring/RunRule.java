package org.sideport.stats.monitoring;

/**
 * Rules that an individuals chart may signal by (Western Electric 1956, Statistical Quality Control Handbook; numbered as in
 * Champ & Woodall 1987, Technometrics 29:393). Each more rule means more false signals.
 */
public enum RunRule {
    /** One point beyond 3 SD. */
    BEYOND_3_SD("a point beyond 3 SD"),
    /** Two of three points in a row beyond 2 SD on the same side. */
    TWO_OF_THREE_BEYOND_2_SD("two of three beyond 2 SD on one side"),
    /** Four of five points in a row beyond 1 SD on the same side. */
    FOUR_OF_FIVE_BEYOND_1_SD("four of five beyond 1 SD on one side"),
    /** Eight points in a row on the same side of the centre. */
    EIGHT_ON_ONE_SIDE("eight in a row on one side");

    private final String words;

    RunRule(String words) {
        this.words = words;
    }

    /** For a reader, without a capital. */
    public String words() {
        return words;
    }
}
