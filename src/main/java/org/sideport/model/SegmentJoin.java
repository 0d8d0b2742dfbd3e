package org.sideport.model;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is known of the border between two consecutive files of a recording. It never changes the timeline, on which the
 * files stay end to end: time that neither file shows is known, and counted nowhere.
 *
 * @param before position of the first file in the recording, from 0
 * @param after position of the second, one more
 * @param gapUs time that neither file shows, microseconds; negative where the second repeats so much of the first;
 *     {@code null} where nothing tells
 * @param evidence what the kind rests on, strongest first
 */
public record SegmentJoin(
        int before, int after, Kind kind, @Nullable Long gapUs, List<Evidence> evidence) {

    /** What happened at the border. */
    public enum Kind {
        /** nothing is missing: the second file goes on where the first ends, or repeats a little of it */
        CONTINUOUS,
        /** the recorder ran and did not keep what it saw */
        LOST,
        /** the recorder was stopped and started again */
        PAUSED,
        /** the files do not tell */
        UNKNOWN;

        /** As written in JSON: lower case. */
        public String id() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** Where evidence comes from. */
    public enum Source {
        /** presentation times that run on from file to file */
        RUNNING_CLOCK,
        /** time code that the recorder wrote (SMPTE ST 12-1) */
        TIME_CODE,
        /** when the container says that it was made */
        CREATION_TIME,
        /** when the file system says that the file was changed last: weak, since copying may change it */
        MODIFIED_TIME,
        /** the last pictures of one file and the first of the next */
        PICTURES,
        /** whether the files begin and end whole, and how long they are */
        FILE_ENDS;

        /** As written in JSON: lower case. */
        public String id() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * One thing that speaks for or against a gap.
     *
     * @param gapUs the gap by this alone, microseconds; {@code null} if it gives none
     * @param text for people, with its numbers
     */
    public record Evidence(Source source, @Nullable Long gapUs, String text) {}

    public SegmentJoin {
        evidence = List.copyOf(evidence);
        if (before < 0 || after != before + 1) {
            throw new IllegalArgumentException("a join is between neighbours: " + before + ", " + after);
        }
    }

    /** How much of the first file the second repeats, microseconds; 0 if nothing. */
    public long overlapUs() {
        Long gap = gapUs;
        return gap != null && gap < 0 ? -gap : 0;
    }

    /** True if the second file goes on exactly where the first ends. */
    public boolean isSeamless() {
        return kind == Kind.CONTINUOUS && overlapUs() == 0;
    }
}
