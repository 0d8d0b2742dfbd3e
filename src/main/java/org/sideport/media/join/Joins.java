package org.sideport.media.join;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.join.PictureJoin.Likeness;
import org.sideport.model.SegmentJoin;
import org.sideport.model.SegmentJoin.Evidence;
import org.sideport.model.SegmentJoin.Kind;
import org.sideport.model.SegmentJoin.Source;

/**
 * Judges the borders between consecutive files. Where evidence is lacking or contradicts itself the kind is
 * {@link Kind#UNKNOWN}: nothing is taken for continuous because nothing speaks against it.
 */
public final class Joins {

    /** Nobody stops a recorder and starts it again in less. */
    private static final long SHORTEST_PAUSE_US = 2_000_000;

    /** Files that a recorder ends by itself are as long, or as large, as each other to this share. */
    private static final double ALIKE = 0.02;

    private Joins() {}

    /** @param files of one recording in order */
    public static List<SegmentJoin> of(List<FileEnds> files) {
        List<SegmentJoin> joins = new ArrayList<>();
        for (int i = 0; i + 1 < files.size(); i++) {
            joins.add(new Border(files, i).judge());
        }
        return joins;
    }

    /**
     * What people should be told of joins.
     *
     * @param startsUs where each file starts on the recording's timeline
     */
    public static List<MediaWarning> warnings(List<SegmentJoin> joins, List<FileEnds> files, List<Long> startsUs) {
        List<MediaWarning> warnings = new ArrayList<>();
        for (SegmentJoin join : joins) {
            String first = files.get(join.before()).name();
            String second = files.get(join.after()).name();
            Long at = startsUs.get(join.after());
            Long gap = join.gapUs();
            if (join.overlapUs() > 0) {
                warnings.add(new MediaWarning(
                        Code.PICTURES_OVERLAP,
                        second + " starts with " + ClockJoin.seconds(join.overlapUs()) + " that " + first
                                + " shows already; they are counted twice.",
                        join.after(),
                        at));
            } else if (join.kind() == Kind.LOST || join.kind() == Kind.PAUSED) {
                String what = join.kind() == Kind.LOST ? " was lost." : " passed while the recorder was stopped.";
                String length = gap == null ? "some time" : "about " + ClockJoin.seconds(gap);
                warnings.add(new MediaWarning(
                        Code.GAP,
                        "Between " + first + " and " + second + ", " + length + what
                                + " It is not counted as operating time.",
                        join.after(),
                        at));
            }
        }
        return warnings;
    }

    private static final class Border {

        private final List<FileEnds> files;
        private final int place;
        private final FileEnds before;
        private final FileEnds after;
        private final PictureJoin pictures;
        private final @Nullable Long running;
        private final @Nullable Long timeCode;
        private final @Nullable Long creation;
        private final @Nullable Long modified;
        private final List<Evidence> evidence = new ArrayList<>();

        Border(List<FileEnds> files, int place) {
            this.files = files;
            this.place = place;
            this.before = files.get(place);
            this.after = files.get(place + 1);
            this.pictures = PictureJoin.of(before.pictures(), after.pictures());
            this.running = ClockJoin.running(before, after);
            this.timeCode = ClockJoin.timeCode(before, after);
            this.creation = ClockJoin.creation(before, after);
            this.modified = ClockJoin.modified(before, after);
        }

        SegmentJoin judge() {
            evidence.add(ClockJoin.runningEvidence(before, after, running));
            if (timeCode != null) {
                evidence.add(ClockJoin.timeCodeEvidence(before, timeCode));
            }
            if (creation != null) {
                evidence.add(ClockJoin.wallEvidence(Source.CREATION_TIME, creation));
            }
            evidence.add(pictureEvidence());
            if (modified != null) {
                evidence.add(ClockJoin.wallEvidence(Source.MODIFIED_TIME, modified));
            }
            Long exact = running != null ? running : timeCode;
            boolean disagree = running != null
                    && timeCode != null
                    && Math.abs(running - timeCode) > Math.max(before.frameUs(), after.frameUs());
            if (disagree) {
                return join(Kind.UNKNOWN, null);
            }
            if (pictures.overlap() > 0) {
                boolean denied = exact != null && exact > before.frameUs();
                long length = after.lengthOfFirst(pictures.overlap());
                return denied ? join(Kind.UNKNOWN, null) : join(Kind.CONTINUOUS, -length);
            }
            if (exact != null) {
                return byExactClock(exact);
            }
            if (creation != null && creation > ClockJoin.CREATION_SLACK_US) {
                return pictures.likeness() == Likeness.ALIKE ? join(Kind.UNKNOWN, null) : gap(creation);
            }
            return pictures.likeness() == Likeness.ALIKE ? join(Kind.CONTINUOUS, 0L) : join(Kind.UNKNOWN, null);
        }

        private SegmentJoin byExactClock(long exact) {
            Likeness likeness = pictures.likeness();
            if (exact > before.frameUs()) {
                return likeness == Likeness.ALIKE ? join(Kind.UNKNOWN, exact) : gap(exact);
            }
            if (exact < -before.frameUs()) {
                // both files claim this time, and their pictures do not show it
                return join(Kind.UNKNOWN, null);
            }
            if (creation != null && creation > ClockJoin.CREATION_SLACK_US && likeness != Likeness.ALIKE) {
                evidence.add(new Evidence(
                        Source.FILE_ENDS, null, "The recorder's own clock stood still while that of the day went on."));
                return join(Kind.PAUSED, creation);
            }
            // a recorder whose clock stands still while it pauses gives the same times
            return likeness == Likeness.DIFFERENT ? join(Kind.UNKNOWN, null) : join(Kind.CONTINUOUS, 0L);
        }

        /** The clocks leave a gap: was it the recorder or a person? */
        private SegmentJoin gap(long us) {
            if (before.endsBroken()) {
                return told(Kind.LOST, us, "The first file was not closed as it should, or is damaged at its end.");
            }
            if (after.startsMidway()) {
                return told(Kind.LOST, us, "The second file starts in the middle of a group of pictures.");
            }
            if (us < SHORTEST_PAUSE_US) {
                return told(Kind.LOST, us, "Nobody stops and starts a recorder within " + ClockJoin.seconds(us) + ".");
            }
            if (endedByItself()) {
                return told(Kind.LOST, us, "The first file is as long as others that the recorder ended by itself.");
            }
            return told(
                    Kind.PAUSED,
                    us,
                    "The first file was closed and the second begins with a whole picture, as when a recorder is stopped"
                            + " and started again.");
        }

        private boolean endedByItself() {
            for (int i = 0; i + 1 < files.size(); i++) {
                FileEnds other = files.get(i);
                if (i != place
                        && (alike(other.durationUs(), before.durationUs()) || alike(other.size(), before.size()))) {
                    return true;
                }
            }
            return false;
        }

        private static boolean alike(long one, long other) {
            return Math.abs(one - other) <= ALIKE * Math.max(one, other);
        }

        private SegmentJoin told(Kind kind, long us, String text) {
            evidence.add(new Evidence(Source.FILE_ENDS, null, text));
            return join(kind, us);
        }

        private SegmentJoin join(Kind kind, @Nullable Long gapUs) {
            return new SegmentJoin(place, place + 1, kind, gapUs, evidence);
        }

        private Evidence pictureEvidence() {
            if (Double.isNaN(pictures.border())) {
                return new Evidence(Source.PICTURES, null, "The pictures at the border cannot be compared.");
            }
            if (pictures.overlap() > 0) {
                long length = after.lengthOfFirst(pictures.overlap());
                return new Evidence(
                        Source.PICTURES,
                        -length,
                        "The first " + ClockJoin.seconds(length) + " of the second file (" + pictures.overlap()
                                + (pictures.overlap() == 1 ? " picture" : " pictures") + ") end the first file.");
            }
            String numbers = String.format(
                    Locale.ROOT,
                    " (brightness changes by %.2f across the border, by %.2f from picture to picture, by %.2f in a second)",
                    pictures.border(),
                    pictures.usual(),
                    pictures.apart());
            return switch (pictures.likeness()) {
                case ALIKE ->
                    new Evidence(
                            Source.PICTURES,
                            0L,
                            "The picture goes on across the border as it does within the files" + numbers + ".");
                case DIFFERENT ->
                    new Evidence(
                            Source.PICTURES,
                            null,
                            "The picture jumps at the border as it does not near it" + numbers + ".");
                case UNCLEAR ->
                    new Evidence(
                            Source.PICTURES,
                            null,
                            "The pictures do not tell whether something is missing" + numbers + ".");
            };
        }
    }
}
