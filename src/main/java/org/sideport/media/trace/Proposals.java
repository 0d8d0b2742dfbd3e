package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.sideport.model.MediaTime;

/**
 * Idle stretches and candidates for boundaries. They shorten the way to the places worth a look; which phase it is, and
 * whether it is a boundary at all, is for the annotator to say.
 */
public final class Proposals {

    /** Values a second for the search of changes: medians of moments, which depend less on their neighbours. */
    private static final double VALUES_A_SECOND = 1;
    /**
     * Times the BIC penalty (G. Schwarz, Annals of Statistics 6 (1978) 461–464): neighbouring seconds are still alike,
     * and a penalty for independent values would find changes everywhere.
     */
    private static final double CAUTION = 3;
    /** Least noise of each series: below it a change is too small to see. */
    private static final double LEAST_ACTIVITY_NOISE = 0.2;

    private static final double LEAST_RED_NOISE = 0.03;

    private Proposals() {}

    /** As {@link #of(Traces, FindingRules)} with the usual limits. */
    public static List<Proposal> of(Traces traces) {
        return of(traces, FindingRules.usual());
    }

    /** All proposals in the order of time. */
    public static List<Proposal> of(Traces traces, FindingRules rules) {
        Moments moments = new Moments(traces);
        List<Proposal> proposals = new ArrayList<>();
        int[] kept = kept(traces, moments, rules);
        if (kept.length > 1) {
            Activity activity = new Activity(traces, moments, kept);
            addIdle(traces, moments, activity, kept, rules, proposals);
            addBoundaries(traces, moments, activity, kept, rules, proposals);
            proposals.sort(Comparator.comparing(Proposal::start).thenComparing(Proposal::kind));
        }
        return List.copyOf(proposals);
    }

    /** Moments that show a scene: what is black, empty, frozen or in a hole is a finding of its own. */
    private static int[] kept(Traces traces, Moments moments, FindingRules rules) {
        boolean[] shows = new boolean[traces.size()];
        for (int i = 0; i < shows.length; i++) {
            shows[i] = moments.usable()[i] && !moments.held()[i];
        }
        for (Stretch frozen : StillFindings.frozen(traces, moments, rules)) {
            Arrays.fill(shows, frozen.from() + 1, frozen.to(), false);
        }
        return IntStream.range(0, shows.length).filter(i -> shows[i]).toArray();
    }

    private static void addIdle(
            Traces traces,
            Moments moments,
            Activity activity,
            int[] kept,
            FindingRules rules,
            List<Proposal> proposals) {
        if (!activity.isClear()) {
            return;
        }
        double[] curve = activity.curve();
        // what lies before the first eye and after the last is no rest of the operation
        List<Stretch> eyes = new EyeStretches(traces, moments, rules).stretches();
        int first = eyes.isEmpty() ? 0 : eyes.get(0).from();
        int end = eyes.isEmpty() ? traces.size() : eyes.get(eyes.size() - 1).to();
        boolean[] idle = new boolean[traces.size()];
        double[] below = new double[traces.size()];
        for (int i = 0; i < kept.length; i++) {
            int at = kept[i];
            idle[at] = at >= first && at < end && curve[i] < activity.threshold();
            below[at] = activity.threshold() - curve[i];
        }
        for (Stretch s : Stretch.of(idle, moments.count(rules.idleSeconds()), moments.count(0.5))) {
            double times =
                    Math.exp(Arrays.stream(below, s.from(), s.to()).average().orElse(0));
            proposals.add(new Proposal(
                    Proposal.Kind.IDLE,
                    moments.time(s.from()),
                    moments.time(s.to()),
                    String.format(
                            Locale.ROOT,
                            "Little moves for %.1f s, %.1f times less than the level that splits rest from work: rest, or quiet work.",
                            moments.seconds(s.length()),
                            times),
                    Math.max(0.2, Math.min(0.9, 1 - 1 / Math.max(1, times)))));
        }
    }

    private static void addBoundaries(
            Traces traces,
            Moments moments,
            Activity activity,
            int[] kept,
            FindingRules rules,
            List<Proposal> proposals) {
        int block = moments.count(1 / VALUES_A_SECOND);
        int n = kept.length / block;
        int least = Math.max(1, (int) Math.round(rules.boundarySeconds() / moments.seconds(block)));
        if (n < 2 * least) {
            return;
        }
        double[] active = blocks(activity.curve(), block, n);
        double[] red = blocks(widened(traces.of(TraceKind.RED_SATURATION), kept), block, n);
        double[][] series = {
            scaled(active, Math.max(LEAST_ACTIVITY_NOISE, noise(active))),
            scaled(red, Math.max(LEAST_RED_NOISE, noise(red)))
        };
        // two means and one place are free for each change
        double penalty = CAUTION * (series.length + 1) * Math.log(n);
        List<Integer> changes = ChangePoints.find(series, penalty, least);
        for (int c = 0; c < changes.size(); c++) {
            int at = changes.get(c);
            int from = c == 0 ? 0 : changes.get(c - 1);
            int to = c + 1 == changes.size() ? n : changes.get(c + 1);
            proposals.add(boundary(moments.time(kept[at * block]), series, active, red, from, at, to, penalty));
        }
    }

    private static Proposal boundary(
            MediaTime time,
            double[][] series,
            double[] active,
            double[] red,
            int from,
            int at,
            int to,
            double penalty) {
        double gain = 0;
        for (double[] one : series) {
            double step = mean(one, at, to) - mean(one, from, at);
            // what the sum of squares loses by the change
            gain += step * step * (at - from) * (to - at) / (to - from);
        }
        double factor = Math.exp(mean(active, at, to) - mean(active, from, at));
        return new Proposal(
                Proposal.Kind.BOUNDARY,
                time,
                time,
                String.format(
                        Locale.ROOT,
                        "The level changes: activity %s %.1f times, red saturation from %.2f to %.2f.",
                        factor >= 1 ? "rises" : "falls",
                        factor >= 1 ? factor : 1 / factor,
                        mean(red, from, at),
                        mean(red, at, to)),
                Math.max(0.1, Math.min(0.9, 1 - penalty / Math.max(penalty, gain))));
    }

    private static double[] widened(float[] trace, int[] kept) {
        double[] values = new double[kept.length];
        for (int i = 0; i < values.length; i++) {
            values[i] = trace[kept[i]];
        }
        return values;
    }

    private static double[] blocks(double[] values, int block, int n) {
        double[] medians = new double[n];
        for (int i = 0; i < n; i++) {
            medians[i] = Numbers.median(Arrays.copyOfRange(values, i * block, (i + 1) * block));
        }
        return medians;
    }

    /** Robust standard deviation of the noise, from differences of neighbours: median / 0.6745 / √2 (normal). */
    private static double noise(double[] values) {
        double[] differences = new double[values.length - 1];
        for (int i = 0; i < differences.length; i++) {
            differences[i] = Math.abs(values[i + 1] - values[i]);
        }
        return Numbers.median(differences) / 0.6745 / Math.sqrt(2);
    }

    private static double[] scaled(double[] values, double unit) {
        double[] scaled = new double[values.length];
        for (int i = 0; i < scaled.length; i++) {
            scaled[i] = values[i] / unit;
        }
        return scaled;
    }

    private static double mean(double[] values, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += values[i];
        }
        return sum / (to - from);
    }
}
