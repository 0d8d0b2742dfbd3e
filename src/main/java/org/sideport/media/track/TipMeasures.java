package org.sideport.media.track;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The measures of one tip track in pixels, as seen in the picture and, where the eye is known throughout, relative to the eye:
 * the latter leaves out what the eye or the microscope moved.
 *
 * @param inPicture {@code null} if the track has fewer than five frames
 * @param toEye {@code null} if there are fewer than five frames or the limbus centre is not known in each of them
 */
public record TipMeasures(
        TipTrack track,
        MotionSettings settings,
        @Nullable MotionMeasures inPicture,
        @Nullable MotionMeasures toEye) {

    private static final int LEAST = 5;

    /** Threshold in heights of the picture a second where no limbus was found. */
    private static final double THRESHOLD_WITHOUT_LIMBUS = 0.15;

    /** The usual settings for a track: the threshold from its limbus, or from the picture where there is none. */
    public static MotionSettings usualSettings(TipTrack track) {
        double limbus = track.limbusDiameter();
        return MotionSettings.usual(
                limbus > 0
                        ? MotionSettings.USUAL_THRESHOLD * limbus
                        : THRESHOLD_WITHOUT_LIMBUS * track.scale().height());
    }

    /** @param settings lengths in pixels */
    public static TipMeasures of(TipTrack track, MotionSettings settings) {
        List<TipPoint> points = track.points();
        if (points.size() < LEAST) {
            return new TipMeasures(track, settings, null, null);
        }
        double[] t = points.stream().mapToDouble(p -> p.timeUs() / 1e6).toArray();
        double[] x = points.stream().mapToDouble(p -> p.place().x()).toArray();
        double[] y = points.stream().mapToDouble(p -> p.place().y()).toArray();
        MotionMeasures inPicture = MotionMeasures.of(t, x, y, settings);
        if (points.stream().anyMatch(p -> p.eye() == null)) {
            return new TipMeasures(track, settings, inPicture, null);
        }
        double[] dx = points.stream()
                .mapToDouble(
                        p -> p.place().x() - Objects.requireNonNull(p.eye()).x())
                .toArray();
        double[] dy = points.stream()
                .mapToDouble(
                        p -> p.place().y() - Objects.requireNonNull(p.eye()).y())
                .toArray();
        return new TipMeasures(track, settings, inPicture, MotionMeasures.of(t, dx, dy, settings));
    }
}
