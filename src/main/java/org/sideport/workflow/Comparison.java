package org.sideport.workflow;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.Exemplar;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.stats.Estimate;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.Episode;
import org.sideport.timing.PublishedDurations;
import org.sideport.timing.TimeMap;

/**
 * Two cases beside each other. Differences are the left one's less the right one's. It holds no verdict: shorter is not
 * better.
 *
 * @param aligned phase by phase; the same clock time where no phase is found on both sides
 * @param sameClock both from their start at the same pace
 * @param rows in the procedure's order
 * @param totals operating time, time in phases and idle time
 */
public record Comparison(
        Procedure procedure,
        Side left,
        Side right,
        TimeMap aligned,
        TimeMap sameClock,
        List<Row> rows,
        List<Row> totals,
        PublishedDurations published) {

    /** Ids of the rows of {@link #totals()}. */
    public static final String OPERATING = "operating";

    public static final String ACTIVE = "active";
    public static final String IDLE = "idle";

    /** @param sound the file of its voice */
    public record Narrated(Comment comment, Path sound) {}

    /**
     * One of the two cases.
     *
     * @param annotator whose tags count
     * @param annotators all who tagged it
     * @param episodes by the names that both have in common
     * @param exemplar as which it was named, by these tags; {@code null} if it was not
     * @param narration what was spoken over it, by time
     */
    public record Side(
            SurgicalCase surgicalCase,
            String annotator,
            List<String> annotators,
            List<Episode> episodes,
            CaseTiming timing,
            @Nullable Exemplar exemplar,
            List<Narrated> narration) {

        public Side {
            narration = List.copyOf(narration);
            annotators = List.copyOf(annotators);
            episodes = List.copyOf(episodes);
        }

        public String code() {
            return surgicalCase.code();
        }

        /** The recording's end, or that of the last phase where there is none. */
        public MediaTime end() {
            Recording recording = surgicalCase.recording();
            if (recording != null) {
                return recording.duration();
            }
            return MediaTime.ofMicros(
                    episodes.isEmpty() ? 0 : episodes.get(episodes.size() - 1).endUs());
        }
    }

    /**
     * A time of one side.
     *
     * @param us microseconds; {@code null} if it is not known
     * @param unsure true if an accepted cut lies in it: then it is a lower limit
     * @param episodes 0 for totals
     */
    public record Time(@Nullable Long us, boolean unsure, int episodes) {}

    /**
     * Where the left one's time stands among those of the exemplars.
     *
     * @param longer how many exemplars took longer
     * @param shorter how many were shorter
     * @param n exemplars with a sure time of this phase, the left case not among them
     * @param rank the share below with its limits
     */
    public record Standing(int longer, int shorter, int n, Estimate rank) {}

    /** @param place {@code null} if only the mean was published */
    public record Orientation(
            PublishedDurations.Group group, PublishedDurations.Row row, PublishedDurations.@Nullable Place place) {}

    /**
     * One phase of both sides.
     *
     * @param left {@code null} if the left case does not have it; likewise {@code right}
     * @param standing {@code null} without exemplars of it, or without a sure time of the left
     */
    public record Row(
            String id,
            String name,
            @Nullable Time left,
            @Nullable Time right,
            @Nullable Standing standing,
            List<Orientation> orientation) {

        public Row {
            orientation = List.copyOf(orientation);
        }

        /** The left one's time less the right one's, microseconds; {@code null} unless both are known. */
        public @Nullable Long differenceUs() {
            Long one = left == null ? null : left.us();
            Long other = right == null ? null : right.us();
            return one == null || other == null ? null : (Long) (one - other);
        }

        /** The left one's time over the right one's; {@code null} unless both are known and the right one is not 0. */
        public @Nullable Double ratio() {
            Long one = left == null ? null : left.us();
            Long other = right == null ? null : right.us();
            return one == null || other == null || other == 0 ? null : (Double) ((double) one / other);
        }

        /** True if a cut lies in a time of either side, so that difference and ratio are unsure. */
        public boolean unsure() {
            return (left != null && left.unsure()) || (right != null && right.unsure());
        }
    }

    public Comparison {
        rows = List.copyOf(rows);
        totals = List.copyOf(totals);
    }

    /** Name of a phase or step. */
    public String nameOf(String id) {
        return procedure.find(id).map(Procedure.Term::name).orElse(id);
    }
}
