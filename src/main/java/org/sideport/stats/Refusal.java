package org.sideport.stats;

/**
 * Why a method gives no number: not a fault of the program, but an answer.
 *
 * @param why a sentence for people: what is missing, with the numbers met
 * @param remedy a sentence for people: what would make the answer possible
 */
public record Refusal(Reason reason, String why, String remedy) {

    public enum Reason {
        /** Too few observations, subjects, raters or categories for the method. */
        TOO_FEW,
        /** The quantity that is to be divided by, or to be explained, does not vary. */
        NO_VARIATION,
        /** The design falls into parts that nothing ties together. */
        NOT_CONNECTED,
        /** A predictor splits the outcomes without error, so that no finite estimate exists. */
        SEPARATED,
        /** The iteration did not come to rest. */
        NOT_CONVERGED,
        /** The parameters cannot be told apart with this design. */
        NOT_IDENTIFIED,
        /** The series is chosen, has gaps or is out of order where the method needs every case in turn. */
        SELECTED_SERIES,
        /** The data do not fit the method's assumptions, for instance a value that must be positive is not. */
        UNSUITABLE_DATA
    }
}
