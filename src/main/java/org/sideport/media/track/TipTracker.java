package org.sideport.media.track;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.media.track.TipTrack.Lost;
import org.sideport.media.track.TipTrack.Reason;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.stats.geometry.Point;

/** Follows the tip of an instrument through every frame of a stretch, from where a person has pointed at it. */
public final class TipTracker {

    /** Width of the pictures in which the tip is followed, pixels. */
    static final int WIDTH = 640;

    /** How often the eye is looked for, microseconds. */
    private static final long EYE_EVERY_US = 250_000;

    /** Over a longer gap between two looks nothing is said about the eye. */
    private static final long EYE_GAP_US = 1_000_000;

    /** A frame that comes so much later than the one before leaves a hole. */
    private static final long HOLE_US = 500_000;

    private TipTracker() {}

    /**
     * @param files of one recording in order
     * @param at time of the frame in which the tip was pointed at; the track begins there
     * @param x of the tip in that frame, pixels from the left edge of the picture as it is stored
     * @param y of the tip, pixels from the top edge
     * @param until end of the stretch, exclusive; beyond the end of the recording means its end
     * @throws InputException if the stretch is empty or the place is outside the picture
     * @throws org.sideport.media.MediaException if a file is missing or cannot be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static TipTrack track(
            List<Path> files, MediaTime at, double x, double y, MediaTime until, Progress progress) {
        Collector collector = new Collector(x, y);
        long end = FrameSweep.sweep(files, at, until, 0, WIDTH, collector, progress);
        return collector.track(end);
    }

    private record Eye(long timeUs, @Nullable EyeEdge limbus) {}

    private static final class Collector implements FrameSweep.Visitor {

        private final double x;
        private final double y;
        private final List<TipPoint> points = new ArrayList<>();
        private final List<Eye> eyes = new ArrayList<>();
        private @Nullable TipFollower follower;
        private FrameSweep.@Nullable Scale scale;
        private @Nullable Lost lost;
        private long lastUs;

        Collector(double x, double y) {
            this.x = x;
            this.y = y;
        }

        @Override
        public boolean frame(FrameSweep.Scale pictures, long frame, long startUs, long momentUs, SmallPicture picture) {
            GrayPicture grey = GrayPicture.of(picture);
            if (eyes.isEmpty() || startUs - eyes.get(eyes.size() - 1).timeUs() >= EYE_EVERY_US) {
                eyes.add(new Eye(startUs, EyeFinder.find(picture, pictures).limbus()));
            }
            TipFollower following = follower;
            if (following == null) {
                return begin(pictures, frame, startUs, grey);
            }
            if (startUs - lastUs > HOLE_US) {
                lost = new Lost(startUs, Reason.HOLE);
                return false;
            }
            lastUs = startUs;
            TipFollower.Step step = following.next(grey);
            if (step == null) {
                Reason why = following.lost();
                lost = new Lost(startUs, why == null ? Reason.NO_AGREEMENT : why);
                return false;
            }
            points.add(new TipPoint(frame, startUs, place(pictures, step.tip()), step.quality(), null));
            return true;
        }

        private boolean begin(FrameSweep.Scale pictures, long frame, long startUs, GrayPicture grey) {
            if (!(x >= 0 && y >= 0 && x <= pictures.width() && y <= pictures.height())) {
                throw new InputException(
                        "the place " + x + ", " + y + " is outside the picture of " + pictures.width() + "x"
                                + pictures.height() + " pixels",
                        null,
                        "measure it from the top left corner of the frame");
            }
            scale = pictures;
            lastUs = startUs;
            Point tip = new Point(pictures.smallX(x), pictures.smallY(y));
            follower = new TipFollower(grey, tip);
            points.add(new TipPoint(frame, startUs, place(pictures, tip), 1, null));
            if (follower.lost() != null) {
                lost = new Lost(startUs, Reason.NO_STRUCTURE);
                return false;
            }
            return true;
        }

        /** In pixels counted down the picture's height. */
        private static Point place(FrameSweep.Scale pictures, Point small) {
            return new Point((small.x() + 0.5) * pictures.factor(), (small.y() + 0.5) * pictures.factor());
        }

        TipTrack track(long endUs) {
            FrameSweep.Scale pictures = scale;
            if (pictures == null) {
                throw new InputException("no frame is shown in that stretch", null, "choose a longer stretch");
            }
            double[] diameters = eyes.stream()
                    .map(Eye::limbus)
                    .filter(e -> e != null)
                    .mapToDouble(EyeEdge::diameter)
                    .toArray();
            List<TipPoint> whole = points.stream()
                    .map(p -> new TipPoint(p.frame(), p.timeUs(), p.place(), p.quality(), eyeAt(p.timeUs())))
                    .toList();
            return new TipTrack(pictures, whole, lost, endUs, EyeSummary.median(diameters));
        }

        /** Between two looks that found it, in proportion to time; after the last look as it was then. */
        private @Nullable Point eyeAt(long timeUs) {
            long[] times = eyes.stream().mapToLong(Eye::timeUs).toArray();
            int found = Arrays.binarySearch(times, timeUs);
            int before = found >= 0 ? found : -found - 2;
            EyeEdge a = eyes.get(before).limbus();
            if (a == null) {
                return null;
            }
            int after = Math.min(before + 1, times.length - 1);
            EyeEdge b = eyes.get(after).limbus();
            if (after == before || b == null || times[after] - times[before] > EYE_GAP_US) {
                return timeUs - times[before] <= EYE_EVERY_US ? a.ellipse().centre() : null;
            }
            double share = (timeUs - times[before]) / (double) (times[after] - times[before]);
            Point from = a.ellipse().centre();
            Point to = b.ellipse().centre();
            return new Point(from.x() + share * (to.x() - from.x()), from.y() + share * (to.y() - from.y()));
        }
    }
}
