package org.sideport.media.join;

import org.jspecify.annotations.Nullable;
import org.sideport.model.SegmentJoin.Evidence;
import org.sideport.model.SegmentJoin.Source;

/**
 * What the clocks of two files say of the time between the end of the first and the start of the second, each clock by
 * itself, in microseconds; {@code null} where a clock says nothing.
 */
final class ClockJoin {

    /** Period of the clock of program and transport streams (ISO/IEC 13818-1, 2.4.3.7): 2^33 ticks of 90 kHz. */
    private static final long WRAP_US = 95_443_717_689L;

    /** A clock that is further ahead did not run on: it began somewhere else. */
    static final long LONGEST_US = 6L * 3_600_000_000L;

    private static final long DAY_US = 86_400_000_000L;

    /** Creation times have whole seconds, and files are opened a little before or after the first picture. */
    static final long CREATION_SLACK_US = 2_500_000;

    private static final long REPEAT_MOST_US = 10_000_000;

    /** The clock of an MP4 or Matroska file that starts so late has been running before. */
    private static final long STARTS_LATE_US = 1_000_000;

    private ClockJoin() {}

    /** By presentation times that run on. */
    static @Nullable Long running(FileEnds before, FileEnds after) {
        long gap = after.firstUs() - before.endUs();
        if (before.clocks().stream() != after.clocks().stream()) {
            return null;
        }
        if (before.clocks().stream()) {
            gap = Math.floorMod(gap + WRAP_US / 2, WRAP_US) - WRAP_US / 2;
        } else if (after.firstUs() < STARTS_LATE_US) {
            return null;
        }
        return believable(gap, before);
    }

    /** By time codes, which count frames. */
    static @Nullable Long timeCode(FileEnds before, FileEnds after) {
        Long one = before.clocks().timeCodeUs();
        Long two = after.clocks().timeCodeUs();
        if (one == null || two == null) {
            return null;
        }
        long gap = Math.floorMod(two - one - before.durationUs() + DAY_US / 2, DAY_US) - DAY_US / 2;
        return believable(gap, before);
    }

    private static @Nullable Long believable(long gap, FileEnds before) {
        boolean repeats = -gap <= Math.min(REPEAT_MOST_US, before.durationUs() / 2);
        return gap <= LONGEST_US && (gap >= -before.frameUs() || repeats) ? (Long) gap : null;
    }

    /**
     * By creation times. Some recorders write when they began a file, some when they ended it: the reading that leaves
     * less time between the files is taken.
     */
    static @Nullable Long creation(FileEnds before, FileEnds after) {
        return wall(before.clocks().creationUs(), after.clocks().creationUs(), before, after);
    }

    /** By times of change: of the end of writing, if the files were never copied. */
    static @Nullable Long modified(FileEnds before, FileEnds after) {
        return wall(before.modifiedUs(), after.modifiedUs(), before, after);
    }

    private static @Nullable Long wall(@Nullable Long one, @Nullable Long two, FileEnds before, FileEnds after) {
        if (one == null || two == null) {
            return null;
        }
        long apart = two - one;
        long shorter = Math.min(before.durationUs(), after.durationUs());
        long longer = Math.max(before.durationUs(), after.durationUs());
        // files that were made or changed all at once, as by copying, say nothing
        if (apart <= 0 || apart < shorter - CREATION_SLACK_US || apart > LONGEST_US) {
            return null;
        }
        long least = apart - longer;
        long most = apart - shorter;
        if (Math.abs(least) <= CREATION_SLACK_US) {
            return least;
        }
        return Math.abs(most) <= CREATION_SLACK_US || least < 0 ? (Long) most : (Long) least;
    }

    static Evidence runningEvidence(FileEnds before, FileEnds after, @Nullable Long gap) {
        String text = gap == null
                ? "The clocks inside the files are not one: the second starts anew at " + seconds(after.firstUs()) + "."
                : "The clock inside the files runs on" + apart(gap, before);
        return new Evidence(Source.RUNNING_CLOCK, gap, text);
    }

    static Evidence timeCodeEvidence(FileEnds before, long gap) {
        return new Evidence(Source.TIME_CODE, gap, "The time code runs on" + apart(gap, before));
    }

    private static String apart(long gap, FileEnds before) {
        if (Math.abs(gap) <= before.frameUs()) {
            return " without a gap, to a frame (" + seconds(gap) + ").";
        }
        return gap > 0
                ? ", and " + seconds(gap) + " of it lie in neither file."
                : ", and " + seconds(-gap) + " of it lie in both files.";
    }

    static Evidence wallEvidence(Source source, long gap) {
        String what = source == Source.CREATION_TIME
                ? "The times at which the files say they were made"
                : "The times at which the files were last changed (which copying may alter)";
        return new Evidence(
                source,
                gap,
                what
                        + (Math.abs(gap) <= CREATION_SLACK_US
                                ? " leave no gap that they could show (" + seconds(gap)
                                        + ", they are good to about 2 s)."
                                : gap > 0
                                        ? " are about " + seconds(gap) + " further apart than the recording is long."
                                        : " are about " + seconds(-gap) + " closer than the recording is long."));
    }

    /** "1.28 s". */
    static String seconds(long us) {
        return new java.math.BigDecimal(us)
                        .movePointLeft(6)
                        .setScale(2, java.math.RoundingMode.HALF_UP)
                        .toPlainString()
                + " s";
    }
}
