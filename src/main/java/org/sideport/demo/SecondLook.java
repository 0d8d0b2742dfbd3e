package org.sideport.demo;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;

/** The same operation as another annotator would tag it: each boundary a little earlier or later. */
final class SecondLook {

    private static final double SPREAD_SECONDS = 0.4;
    private static final long FRAME = 40_000;

    private SecondLook() {}

    /** Times stay multiples of a frame and in order; events are left out. */
    static Tagging of(Tagging first, Random random) {
        List<PhaseSpan> spans = new ArrayList<>();
        long earliest = 0;
        for (PhaseSpan span : first.spans()) {
            MediaTime end = span.end();
            if (end == null) {
                continue;
            }
            long start = Math.max(earliest, moved(span.start().micros(), random));
            long newEnd = Math.max(start + FRAME, moved(end.micros(), random));
            spans.add(new PhaseSpan(
                    span.phase(), MediaTime.ofMicros(start), MediaTime.ofMicros(newEnd), span.operator()));
            earliest = newEnd;
        }
        return new Tagging(first.style(), spans, List.of());
    }

    private static long moved(long micros, Random random) {
        return micros + Math.round(random.nextGaussian() * SPREAD_SECONDS * 1e6 / FRAME) * FRAME;
    }
}
