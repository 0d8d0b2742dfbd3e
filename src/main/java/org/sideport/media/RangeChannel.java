package org.sideport.media;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.NonWritableChannelException;
import java.nio.channels.SeekableByteChannel;
import org.sideport.model.FileRanges;

/** Parts of a file as one channel to read from. */
final class RangeChannel implements SeekableByteChannel {

    private final FileRanges.Reader reader;
    private byte[] bytes = new byte[0];
    private boolean open = true;

    /** @throws IOException if the file cannot be opened */
    RangeChannel(FileRanges ranges) throws IOException {
        reader = ranges.open();
    }

    @Override
    public int read(ByteBuffer into) throws IOException {
        int wanted = into.remaining();
        if (bytes.length < wanted) {
            bytes = new byte[wanted];
        }
        int count = reader.read(bytes, wanted);
        if (count > 0) {
            into.put(bytes, 0, count);
        }
        return count;
    }

    @Override
    public long position() {
        return reader.position();
    }

    @Override
    public SeekableByteChannel position(long to) {
        reader.seek(to);
        return this;
    }

    @Override
    public long size() {
        return reader.size();
    }

    @Override
    public int write(ByteBuffer from) {
        throw new NonWritableChannelException();
    }

    @Override
    public SeekableByteChannel truncate(long size) {
        throw new NonWritableChannelException();
    }

    @Override
    public boolean isOpen() {
        return open;
    }

    @Override
    public void close() throws IOException {
        open = false;
        reader.close();
    }
}
