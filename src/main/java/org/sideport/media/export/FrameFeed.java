package org.sideport.media.export;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.MediaInput;
import org.sideport.media.PacketDecoder;
import org.sideport.media.export.SourceFiles.Span;

/** The decoded frames of a span, one after the other, each with its number. Thread-confined; must be closed. */
final class FrameFeed implements AutoCloseable {

    private final FrameIndex index;
    private final PacketDecoder decoder;
    private final int first;
    private final int end;

    private int number = -1;
    private boolean held;

    private FrameFeed(PacketDecoder decoder, Span span) {
        this.decoder = decoder;
        this.index = span.part().index();
        this.first = span.first();
        this.end = span.end();
    }

    /** @throws org.sideport.media.MediaException if the file cannot be opened or its codec is not known */
    static FrameFeed open(Span span) {
        MediaInput input = MediaInput.open(span.part().file());
        FrameFeed feed = new FrameFeed(PacketDecoder.open(input, span.part().index()), span);
        feed.findStart();
        return feed;
    }

    /** Number within its file of the frame that {@link #next()} gave. */
    int number() {
        return number;
    }

    /** The next frame of the span, which stays valid until the next call; {@code null} after the last. */
    @Nullable
    AVFrame next() {
        if (held) {
            held = false;
        } else if (!decodeNumbered()) {
            return null;
        }
        return number < end ? decoder.frame() : null;
    }

    /** Starts at the key frame before the span; where that does not bring its first frame, at an earlier one. */
    private void findStart() {
        int key = index.keyFor(first);
        for (int back = 0; ; back = back == 0 ? 1 : back * 2) {
            number = -1;
            int from = Math.max(-1, key - back);
            if (decoder.start(from) && skipToFirst() == first || from < 0) {
                return;
            }
        }
    }

    /** Decodes up to the first frame of the span, or the next after it where damage has swallowed it. */
    private int skipToFirst() {
        while (decodeNumbered()) {
            if (number >= first) {
                held = true;
                return number;
            }
        }
        return end;
    }

    private boolean decodeNumbered() {
        while (decoder.next()) {
            int found = index.frameOf(decoder.ordinal());
            if (found > number) {
                number = found;
                return true;
            }
        }
        number = end;
        return false;
    }

    @Override
    public void close() {
        decoder.close();
    }
}
