package org.sideport.media;

import static org.bytedeco.ffmpeg.global.swscale.SWS_AREA;

import java.nio.file.Path;
import java.util.List;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * Decodes a stretch of a recording once and hands out its frames, small, upright and with square pixels: every frame, or
 * those on the screen at even moments.
 */
public final class FrameSweep {

    /** From this reduction on the loop filter no longer matters to what is left of the picture. */
    private static final int SKIP_FILTER_FROM = 4;

    private FrameSweep() {}

    /**
     * How the small pictures lie on those that the recording holds.
     *
     * @param width of the recording's upright pictures, pixels
     * @param height of the recording's upright pictures, pixels
     * @param smallWidth of the pictures handed out, pixels
     * @param smallHeight of the pictures handed out, pixels
     */
    public record Scale(int width, int height, int smallWidth, int smallHeight) {

        /** Pixels of the recording, counted down its height, to one pixel of a small picture. */
        public double factor() {
            return (double) height / smallHeight;
        }

        /** Pixels of the recording across its pictures to one counted down: 1 unless pixels are not square. */
        public double stretch() {
            return width / (smallWidth * factor());
        }

        /** From a pixel's middle in the small picture to the place in the recording's, from its left edge. */
        public double x(double small) {
            return (small + 0.5) * width / smallWidth;
        }

        /** As {@link #x}, from the top edge. */
        public double y(double small) {
            return (small + 0.5) * height / smallHeight;
        }

        /** The inverse of {@link #x}. */
        public double smallX(double x) {
            return x * smallWidth / width - 0.5;
        }

        /** The inverse of {@link #y}. */
        public double smallY(double y) {
            return y * smallHeight / height - 0.5;
        }
    }

    /** Takes the pictures in the order of time. */
    @FunctionalInterface
    public interface Visitor {
        /**
         * @param frame number in the recording, from 0
         * @param startUs when it comes on the screen, microseconds on the recording's timeline
         * @param momentUs the first moment for which it was wanted; {@code startUs} where every frame is wanted
         * @return false to end the sweep
         */
        boolean frame(Scale scale, long frame, long startUs, long momentUs, SmallPicture picture);
    }

    /**
     * @param files of one recording in order, at least one; a later file of another shape is scaled to the first one's
     * @param from start of the stretch; the first frame is the one on the screen then
     * @param to end of the stretch, exclusive; beyond the end of the recording means its end
     * @param stepUs from one moment to the next, microseconds; 0 for every frame
     * @param width of the small pictures before they are turned; smaller where the recording's are smaller
     * @return end of the stretch that was looked at, microseconds
     * @throws InputException if the stretch is empty or begins after the end of the recording
     * @throws MediaException if a file is missing or not one of its frames can be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static long sweep(
            List<Path> files,
            MediaTime from,
            MediaTime to,
            long stepUs,
            int width,
            Visitor visitor,
            Progress progress) {
        if (files.isEmpty() || stepUs < 0 || width < 16) {
            throw new IllegalArgumentException("a sweep needs files, a step of 0 or more and a width of 16 or more");
        }
        if (!from.isBefore(to)) {
            throw new InputException(
                    "the stretch from " + from + " to " + to + " is empty", null, "let it end after it begins");
        }
        List<FrameIndex> indexes = SegmentIndexes.of(files, null, progress.part(0, 0.1));
        long length = indexes.stream().mapToLong(FrameIndex::durationUs).sum();
        if (from.micros() >= length) {
            throw new InputException(
                    "the recording ends at " + MediaTime.ofMicros(length) + ", before " + from,
                    files.get(0).toString(),
                    "choose a time within it");
        }
        long end = Math.min(length, to.micros());
        Run run = new Run(from.micros(), end, stepUs, width, visitor);
        Progress decoding = progress.part(0.1, 1);
        try {
            for (int i = 0; i < files.size() && !run.ended; i++) {
                if (run.startUs + indexes.get(i).durationUs() > from.micros() && run.startUs < end) {
                    run.decode(files.get(i), indexes.get(i), decoding);
                }
                run.startUs += indexes.get(i).durationUs();
                run.startFrame += indexes.get(i).size();
            }
        } finally {
            run.close();
        }
        return end;
    }

    /** One sweep under way. */
    private static final class Run implements AutoCloseable {

        private final long fromUs;
        private final long toUs;
        private final long stepUs;
        private final int width;
        private final Visitor visitor;
        private long nextUs;
        private long startUs;
        private long startFrame;
        private boolean ended;
        private Picture shape = Picture.NONE;

        Run(long fromUs, long toUs, long stepUs, int width, Visitor visitor) {
            this.fromUs = fromUs;
            this.toUs = toUs;
            this.stepUs = stepUs;
            this.width = width;
            this.visitor = visitor;
            nextUs = fromUs;
        }

        void decode(Path file, FrameIndex index, Progress progress) {
            MediaInput input = MediaInput.open(file);
            boolean rough;
            try {
                shape = Picture.of(input, shape, width);
                rough = input.video().codecpar().width()
                        >= SKIP_FILTER_FROM * shape.scaler().width();
            } catch (RuntimeException e) {
                input.close();
                throw e;
            }
            try (PacketDecoder decoder = PacketDecoder.open(input, index, rough)) {
                int first = index.at(Math.max(0, fromUs - startUs));
                int key = index.keyFor(first);
                if (key > 0 && !decoder.start(key)) {
                    decoder.start(-1);
                }
                int position = -1;
                while (!ended && decoder.next()) {
                    progress.check();
                    int found = index.frameOf(decoder.ordinal());
                    if (found > position) {
                        position = found;
                        serve(index, found, decoder);
                        double done = (startUs + index.startUs(found) - fromUs) / (double) (toUs - fromUs);
                        progress.report(Math.max(0, Math.min(1, done)), "Looking through " + file.getFileName());
                    }
                }
                if (position < 0) {
                    throw new MediaException(
                            Reason.UNREADABLE,
                            "not one frame can be decoded",
                            file.toString(),
                            "copy the file again from the recorder");
                }
            }
        }

        private void serve(FrameIndex index, int frame, PacketDecoder decoder) {
            long start = startUs + index.startUs(frame);
            long end = startUs + index.startUs(frame + 1);
            if (start >= toUs) {
                ended = true;
            } else if (end > nextUs) {
                long moment = stepUs == 0 ? start : Math.max(nextUs, start);
                ended = !visitor.frame(shape.scale(), startFrame + frame, start, moment, shape.take(decoder.frame()));
                if (stepUs == 0) {
                    nextUs = end;
                } else {
                    nextUs += stepUs * ((end - 1 - nextUs) / stepUs + 1);
                }
            }
        }

        @Override
        public void close() {
            shape.close();
        }
    }

    /** Scales and turns the pictures of the file at hand. */
    private record Picture(@Nullable SmallScaler kept, Scale scale, int rotation) {

        static final Picture NONE = new Picture(null, new Scale(1, 1, 1, 1), 0);

        static Picture of(MediaInput input, Picture before, int width) {
            int rotation = input.rotation();
            boolean sideways = rotation % 180 != 0;
            Scale last = before.scale();
            int codedWidth = input.video().codecpar().width();
            int codedHeight = input.video().codecpar().height();
            AVRational aspect = input.sampleAspect();
            double shownWidth = codedWidth * (aspect.num() / (double) aspect.den());
            int small = (int) Math.max(2, Math.min(width, Math.round(shownWidth)));
            int high = Math.max(2, (int) Math.round(small * codedHeight / shownWidth));
            Scale scale = before.kept() != null
                    ? last
                    : new Scale(
                            sideways ? codedHeight : codedWidth,
                            sideways ? codedWidth : codedHeight,
                            sideways ? high : small,
                            sideways ? small : high);
            before.close();
            SmallScaler scaler = new SmallScaler(
                    sideways ? scale.smallHeight() : scale.smallWidth(),
                    sideways ? scale.smallWidth() : scale.smallHeight(),
                    SWS_AREA);
            return new Picture(scaler, scale, rotation);
        }

        SmallScaler scaler() {
            SmallScaler scaler = kept;
            if (scaler == null) {
                throw new IllegalStateException("no picture yet");
            }
            return scaler;
        }

        SmallPicture take(AVFrame frame) {
            SmallPicture coded = scaler().scale(frame);
            return rotation == 0
                    ? coded
                    : new SmallPicture(
                            scale.smallWidth(),
                            scale.smallHeight(),
                            turned(coded.luma(), coded.width(), coded.height()),
                            turned(coded.cb(), coded.width(), coded.height()),
                            turned(coded.cr(), coded.width(), coded.height()));
        }

        private byte[] turned(byte[] plane, int width, int height) {
            byte[] upright = new byte[plane.length];
            int newWidth = rotation % 180 == 0 ? width : height;
            for (int y = 0; y < height; y++) {
                for (int x = 0; x < width; x++) {
                    int toX = rotation == 90 ? height - 1 - y : rotation == 180 ? width - 1 - x : y;
                    int toY = rotation == 90 ? x : rotation == 180 ? height - 1 - y : width - 1 - x;
                    upright[toY * newWidth + toX] = plane[y * width + x];
                }
            }
            return upright;
        }

        void close() {
            if (kept != null) {
                kept.close();
            }
        }
    }
}
