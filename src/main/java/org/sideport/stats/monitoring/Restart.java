package org.sideport.stats.monitoring;

/** What a chart does after a signal; to be fixed before looking. */
public enum Restart {
    /** The statistic is set back to its start, so that the next signal rests on later cases only. */
    RESTART,
    /** The statistic runs on; every case at or beyond the limit is a signal. */
    CONTINUE,
    /** The chart ends with its first signal; later cases are not judged. */
    STOP
}
