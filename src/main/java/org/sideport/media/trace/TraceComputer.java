package org.sideport.media.trace;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.PictureSweep;
import org.sideport.media.SmallPicture;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/** Measures all traces of a recording in one pass. */
public final class TraceComputer {

    /** Moments a second where nobody asks for another number. */
    public static final double USUAL_HZ = 5;

    /** Least and most moments a second. */
    public static final double LEAST_HZ = 0.1;

    public static final double MOST_HZ = 60;

    static final int WIDTH = 160;

    private TraceComputer() {}

    /** As {@link #compute(List, double, Progress)}, for the files of a recording. */
    public static Traces compute(Recording recording, double hz, Progress progress) {
        return compute(recording.segments().stream().map(Segment::file).toList(), hz, progress);
    }

    /**
     * @param files of one recording in order
     * @param hz moments a second, {@link #LEAST_HZ} to {@link #MOST_HZ}
     * @throws InputException if {@code hz} is out of range
     * @throws org.sideport.media.MediaException if a file is missing or cannot be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static Traces compute(List<Path> files, double hz, Progress progress) {
        return compute(files, null, hz, progress);
    }

    /**
     * As {@link #compute(List, double, Progress)}, with frame times that were read before.
     *
     * @param cache {@code null} to read them anew
     */
    public static Traces compute(List<Path> files, @Nullable FrameIndexCache cache, double hz, Progress progress) {
        long stepUs = stepUs(hz);
        Collector collector = new Collector();
        PictureSweep.Swept swept = PictureSweep.sweep(files, cache, stepUs, WIDTH, collector, progress);
        return new Traces(0, stepUs, swept.durationUs(), swept.segmentStartsUs(), swept.holes(), collector.values());
    }

    /** The step of so many moments a second, microseconds. */
    static long stepUs(double hz) {
        if (!(hz >= LEAST_HZ && hz <= MOST_HZ)) {
            throw new InputException(
                    hz + " moments a second cannot be measured", "--hz", "choose a number from 0.1 to 60");
        }
        return Math.round(1e6 / hz);
    }

    /** Keeps the picture before and appends to growing arrays. */
    private static final class Collector implements PictureSweep.Visitor {

        private final Map<TraceKind, float[]> traces = new EnumMap<>(TraceKind.class);
        private int size;
        private @Nullable SmallPicture last;

        Collector() {
            for (TraceKind kind : TraceKind.values()) {
                traces.put(kind, new float[1024]);
            }
        }

        @Override
        public void moment(int number, int segment, @Nullable SmallPicture picture) {
            SmallPicture before = last;
            SmallPicture now = picture == null ? before : picture;
            if (now == null) {
                throw new IllegalStateException("the first moment has a picture");
            }
            PictureChange change = PictureChange.NONE;
            double difference = 0;
            if (picture != null && before != null) {
                change = PictureChange.between(before, picture);
                difference = PictureMeasures.meanDifference(before.luma(), picture.luma());
            }
            put(TraceKind.BRIGHTNESS, PictureMeasures.mean(now.luma()));
            put(TraceKind.CONTRAST, PictureMeasures.standardDeviation(now.luma()));
            put(TraceKind.BLUE, PictureMeasures.mean(now.cb()));
            put(TraceKind.SHARPNESS, Sharpness.tenengrad(now.luma(), now.width(), now.height()));
            put(TraceKind.RED_SATURATION, PictureMeasures.redSaturation(now));
            put(TraceKind.DIFFERENCE, difference);
            put(TraceKind.ACTIVITY, change.activity());
            put(TraceKind.MOTION, change.motion());
            put(TraceKind.SCENE_CHANGE, change.sceneChange());
            size++;
            last = now;
        }

        private void put(TraceKind kind, double value) {
            float[] trace = traces.get(kind);
            if (trace == null) {
                throw new IllegalStateException("no trace " + kind);
            }
            if (size == trace.length) {
                trace = Arrays.copyOf(trace, 2 * size);
                traces.put(kind, trace);
            }
            trace[size] = (float) value;
        }

        Map<TraceKind, float[]> values() {
            Map<TraceKind, float[]> exact = new EnumMap<>(TraceKind.class);
            traces.forEach((kind, trace) -> exact.put(kind, Arrays.copyOf(trace, size)));
            return exact;
        }
    }
}
