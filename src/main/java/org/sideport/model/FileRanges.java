package org.sideport.model;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * Parts of a file that make one stream when put end to end: what a player reads of a file whose video lies inside
 * something else, without a copy.
 *
 * @param file that holds the parts
 * @param ranges in the order of the stream, at least one
 */
public record FileRanges(Path file, List<Range> ranges) {

    /**
     * @param start first byte in the file
     * @param length bytes, positive
     */
    public record Range(long start, long length) {
        public Range {
            if (start < 0 || length < 1 || start > Long.MAX_VALUE - length) {
                throw new IllegalArgumentException("a range lies in the file and is not empty: " + start);
            }
        }

        public long end() {
            return start + length;
        }
    }

    public FileRanges {
        ranges = List.copyOf(ranges);
        if (ranges.isEmpty()) {
            throw new IllegalArgumentException("a stream needs at least one range");
        }
    }

    /** Bytes of the whole stream. */
    public long size() {
        return ranges.stream().mapToLong(Range::length).sum();
    }

    /** @throws IOException if the file cannot be opened */
    public Reader open() throws IOException {
        return new Reader(this);
    }

    /** Reads the stream from any place. Thread-confined; must be closed. */
    public static final class Reader implements AutoCloseable {

        private final List<Range> ranges;
        /** Where each range starts in the stream, and last the stream's size. */
        private final long[] starts;

        private final SeekableByteChannel in;
        private long position;

        private Reader(FileRanges parts) throws IOException {
            ranges = parts.ranges();
            starts = new long[ranges.size() + 1];
            for (int i = 0; i < ranges.size(); i++) {
                starts[i + 1] = starts[i] + ranges.get(i).length();
            }
            in = Files.newByteChannel(parts.file());
        }

        public long size() {
            return starts[ranges.size()];
        }

        public long position() {
            return position;
        }

        /** @param to from the start of the stream; beyond its end there is nothing to read */
        public void seek(long to) {
            position = Math.max(0, to);
        }

        /**
         * @return bytes read, at least one; -1 at the end
         * @throws IOException if the file cannot be read, or has become shorter
         */
        public int read(byte[] into, int length) throws IOException {
            if (position >= size() || length <= 0) {
                return -1;
            }
            int range = rangeAt(position);
            long inside = position - starts[range];
            in.position(ranges.get(range).start() + inside);
            int wanted = (int) Math.min(length, ranges.get(range).length() - inside);
            int read = in.read(ByteBuffer.wrap(into, 0, wanted));
            if (read <= 0) {
                throw new IOException("the file has become shorter");
            }
            position += read;
            return read;
        }

        private int rangeAt(long at) {
            int found = java.util.Arrays.binarySearch(starts, at);
            return found >= 0 ? found : -found - 2;
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
