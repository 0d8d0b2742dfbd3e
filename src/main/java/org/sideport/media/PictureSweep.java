package org.sideport.media;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.Progress;

/**
 * Decodes a recording once from start to end and hands out small pictures at even times: at each moment the one that is
 * on the screen then, as {@link RecordingFrames#frameAt} defines it.
 */
public final class PictureSweep {

    /** Below this reduction the loop filter matters to what is left of the picture, and decoding is quick anyway. */
    private static final int SKIP_FILTER_FROM = 4;

    private PictureSweep() {}

    /** Takes the pictures in the order of time. */
    @FunctionalInterface
    public interface Visitor {
        /**
         * @param number of the moment, from 0, without a hole
         * @param segment position of the file in the recording, from 0
         * @param picture {@code null} if the same frame is still on the screen as at the moment before
         */
        void moment(int number, int segment, @Nullable SmallPicture picture);
    }

    /**
     * What the sweep learnt about the times.
     *
     * @param durationUs of the recording, microseconds
     * @param segmentStartsUs where each file starts on the recording's timeline, microseconds
     * @param holes places without frames inside the files
     */
    public record Swept(long durationUs, List<Long> segmentStartsUs, List<TimeHole> holes) {
        public Swept {
            segmentStartsUs = List.copyOf(segmentStartsUs);
            holes = List.copyOf(holes);
        }
    }

    /**
     * @param files of one recording in order, at least one
     * @param cache frame times that were read before; {@code null} to read them anew
     * @param stepUs from one moment to the next, microseconds, positive; the first is at 0
     * @param width of the pictures handed out; smaller where the first file's are smaller
     * @throws MediaException if a file is missing or not one of its frames can be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static Swept sweep(
            List<Path> files,
            @Nullable FrameIndexCache cache,
            long stepUs,
            int width,
            Visitor visitor,
            Progress progress) {
        if (files.isEmpty() || stepUs <= 0 || width < 16) {
            throw new IllegalArgumentException("a sweep needs files, a positive step and a width of 16 or more");
        }
        List<Long> starts = new ArrayList<>();
        List<TimeHole> holes = new ArrayList<>();
        Grid grid = new Grid(stepUs, visitor);
        long start = 0;
        @Nullable SmallScaler scaler = null;
        try {
            for (int i = 0; i < files.size(); i++) {
                Progress part = progress.part((double) i / files.size(), (i + 1.0) / files.size());
                FrameIndex index = SegmentIndexes.index(files.get(i), cache, part.part(0, 0.1));
                starts.add(start);
                holes.addAll(TimeHole.in(index, i, start));
                try (MediaInput input = MediaInput.open(files.get(i))) {
                    scaler = scaler == null ? scalerFor(input, width) : scaler;
                }
                grid.startSegment(i, start);
                decode(files.get(i), index, scaler, grid, part.part(0.1, 1));
                start += index.durationUs();
            }
        } finally {
            if (scaler != null) {
                scaler.close();
            }
        }
        return new Swept(start, starts, holes);
    }

    private static SmallScaler scalerFor(MediaInput input, int width) {
        int codedWidth = input.video().codecpar().width();
        int codedHeight = input.video().codecpar().height();
        int small = Math.min(width, codedWidth);
        return new SmallScaler(small, Math.max(2, (int) Math.round((double) codedHeight * small / codedWidth)));
    }

    private static void decode(Path file, FrameIndex index, SmallScaler scaler, Grid grid, Progress progress) {
        MediaInput input = MediaInput.open(file);
        boolean rough = input.video().codecpar().width() >= SKIP_FILTER_FROM * scaler.width();
        try (PacketDecoder decoder = PacketDecoder.open(input, index, rough)) {
            int position = -1;
            while (decoder.next()) {
                progress.check();
                int found = index.frameOf(decoder.ordinal());
                if (found > position) {
                    position = found;
                    grid.frame(decoder.frame(), scaler, index.startUs(found), index.startUs(found + 1));
                    progress.report((double) found / index.size(), "Looking through " + file.getFileName());
                }
            }
            if (position < 0) {
                throw new MediaException(
                        Reason.UNREADABLE,
                        "not one frame can be decoded",
                        file.toString(),
                        "copy the file again from the recorder");
            }
            grid.endSegment(index.durationUs());
        }
    }

    /** The even moments of the recording's timeline, each served once. */
    private static final class Grid {

        private final long stepUs;
        private final Visitor visitor;
        private int next;
        private int segment;
        private long segmentStart;

        Grid(long stepUs, Visitor visitor) {
            this.stepUs = stepUs;
            this.visitor = visitor;
        }

        void startSegment(int number, long startUs) {
            segment = number;
            segmentStart = startUs;
        }

        /** Times are from the start of the file. */
        void frame(AVFrame frame, SmallScaler scaler, long startUs, long endUs) {
            // Frames that damage has swallowed: what was there before stays on the screen. At the very start nothing
            // was, and this picture stands for them.
            boolean nothingYet = next == 0;
            if (!nothingYet) {
                hold(startUs);
            }
            if (due() < endUs) {
                visitor.moment(next++, segment, scaler.scale(frame));
                hold(endUs);
            }
        }

        void endSegment(long durationUs) {
            hold(durationUs);
        }

        private void hold(long untilUs) {
            while (due() < untilUs) {
                visitor.moment(next++, segment, null);
            }
        }

        /** When the next moment is, from the start of the file. */
        private long due() {
            return next * stepUs - segmentStart;
        }
    }
}
