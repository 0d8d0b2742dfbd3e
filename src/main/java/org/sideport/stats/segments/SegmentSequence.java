package org.sideport.stats.segments;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/**
 * What one tagger marked on one recording. Time between the segments has no label (background). Neighbours with one label
 * are legal: they count as two episodes and, once {@link #merged}, as one stretch.
 *
 * @param segments in order of time, none overlapping the next
 */
public record SegmentSequence(List<Segment> segments) {

    public SegmentSequence {
        segments = List.copyOf(segments);
        for (int i = 1; i < segments.size(); i++) {
            Segment before = segments.get(i - 1);
            Segment next = segments.get(i);
            if (next.startUs() < before.endUs()) {
                throw new IllegalArgumentException(before + " and " + next + " overlap or are out of order");
            }
        }
    }

    /** Segments in any order. */
    public static SegmentSequence of(List<Segment> segments) {
        return new SegmentSequence(segments.stream()
                .sorted(Comparator.comparingLong(Segment::startUs))
                .toList());
    }

    public boolean isEmpty() {
        return segments.isEmpty();
    }

    public int size() {
        return segments.size();
    }

    /** Touching neighbours with one label made one. */
    public SegmentSequence merged() {
        List<Segment> merged = new ArrayList<>();
        for (Segment next : segments) {
            int last = merged.size() - 1;
            if (last >= 0
                    && merged.get(last).label().equals(next.label())
                    && merged.get(last).endUs() == next.startUs()) {
                merged.set(last, new Segment(next.label(), merged.get(last).startUs(), next.endUs()));
            } else {
                merged.add(next);
            }
        }
        return new SegmentSequence(merged);
    }

    /** With the segments of these labels made background, for instance a label that means idle. */
    public SegmentSequence without(Set<String> labels) {
        return new SegmentSequence(
                segments.stream().filter(s -> !labels.contains(s.label())).toList());
    }

    /** One label a segment, in order of time. */
    public List<String> labels() {
        return segments.stream().map(Segment::label).toList();
    }
}
