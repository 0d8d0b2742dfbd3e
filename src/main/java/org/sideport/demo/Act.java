package org.sideport.demo;

import org.jspecify.annotations.Nullable;
import org.sideport.model.Operator;

/**
 * A stretch of a recording in which one thing is done.
 *
 * @param what a step id of the procedure, or one of the constants below
 * @param from first frame
 * @param to frame after the last
 * @param operator {@code null} where nobody operates
 * @param startLevel how much of this step earlier episodes had done, 0 to 1
 * @param endLevel how much is done at its end, 0 to 1
 * @param enters true if the instrument comes into view at the start
 * @param leaves true if it goes out of view at the end
 */
record Act(
        String what,
        int from,
        int to,
        @Nullable Operator operator,
        double startLevel,
        double endLevel,
        boolean enters,
        boolean leaves) {

    static final String TITLE = "title";
    static final String BLANK = "blank";
    static final String PAUSE = "pause";

    boolean isStep() {
        return operator != null;
    }

    boolean covers(int frame) {
        return frame >= from && frame < to;
    }
}
