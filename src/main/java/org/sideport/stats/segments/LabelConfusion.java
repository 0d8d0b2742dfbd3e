package org.sideport.stats.segments;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.LongBinaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * How long (or for how many frames) each label of one tagger met each label of another. The measures are the same with
 * both taggers exchanged.
 *
 * @param labels distinct; {@link #NO_LABEL} stands for background
 * @param amounts rows: the first tagger's labels, columns: the second's; microseconds or frames; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record LabelConfusion(List<String> labels, long[][] amounts) {

    /** No segment can bear it, since labels are not empty. */
    public static final String NO_LABEL = "";

    public LabelConfusion {
        labels = List.copyOf(labels);
        if (amounts.length != labels.size()) {
            throw new IllegalArgumentException(amounts.length + " rows for " + labels.size() + " labels");
        }
    }

    /** Microseconds, exactly: no frame grid. */
    public static LabelConfusion ofTime(SegmentSequence first, SegmentSequence second, Background background) {
        return sweep(first, second, background, (from, to) -> to - from);
    }

    /** Frames; a frame has the label of the time at which it is shown first. Times must not be negative. */
    public static LabelConfusion ofFrames(
            SegmentSequence first, SegmentSequence second, Background background, FrameRate rate) {
        return sweep(first, second, background, rate::framesFrom);
    }

    private static LabelConfusion sweep(
            SegmentSequence first, SegmentSequence second, Background background, LongBinaryOperator measure) {
        Set<String> seen = new LinkedHashSet<>(first.labels());
        seen.addAll(second.labels());
        seen.add(NO_LABEL);
        List<String> labels = List.copyOf(seen);
        long[][] amounts = new long[labels.size()][labels.size()];
        Pointer a = new Pointer(first.segments());
        Pointer b = new Pointer(second.segments());
        long now = Math.min(a.next(Long.MIN_VALUE), b.next(Long.MIN_VALUE));
        while (now < Long.MAX_VALUE) {
            long then = Math.min(a.next(now), b.next(now));
            if (then == Long.MAX_VALUE) {
                break;
            }
            String labelA = a.label(now);
            String labelB = b.label(now);
            boolean idle = labelA.equals(NO_LABEL) && labelB.equals(NO_LABEL);
            if (!idle || background == Background.CATEGORY) {
                amounts[labels.indexOf(labelA)][labels.indexOf(labelB)] += measure.applyAsLong(now, then);
            }
            now = then;
        }
        return new LabelConfusion(labels, amounts);
    }

    /** Walks along a sequence. */
    private static final class Pointer {

        private final List<Segment> segments;
        private int at;

        Pointer(List<Segment> segments) {
            this.segments = segments;
        }

        /** The next start or end after a time. */
        long next(long now) {
            while (at < segments.size() && segments.get(at).endUs() <= now) {
                at++;
            }
            if (at == segments.size()) {
                return Long.MAX_VALUE;
            }
            Segment segment = segments.get(at);
            return segment.startUs() > now ? segment.startUs() : segment.endUs();
        }

        String label(long now) {
            return at < segments.size() && segments.get(at).startUs() <= now
                    ? segments.get(at).label()
                    : NO_LABEL;
        }
    }

    public long total() {
        return Arrays.stream(amounts).flatMapToLong(Arrays::stream).sum();
    }

    /**
     * Share of the time in agreement.
     *
     * @return refused where no time was compared
     */
    public Outcome<Double> accuracy() {
        long total = total();
        if (total == 0) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "no time was compared", "give segments of some length from both taggers");
        }
        return Outcome.of((double) agreed() / total);
    }

    private long agreed() {
        long agreed = 0;
        for (int i = 0; i < amounts.length; i++) {
            agreed += amounts[i][i];
        }
        return agreed;
    }

    /**
     * Cohen 1960, Educational and Psychological Measurement 20:37: agreement beyond what the taggers' own shares of each
     * label would give by chance. Neighbouring moments are not independent, so that the usual standard error does not
     * hold; resample cases for limits.
     *
     * @return refused where no time was compared or both used one and the same label throughout
     */
    public Outcome<Double> kappa() {
        return accuracy().flatMap(observed -> {
            double total = total();
            double chance = 0;
            for (int i = 0; i < amounts.length; i++) {
                chance += Arrays.stream(amounts[i]).sum() / total * (column(i) / total);
            }
            if (agreed() == total() && chance >= 1) {
                return Outcome.refused(
                        Refusal.Reason.NO_VARIATION,
                        "both taggers used one and the same label throughout",
                        "compare recordings with more than one label");
            }
            return Outcome.of((observed - chance) / (1 - chance));
        });
    }

    /** Time with the label by both over time with it by either (Jaccard index), 0 to 1; {@code null} without either. */
    public @Nullable Double intersectionOverUnion(String label) {
        int i = labels.indexOf(label);
        if (i < 0) {
            return null;
        }
        long union = Arrays.stream(amounts[i]).sum() + column(i) - amounts[i][i];
        return union == 0 ? null : (Double) ((double) amounts[i][i] / union);
    }

    private long column(int j) {
        return Arrays.stream(amounts).mapToLong(row -> row[j]).sum();
    }

    /** Several recordings of the same two taggers as one. */
    public LabelConfusion plus(LabelConfusion other) {
        Set<String> both = new LinkedHashSet<>(labels);
        both.addAll(other.labels);
        List<String> all = new ArrayList<>(both);
        long[][] sum = new long[all.size()][all.size()];
        for (LabelConfusion part : List.of(this, other)) {
            for (int i = 0; i < part.amounts.length; i++) {
                for (int j = 0; j < part.amounts.length; j++) {
                    sum[all.indexOf(part.labels.get(i))][all.indexOf(part.labels.get(j))] += part.amounts[i][j];
                }
            }
        }
        return new LabelConfusion(all, sum);
    }
}
