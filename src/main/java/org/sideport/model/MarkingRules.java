package org.sideport.model;

/**
 * How a unit wants its marks made. The figures are common practice, without a source; a unit sets its own.
 *
 * @param selfFirst true if the trainee's own marks must be signed before the assessors' are shown to the trainee
 * @param shareLimit marks of two assessors differ too much from this difference of their shares of the applicable maximum
 *     on, above 0 and at most 1
 * @param itemsLimit or if so many items, 1 or more, differ by {@link #FAR} levels or more
 */
public record MarkingRules(boolean selfFirst, double shareLimit, int itemsLimit) {

    /** Levels between two marks of an item that count as far apart. */
    public static final int FAR = 2;

    public static final MarkingRules USUAL = new MarkingRules(true, 0.15, 4);

    /**
     * @throws InputException if a limit is out of its range
     */
    public MarkingRules {
        if (!(shareLimit > 0 && shareLimit <= 1)) {
            throw new InputException(
                    "a limit of " + shareLimit + " for the difference of two marks",
                    null,
                    "write a share of the applicable maximum above 0 and up to 1, such as 0.15");
        }
        if (itemsLimit < 1) {
            throw new InputException("a limit of " + itemsLimit + " items", null, "write 1 or more");
        }
    }
}
