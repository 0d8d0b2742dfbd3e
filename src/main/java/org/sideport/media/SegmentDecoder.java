package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.av_frame_clone;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;

import java.nio.file.Path;
import java.util.function.BooleanSupplier;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException.Reason;

/**
 * Decodes exactly the frame asked for out of one file. Thread-confined; must be closed.
 *
 * <p>It starts at a key frame shown no later than the wanted frame and decodes until the picture of the wanted packet
 * comes out.
 */
final class SegmentDecoder implements AutoCloseable {

    /** Native memory for decoded frames kept for stepping. */
    static final long CACHE_BYTES = 192L << 20;

    private static final BooleanSupplier NEVER = () -> false;

    /** Decoding on is quicker than seeking for frames so close ahead. */
    private static final int DECODE_ON = 60;

    /** How far out of the order of their times pictures may come out of the decoder. */
    private static final int DISORDER = 16;

    /** Key packets to go back where decoding from the nearest one does not give the frame. */
    private static final int[] BACK = {0, 1, 3};

    private final Path file;
    private final FrameIndex index;
    private final PacketDecoder decoder;
    private final double sampleAspect;
    private final int rotation;
    private final FrameRenderer renderer;
    private final FrameCache cache = new FrameCache(CACHE_BYTES);
    /** Number of the frame that came out last, or -1 when the next one is not known to follow it. */
    private int position = -1;
    /** Up to this packet pictures were left out on the way; -1 if none were. */
    private int hurriedTo = -1;

    private SegmentDecoder(Path file, FrameIndex index, PacketDecoder decoder, double sampleAspect, int rotation) {
        this.file = file;
        this.index = index;
        this.decoder = decoder;
        this.sampleAspect = sampleAspect;
        this.rotation = rotation;
        this.renderer = new FrameRenderer(newConverter());
    }

    /**
     * @throws MediaException if the file cannot be opened or its codec is not known
     */
    static SegmentDecoder open(Path file, FrameIndex index) {
        MediaInput input = MediaInput.open(file);
        AVRational aspect = input.sampleAspect();
        int rotation = input.rotation();
        double shape = aspect.num() / (double) aspect.den();
        return new SegmentDecoder(file, index, PacketDecoder.open(input, index), shape, rotation);
    }

    /** The first picture that comes out, without an index. */
    static FramePicture firstPicture(Path file, Rendering rendering) {
        MediaInput input = MediaInput.open(file);
        AVRational aspect = input.sampleAspect();
        PictureConverter converter = new PictureConverter(aspect.num() / (double) aspect.den(), input.rotation());
        try (FrameRenderer renderer = new FrameRenderer(converter);
                PacketDecoder decoder = PacketDecoder.open(input)) {
            if (!decoder.next()) {
                throw new MediaException(
                        Reason.UNREADABLE,
                        "not one picture can be decoded",
                        file.toString(),
                        "copy the file again from the recorder");
            }
            return renderer.render(decoder.frame(), rendering);
        }
    }

    /** For another thread than the decoder's. */
    PictureConverter newConverter() {
        return new PictureConverter(sampleAspect, rotation);
    }

    /** Where the user is and which way he moves: the frames there are kept longest. */
    void focus(int number, int direction) {
        cache.focus(number, direction);
    }

    /**
     * The picture of a frame. Where damage has swallowed it, the last picture before it, as a screen would show.
     *
     * @param number 0 to the index's size, exclusive
     * @throws MediaException if nothing can be decoded there
     */
    FramePicture picture(int number, Rendering rendering) {
        AVFrame frame = reference(number, rendering.isDraft(), NEVER);
        if (frame == null) {
            throw new IllegalStateException("nobody gave up");
        }
        try {
            if (!FrameRenderer.needsNeighbours(frame, rendering) || number == 0 || number + 1 == index.size()) {
                return renderer.render(frame, rendering);
            }
            AVFrame before = reference(number - 1, false, NEVER);
            AVFrame after = reference(number + 1, false, NEVER);
            try {
                return renderer.render(before, frame, after, rendering);
            } finally {
                av_frame_free(before);
                av_frame_free(after);
            }
        } finally {
            av_frame_free(frame);
        }
    }

    /**
     * A reference to a decoded frame, to be freed.
     *
     * @param hurry leaves out what is not needed on the way
     * @param givesUp asked after each picture on the way
     * @return {@code null} if given up
     * @throws MediaException if nothing can be decoded there
     */
    @Nullable
    AVFrame reference(int number, boolean hurry, BooleanSupplier givesUp) {
        AVFrame found = find(number, hurry, givesUp);
        if (found == null) {
            return null;
        }
        AVFrame copy = av_frame_clone(found);
        if (copy == null) {
            throw new OutOfMemoryError("no memory for a picture");
        }
        return copy;
    }

    private @Nullable AVFrame find(int number, boolean hurry, BooleanSupplier givesUp) {
        AVFrame kept = cache.get(number);
        if (kept != null) {
            return kept;
        }
        int packet = hurry || hurriedTo >= 0 ? index.packetOf(number) : -1;
        int only = hurry ? packet : -1;
        if (leadsTo(number, packet)) {
            Outcome outcome = decodeTo(number, only, givesUp);
            if (outcome != Outcome.MISSED) {
                return outcome == Outcome.FOUND ? decoder.frame() : null;
            }
        }
        int key = index.keyFor(number);
        for (int back : BACK) {
            position = -1;
            if (decoder.start(Math.max(-1, key - back))) {
                hurriedTo = -1;
                Outcome outcome = decodeTo(number, back == 0 ? only : -1, givesUp);
                if (outcome != Outcome.MISSED) {
                    return outcome == Outcome.FOUND ? decoder.frame() : null;
                }
            }
            if (key - back < 0) {
                break;
            }
        }
        return nearest(number);
    }

    /** Whether the frame comes if decoding goes on: it is close ahead, and its picture was not left out. */
    private boolean leadsTo(int number, int packet) {
        return position >= 0
                && number > position
                && number - position <= DECODE_ON
                && (hurriedTo < 0 || packet > hurriedTo);
    }

    private AVFrame nearest(int number) {
        AVFrame kept = cache.nearest(number);
        if (kept != null) {
            return kept;
        }
        throw new MediaException(
                Reason.UNREADABLE,
                "no picture can be decoded at " + index.startUs(number) / 1e6 + " s",
                file.toString(),
                "copy the file again from the recorder");
    }

    private enum Outcome {
        FOUND,
        MISSED,
        GIVEN_UP
    }

    private Outcome decodeTo(int number, int only, BooleanSupplier givesUp) {
        decoder.hurryTo(only);
        try {
            return decodeOn(number, givesUp);
        } finally {
            if (only >= 0) {
                hurriedTo = decoder.sent();
            }
        }
    }

    /** Decodes on until the frame comes out. */
    private Outcome decodeOn(int number, BooleanSupplier givesUp) {
        while (decoder.next()) {
            int found = index.frameOf(decoder.ordinal());
            if (found >= 0) {
                position = found;
                cache.put(found, decoder.frame());
                if (found == number) {
                    return Outcome.FOUND;
                }
                if (found > number + DISORDER) {
                    return Outcome.MISSED;
                }
            }
            if (givesUp.getAsBoolean()) {
                return Outcome.GIVEN_UP;
            }
        }
        position = -1;
        return Outcome.MISSED;
    }

    @Override
    public void close() {
        cache.close();
        renderer.close();
        decoder.close();
    }
}
