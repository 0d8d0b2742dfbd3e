package org.sideport.media;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.MediaException.Reason;

/**
 * Decodes exactly the frame asked for out of one file. Thread-confined; must be closed.
 *
 * <p>It starts at a key frame shown no later than the wanted frame and decodes until the picture of the wanted packet
 * comes out.
 */
final class SegmentDecoder implements AutoCloseable {

    /** Native memory for decoded frames kept for stepping back. */
    private static final long CACHE_BYTES = 192L << 20;

    /** Decoding on is quicker than seeking for frames so close ahead. */
    private static final int DECODE_ON = 60;

    /** How far out of the order of their times pictures may come out of the decoder. */
    private static final int DISORDER = 16;

    /** Key packets to go back where decoding from the nearest one does not give the frame. */
    private static final int[] BACK = {0, 1, 3};

    private final Path file;
    private final FrameIndex index;
    private final PacketDecoder decoder;
    private final PictureConverter converter;
    private final FrameCache cache = new FrameCache(CACHE_BYTES);
    /** Number of the frame that came out last, or -1 when the next one is not known to follow it. */
    private int position = -1;

    private SegmentDecoder(Path file, FrameIndex index, PacketDecoder decoder, PictureConverter converter) {
        this.file = file;
        this.index = index;
        this.decoder = decoder;
        this.converter = converter;
    }

    /**
     * @throws MediaException if the file cannot be opened or its codec is not known
     */
    static SegmentDecoder open(Path file, FrameIndex index) {
        MediaInput input = MediaInput.open(file);
        AVRational aspect = input.sampleAspect();
        PictureConverter converter = new PictureConverter(aspect.num() / (double) aspect.den(), input.rotation());
        return new SegmentDecoder(file, index, PacketDecoder.open(input, index), converter);
    }

    /**
     * The picture of a frame. Where damage has swallowed it, the last picture before it, as a screen would show.
     *
     * @param number 0 to the index's size, exclusive
     * @throws MediaException if nothing can be decoded there
     */
    FramePicture picture(int number) {
        AVFrame kept = cache.get(number);
        if (kept != null) {
            return converter.convert(kept);
        }
        if (position >= 0 && number > position && number - position <= DECODE_ON && decodeTo(number)) {
            return converter.convert(decoder.frame());
        }
        int key = index.keyFor(number);
        for (int back : BACK) {
            position = -1;
            if (decoder.start(Math.max(-1, key - back)) && decodeTo(number)) {
                return converter.convert(decoder.frame());
            }
            if (key - back < 0) {
                break;
            }
        }
        return nearest(number);
    }

    private FramePicture nearest(int number) {
        AVFrame kept = cache.nearest(number);
        if (kept != null) {
            return converter.convert(kept);
        }
        throw new MediaException(
                Reason.UNREADABLE,
                "no picture can be decoded at " + index.startUs(number) / 1e6 + " s",
                file.toString(),
                "copy the file again from the recorder");
    }

    /** Decodes on until the frame comes out; false if it does not. */
    private boolean decodeTo(int number) {
        while (decoder.next()) {
            int found = index.frameOf(decoder.ordinal());
            if (found >= 0) {
                position = found;
                cache.put(found, decoder.frame());
                if (found == number) {
                    return true;
                }
                if (found > number + DISORDER) {
                    return false;
                }
            }
        }
        position = -1;
        return false;
    }

    @Override
    public void close() {
        cache.close();
        converter.close();
        decoder.close();
    }
}
