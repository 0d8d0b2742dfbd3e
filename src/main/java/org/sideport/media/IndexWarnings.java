package org.sideport.media;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaWarning.Code;
import org.sideport.model.MediaTime;

/** What people should know about the times of a file. */
final class IndexWarnings {

    /** How much of the promised length may be missing before a file counts as cut short. */
    private static final double TOLERATED_SHARE = 0.01;

    private static final long TOLERATED_US = 500_000;

    /** So many places of damage are told one by one. */
    private static final int LISTED = 5;

    private IndexWarnings() {}

    /** @param promisedUs length that the container claims, microseconds */
    static List<MediaWarning> of(FrameIndex index, @Nullable Long promisedUs, List<Damage> damage) {
        FrameIndex.Doubts doubts = index.doubts();
        List<MediaWarning> warnings = new ArrayList<>();
        if (promisedUs != null && isCutShort(index, promisedUs)) {
            warnings.add(new MediaWarning(
                    Code.CUT_SHORT,
                    "The file is cut short: it promises "
                            + MediaTime.ofMicros(promisedUs).toClockText() + ", and "
                            + MediaTime.ofMicros(index.durationUs()).toClockText() + " can be read.",
                    0,
                    index.durationUs()));
        } else if (doubts.damaged() && damage.isEmpty()) {
            warnings.add(
                    new MediaWarning(Code.DAMAGED, "Part of the file is damaged; frames may be missing.", 0, null));
        }
        addDamage(damage, warnings);
        if (doubts.undecodable() > 0) {
            warnings.add(new MediaWarning(
                    Code.STARTS_MIDWAY,
                    counted(
                            doubts.undecodable(),
                            "The first picture of the file leans",
                            "The first %d pictures of the file lean",
                            " on others from before its start and cannot be shown; time runs from the first that can."),
                    0,
                    0L));
        }
        if (doubts.guessed()) {
            warnings.add(new MediaWarning(
                    Code.TIMES_GUESSED,
                    "The file gives no display times for some frames; they are worked out from their order.",
                    0,
                    null));
        }
        if (doubts.duplicates() > 0) {
            warnings.add(new MediaWarning(
                    Code.DUPLICATE_TIMES,
                    counted(
                            doubts.duplicates(),
                            "1 frame has the time of another and is",
                            "%d frames have the time of another and are",
                            " left out."),
                    0,
                    null));
        }
        if (doubts.jumps() > 0) {
            warnings.add(new MediaWarning(
                    Code.CLOCK_JUMPS,
                    counted(
                            doubts.jumps(),
                            "The clock of the file jumps once;",
                            "The clock of the file jumps %d times;",
                            " the parts are put end to end."),
                    0,
                    null));
        }
        return warnings;
    }

    private static void addDamage(List<Damage> damage, List<MediaWarning> warnings) {
        int listed = 0;
        for (Damage one : damage) {
            if (one.kind() == Damage.Kind.ZERO_TAIL) {
                warnings.add(new MediaWarning(Code.ZERO_TAIL, one.text(), 0, one.fromUs()));
            } else if (listed++ < LISTED) {
                warnings.add(new MediaWarning(Code.DAMAGED, one.text(), 0, one.fromUs()));
            }
        }
        if (listed > LISTED) {
            warnings.add(new MediaWarning(
                    Code.DAMAGED, "There are " + (listed - LISTED) + " more places of damage in the file.", 0, null));
        }
    }

    private static String counted(int count, String one, String several, String rest) {
        return (count == 1 ? one : String.format(Locale.ROOT, several, count)) + rest;
    }

    private static boolean isCutShort(FrameIndex index, long promisedUs) {
        long missing = promisedUs - index.durationUs();
        return missing > TOLERATED_US && missing > promisedUs * TOLERATED_SHARE;
    }
}
