package org.sideport.media.trace;

import java.util.Locale;

/** What may be found about a recording. */
public enum FindingKind {
    /** the picture is black */
    BLACK,
    /** the picture is of one colour, or the blue of a source without signal */
    NO_SIGNAL,
    /** frames advance and their content does not */
    FROZEN,
    /** far less sharp than the rest of the recording */
    OUT_OF_FOCUS,
    /** the scene jumps inside a file while its times run on: the recorder was paused, or the file was edited */
    JUMP_CUT,
    /** no frame comes for a while inside a file */
    TIME_HOLE,
    /** what lies before the operation */
    LEAD_IN,
    /** what lies after the operation */
    TAIL,
    /** a long stretch without an eye between two with one */
    TWO_OPERATIONS;

    /** As written in JSON: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
