package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Damage;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.join.FileEnds;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SegmentJoin;
import org.sideport.model.SegmentJoin.Kind;

/**
 * Files as one recording, looked at but not yet taken in.
 *
 * @param joins of the files, in order; empty if they were not compared
 * @param damage on the recording's timeline
 * @param proposedOrder the same files in the order that their contents suggest; empty if that is the order they have
 * @param ends what the files show at their ends, in the order of the segments; empty if they were not compared
 */
public record RecordingPreview(
        List<Segment> segments,
        List<MediaWarning> warnings,
        List<SegmentJoin> joins,
        List<Damage> damage,
        List<Path> proposedOrder,
        List<FileEnds> ends) {

    public RecordingPreview {
        segments = List.copyOf(segments);
        warnings = List.copyOf(warnings);
        joins = List.copyOf(joins);
        damage = List.copyOf(damage);
        proposedOrder = List.copyOf(proposedOrder);
        ends = List.copyOf(ends);
    }

    /** Files that were not compared. */
    public RecordingPreview(List<Segment> segments, List<MediaWarning> warnings) {
        this(segments, warnings, List.of(), List.of(), List.of(), List.of());
    }

    RecordingPreview withWarnings(List<MediaWarning> newWarnings) {
        return new RecordingPreview(segments, newWarnings, joins, damage, proposedOrder, ends);
    }

    /** What nothing here can settle and a person has to look at or listen to before a recording is passed on. */
    public List<String> reminders() {
        List<String> reminders = new ArrayList<>();
        reminders.add(
                "Look at the first minute yourself: a name or a date may be written in the picture, and a search for"
                        + " it (sideport mask --find) can miss it.");
        if (segments.stream().anyMatch(Segment::audio)) {
            reminders.add(
                    "The recording has sound: people may be named in it. Copies for others leave it out unless told"
                            + " otherwise.");
        }
        return List.copyOf(reminders);
    }

    public Recording recording() {
        return new Recording(segments);
    }

    /**
     * Whether the timeline shows all that happened from its start to its end, once.
     *
     * @return false if something is known to be missing or shown twice, between the files or at a jump of the clock within
     *     one; {@code null} if that is not known
     */
    public @Nullable Boolean continuous() {
        boolean cut = warnings.stream().anyMatch(w -> w.code() == Code.CLOCK_JUMPS);
        boolean gap =
                joins.stream().anyMatch(j -> j.kind() == Kind.LOST || j.kind() == Kind.PAUSED || j.overlapUs() > 0);
        if (cut || gap) {
            return false;
        }
        boolean known = joins.size() == segments.size() - 1 && joins.stream().allMatch(SegmentJoin::isSeamless);
        return known ? (Boolean) true : null;
    }
}
