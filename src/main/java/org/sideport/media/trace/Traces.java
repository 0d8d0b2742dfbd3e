package org.sideport.media.trace;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.sideport.media.TimeHole;

/**
 * Curves over a recording at even moments. Moment {@code i} is at {@code startUs + i * stepUs} and tells of the frame that
 * is on the screen then; differences are to the moment before, and 0 for the first.
 *
 * @param startUs first moment on the recording's timeline, microseconds
 * @param stepUs from one moment to the next, microseconds
 * @param durationUs of the recording, microseconds
 * @param segmentStartsUs where each file starts on the recording's timeline, microseconds, ascending from 0
 * @param holes places inside files where no frame comes, in the order of time
 * @param values one number for each moment, for every kind; not to be changed
 */
public record Traces(
        long startUs,
        long stepUs,
        long durationUs,
        List<Long> segmentStartsUs,
        List<TimeHole> holes,
        Map<TraceKind, float[]> values) {

    public Traces {
        segmentStartsUs = List.copyOf(segmentStartsUs);
        holes = List.copyOf(holes);
        values = Collections.unmodifiableMap(new EnumMap<>(values));
        if (startUs < 0 || stepUs <= 0 || durationUs < 0) {
            throw new IllegalArgumentException("start and duration must not be negative and the step positive");
        }
        if (segmentStartsUs.isEmpty() || segmentStartsUs.get(0) != 0) {
            throw new IllegalArgumentException("the first file starts at 0");
        }
        int size = -1;
        for (TraceKind kind : TraceKind.values()) {
            float[] trace = values.get(kind);
            if (trace == null || (size >= 0 && trace.length != size)) {
                throw new IllegalArgumentException("every trace must be there with as many moments: " + kind);
            }
            size = trace.length;
        }
    }

    /** Number of moments. */
    public int size() {
        return of(TraceKind.BRIGHTNESS).length;
    }

    /** The values of one trace; not to be changed. */
    public float[] of(TraceKind kind) {
        float[] trace = values.get(kind);
        if (trace == null) {
            throw new IllegalStateException("no trace " + kind);
        }
        return trace;
    }

    /** When moment {@code i} is, microseconds on the recording's timeline. */
    public long timeUs(int i) {
        return startUs + i * stepUs;
    }

    /** The file on the screen at a time, from 0. */
    public int segmentAt(long us) {
        int segment = 0;
        while (segment + 1 < segmentStartsUs.size() && segmentStartsUs.get(segment + 1) <= us) {
            segment++;
        }
        return segment;
    }
}
