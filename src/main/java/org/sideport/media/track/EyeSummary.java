package org.sideport.media.track;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.media.trace.ChangePoints;
import org.sideport.media.track.EyeView.Missing;
import org.sideport.stats.geometry.Point;

/**
 * How the eye lay in the picture over a stretch. Shares count moments, which are even in time.
 *
 * @param moments looked at
 * @param found moments with a limbus
 * @param missing moments without, by reason
 * @param medianOffset median distance of the limbus centre from the middle of the picture, as a fraction of the picture's
 *     shorter side; {@code NaN} if it was never found
 * @param centredShare share of the moments with a limbus in which this distance is at most {@code limit}, 0 to 1;
 *     {@code NaN} if it was never found
 * @param limit in fractions of the shorter side
 * @param medianDiameter of the limbus, pixels; {@code NaN} if it was never found
 * @param zoomChanges lasting changes of the limbus diameter
 * @param focusChanges lasting changes of the sharpness
 */
public record EyeSummary(
        int moments,
        int found,
        Map<Missing, Integer> missing,
        double medianOffset,
        double centredShare,
        double limit,
        double medianDiameter,
        List<Change> zoomChanges,
        List<Change> focusChanges) {

    /** The limit where nobody gives one. */
    public static final double USUAL_LIMIT = 0.15;

    /** Least ratio of the diameters before and after that counts as a change of zoom. */
    public static final double ZOOM_RATIO = 1.04;

    /** Least ratio of the sharpness before and after that counts as a change of focus. */
    public static final double FOCUS_RATIO = 1.5;

    /** Fewest moments between two changes. */
    private static final int LEAST = 3;

    /** From the median absolute deviation to the standard deviation of a normal distribution. */
    private static final double MAD_TO_SD = 1.4826;

    /** Least noise of the logarithms: half a per cent. */
    private static final double LEAST_NOISE = 0.005;

    /**
     * @param timeUs of the first moment after it
     * @param before mean of the stretch before it (geometric)
     * @param after mean of the stretch after it (geometric)
     */
    public record Change(long timeUs, double before, double after) {
        public double ratio() {
            return after / before;
        }
    }

    public EyeSummary {
        missing = Map.copyOf(missing);
        zoomChanges = List.copyOf(zoomChanges);
        focusChanges = List.copyOf(focusChanges);
    }

    /** @param limit fraction of the shorter side, positive */
    public static EyeSummary of(EyeTrack track, double limit) {
        if (!(limit > 0)) {
            throw new IllegalArgumentException("a limit of " + limit);
        }
        Map<Missing, Integer> missing = new EnumMap<>(Missing.class);
        List<EyeSample> seen = new ArrayList<>();
        for (EyeSample sample : track.samples()) {
            Missing why = sample.view().missing();
            if (why == null) {
                seen.add(sample);
            } else {
                missing.merge(why, 1, Integer::sum);
            }
        }
        double[] offsets = seen.stream().mapToDouble(s -> offset(track, s)).toArray();
        double[] diameters = seen.stream()
                .mapToDouble(s -> Objects.requireNonNull(s.view().limbus()).diameter())
                .toArray();
        long centred = Arrays.stream(offsets).filter(o -> o <= limit).count();
        return new EyeSummary(
                track.samples().size(),
                seen.size(),
                missing,
                median(offsets),
                seen.isEmpty() ? Double.NaN : centred / (double) seen.size(),
                limit,
                median(diameters),
                changes(seen, diameters, ZOOM_RATIO),
                changes(
                        seen,
                        seen.stream().mapToDouble(s -> s.view().sharpness()).toArray(),
                        FOCUS_RATIO));
    }

    /** Distance of the limbus centre from the middle of the picture, in fractions of its shorter side. */
    public static double offset(EyeTrack track, EyeSample sample) {
        @Nullable EyeEdge limbus = sample.view().limbus();
        if (limbus == null) {
            return Double.NaN;
        }
        double width = track.scale().smallWidth() * track.scale().factor();
        double height = track.scale().height();
        Point middle = new Point(width / 2, height / 2);
        return limbus.ellipse().centre().distance(middle) / Math.min(width, height);
    }

    /** Changes of the mean logarithm, in units of the noise from one moment to the next. */
    private static List<Change> changes(List<EyeSample> samples, double[] values, double leastRatio) {
        int n = values.length;
        if (n < 2 * LEAST) {
            return List.of();
        }
        double[] logs =
                Arrays.stream(values).map(v -> Math.log(Math.max(v, 1e-9))).toArray();
        double[] steps = new double[n - 1];
        for (int i = 0; i + 1 < n; i++) {
            steps[i] = Math.abs(logs[i + 1] - logs[i]);
        }
        double noise = Math.max(LEAST_NOISE, MAD_TO_SD * median(steps) / Math.sqrt(2));
        double[] scaled = Arrays.stream(logs).map(v -> v / noise).toArray();
        List<Integer> found = ChangePoints.find(new double[][] {scaled}, 3 * Math.log(n) + 6, LEAST);
        List<Change> changes = new ArrayList<>();
        int from = 0;
        for (int k = 0; k < found.size(); k++) {
            int at = found.get(k);
            int to = k + 1 < found.size() ? found.get(k + 1) : n;
            double before = Math.exp(mean(logs, from, at));
            double after = Math.exp(mean(logs, at, to));
            if (Math.max(before / after, after / before) >= leastRatio) {
                changes.add(new Change(samples.get(at).timeUs(), before, after));
                from = at;
            }
        }
        return changes;
    }

    private static double mean(double[] values, int from, int to) {
        return Arrays.stream(values, from, to).average().orElse(Double.NaN);
    }

    static double median(double[] values) {
        if (values.length == 0) {
            return Double.NaN;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }
}
