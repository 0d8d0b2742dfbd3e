package org.sideport.player;

import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.FileRanges;
import uk.co.caprica.vlcj.media.callback.seekable.SeekableCallbackMedia;

/**
 * Feeds LibVLC with parts of a file as one stream, without a copy. LibVLC calls from its own threads, one call at a time
 * and maybe open once more before it closes; nothing may be thrown at it.
 */
final class RangesMedia extends SeekableCallbackMedia {

    private static final int BUFFER = 1 << 18;

    private final FileRanges stream;
    private FileRanges.@Nullable Reader reader;

    RangesMedia(FileRanges stream) {
        super(BUFFER);
        this.stream = stream;
    }

    @Override
    protected long onGetSize() {
        return stream.size();
    }

    @Override
    protected synchronized boolean onOpen() {
        onClose();
        try {
            reader = stream.open();
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    @Override
    protected synchronized int onRead(byte[] buffer, int size) throws IOException {
        FileRanges.Reader open = reader;
        return open == null ? -1 : Math.max(0, open.read(buffer, Math.min(size, buffer.length)));
    }

    @Override
    protected synchronized boolean onSeek(long offset) {
        FileRanges.Reader open = reader;
        if (open == null || offset < 0) {
            return false;
        }
        open.seek(offset);
        return true;
    }

    @Override
    protected synchronized void onClose() {
        FileRanges.Reader open = reader;
        reader = null;
        if (open != null) {
            try {
                open.close();
            } catch (IOException e) {
                // it was only read from
            }
        }
    }
}
