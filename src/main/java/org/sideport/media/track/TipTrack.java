package org.sideport.media.track;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameSweep;

/**
 * The way of a tip, from where it was pointed at to the end of the stretch or to where it was lost. Nothing is filled in
 * after that.
 *
 * @param scale of the recording's pictures
 * @param points one a frame, in the order of time, at least one
 * @param lost where and why the track ended early; {@code null} if it did not
 * @param endUs end of the stretch that was asked for, microseconds
 * @param limbusDiameter median over the track, pixels; {@code NaN} if the limbus was not found
 */
public record TipTrack(
        FrameSweep.Scale scale,
        List<TipPoint> points,
        @Nullable Lost lost,
        long endUs,
        double limbusDiameter) {

    /** Why a track ended. */
    public enum Reason {
        LEFT_PICTURE("left_picture", "the tip left the picture"),
        NO_STRUCTURE("no_structure", "there is nothing to hold on to around the tip"),
        NO_AGREEMENT("no_agreement", "looking forwards and backwards no longer agrees on where the tip is"),
        CHANGED("changed", "the tip no longer looks as it did a frame before"),
        HOLE("hole", "the recording has a hole there");

        private final String id;
        private final String words;

        Reason(String id, String words) {
            this.id = id;
            this.words = words;
        }

        public String id() {
            return id;
        }

        public String words() {
            return words;
        }
    }

    /** @param timeUs of the first frame without the tip, microseconds */
    public record Lost(long timeUs, Reason reason) {}

    public TipTrack {
        points = List.copyOf(points);
        if (points.isEmpty()) {
            throw new IllegalArgumentException("a track without a point");
        }
    }

    /** Share of the points with a known eye, 0 to 1. */
    public double eyeShare() {
        return points.stream().filter(p -> p.eye() != null).count() / (double) points.size();
    }
}
