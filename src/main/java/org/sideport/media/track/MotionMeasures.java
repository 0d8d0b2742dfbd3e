package org.sideport.media.track;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * What the way of a tip amounts to. Path length and number of movements are the measures of dexterity of motion analysis in
 * surgery (V. Datta, S. Mackay, M. Mandalia, A. Darzi, The use of electromagnetic motion tracking analysis to objectively
 * measure open surgical skill in the laboratory-based model, Journal of the American College of Surgeons 193 (2001) 479–485),
 * taken in cataract operations from video by P. Smith and others (British Journal of Ophthalmology 97 (2013) 1220–1224, title and
 * pages from memory) and N. Din and others (2020, from memory). Here they come from the picture: in two dimensions, without depth.
 *
 * @param durationS first to last frame, seconds
 * @param pathLength of the smoothed way, units of length
 * @param meanSpeed path length over duration
 * @param peakSpeed greatest smoothed speed
 * @param movements stretches in which the speed is above the threshold
 */
public record MotionMeasures(
        double durationS, double pathLength, double meanSpeed, double peakSpeed, List<Movement> movements) {

    private static final int LEAST_PLACES = 5;

    /**
     * @param startS seconds from the first frame
     * @param dimensionlessJerk see {@link Smoothness#dimensionlessJerk}
     * @param logDimensionlessJerk see {@link Smoothness#logDimensionlessJerk}
     * @param spectralArcLength see {@link Smoothness#spectralArcLength}
     */
    public record Movement(
            double startS,
            double endS,
            double length,
            double peakSpeed,
            double dimensionlessJerk,
            double logDimensionlessJerk,
            double spectralArcLength) {}

    public MotionMeasures {
        movements = List.copyOf(movements);
    }

    /**
     * @param t seconds, ascending, at least five
     * @param x in any unit of length, as many
     * @param y as many
     */
    public static MotionMeasures of(double[] t, double[] x, double[] y, MotionSettings settings) {
        if (t.length < LEAST_PLACES || x.length != t.length || y.length != t.length) {
            throw new IllegalArgumentException("five or more places with their times are needed");
        }
        for (int i = 1; i < t.length; i++) {
            if (!(t[i] > t[i - 1])) {
                throw new IllegalArgumentException("times must ascend: " + t[i - 1] + ", " + t[i]);
            }
        }
        SmoothPath path = SmoothPath.of(t, x, y, settings.smoothingS());
        double duration = t[t.length - 1] - t[0];
        double length = path.length(0, t.length - 1);
        List<Movement> movements = new ArrayList<>();
        for (int[] span : spans(path, settings)) {
            movements.add(movement(path, span[0], span[1]));
        }
        return new MotionMeasures(
                duration,
                length,
                length / duration,
                Arrays.stream(path.speed()).max().orElse(0),
                movements);
    }

    /** First and last frame of each movement. */
    private static List<int[]> spans(SmoothPath path, MotionSettings settings) {
        double[] t = path.t();
        List<int[]> spans = new ArrayList<>();
        for (int i = 0; i < t.length; i++) {
            if (path.speed()[i] <= settings.threshold()) {
                continue;
            }
            int[] last = spans.isEmpty() ? null : spans.get(spans.size() - 1);
            if (last != null && (last[1] == i - 1 || t[i] - t[last[1]] < settings.leastRestS())) {
                last[1] = i;
            } else {
                spans.add(new int[] {i, i});
            }
        }
        spans.removeIf(s -> t[s[1]] - t[s[0]] < settings.leastS() || s[1] - s[0] + 1 < LEAST_PLACES);
        return spans;
    }

    private static Movement movement(SmoothPath path, int from, int to) {
        double[] t = Arrays.copyOfRange(path.t(), from, to + 1);
        double[] jerk = Arrays.copyOfRange(path.jerkSquared(), from, to + 1);
        double[] speed = Arrays.copyOfRange(path.speed(), from, to + 1);
        double length = path.length(from, to);
        double peak = Arrays.stream(speed).max().orElse(0);
        double hz = (t.length - 1) / (t[t.length - 1] - t[0]);
        return new Movement(
                t[0] - path.t()[0],
                t[t.length - 1] - path.t()[0],
                length,
                peak,
                Smoothness.dimensionlessJerk(t, jerk, length),
                Smoothness.logDimensionlessJerk(t, jerk, peak),
                Smoothness.spectralArcLength(even(t, speed, hz), hz));
    }

    /** At even times, in proportion between the neighbours. */
    private static double[] even(double[] t, double[] values, double hz) {
        double[] even = new double[t.length];
        int left = 0;
        for (int k = 0; k < even.length; k++) {
            double at = Math.min(t[t.length - 1], t[0] + k / hz);
            while (left + 2 < t.length && t[left + 1] <= at) {
                left++;
            }
            double share = (at - t[left]) / (t[left + 1] - t[left]);
            even[k] = values[left] + share * (values[left + 1] - values[left]);
        }
        return even;
    }

    /** Median over the movements; {@code NaN} if there is none. */
    public double median(ToDoubleFunction<Movement> measure) {
        return EyeSummary.median(movements.stream().mapToDouble(measure).toArray());
    }
}
