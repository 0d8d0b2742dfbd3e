package org.sideport.media.dicom;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.Set;

/** Reads the heads of data elements (PS3.5, 7.1), little endian, through a small window of the file. */
final class ElementReader {

    static final long UNDEFINED = 0xFFFFFFFFL;

    static final int ITEM = 0xFFFEE000;
    static final int ITEM_END = 0xFFFEE00D;
    static final int SEQUENCE_END = 0xFFFEE0DD;

    /** Value representations with a length of four bytes (PS3.5, table 7.1-1). */
    private static final Set<String> LONG =
            Set.of("OB", "OD", "OF", "OL", "OV", "OW", "SQ", "SV", "UC", "UN", "UR", "UT", "UV");

    private static final int WINDOW = 8192;

    private final SeekableByteChannel in;
    private final long size;
    private final byte[] window = new byte[WINDOW];
    private long windowAt;
    private int windowLength;
    private long position;

    /**
     * Head of one element.
     *
     * @param tag group and element number, 16 bits each
     * @param vr two letters; empty where the head has none
     * @param length bytes of the value, or {@link #UNDEFINED}
     */
    record Head(int tag, String vr, long length) {
        int group() {
            return tag >>> 16;
        }

        int element() {
            return tag & 0xFFFF;
        }

        boolean isUndefined() {
            return length == UNDEFINED;
        }
    }

    ElementReader(SeekableByteChannel in, long size) {
        this.in = in;
        this.size = size;
    }

    long position() {
        return position;
    }

    long size() {
        return size;
    }

    void seek(long to) {
        position = to;
    }

    /** @throws EOFException if the value would reach beyond the file */
    void skip(long bytes) throws IOException {
        if (bytes > size - position) {
            throw new EOFException();
        }
        position += bytes;
    }

    /** Head with a value representation, or of an item, which never has one. */
    Head explicit() throws IOException {
        int tag = tag();
        if (tag >>> 16 == 0xFFFE) {
            return new Head(tag, "", uint32());
        }
        String vr = text(2);
        if (!isVr(vr)) {
            throw new MalformedHeader("no value representation where one must be");
        }
        if (LONG.contains(vr)) {
            skip(2);
            return new Head(tag, vr, uint32());
        }
        return new Head(tag, vr, uint16());
    }

    /** Head without value representation, as inside sequences of unknown representation (PS3.5, 6.2.2). */
    Head implicit() throws IOException {
        return new Head(tag(), "", uint32());
    }

    private static boolean isVr(String vr) {
        return vr.charAt(0) >= 'A' && vr.charAt(0) <= 'Z' && vr.charAt(1) >= 'A' && vr.charAt(1) <= 'Z';
    }

    private int tag() throws IOException {
        int group = uint16();
        return group << 16 | uint16();
    }

    int uint16() throws IOException {
        int low = next();
        return low | next() << 8;
    }

    long uint32() throws IOException {
        long low = uint16();
        return low | (long) uint16() << 16;
    }

    String text(int length) throws IOException {
        byte[] bytes = new byte[length];
        for (int i = 0; i < length; i++) {
            bytes[i] = (byte) next();
        }
        return new String(bytes, StandardCharsets.ISO_8859_1);
    }

    private int next() throws IOException {
        if (position >= size) {
            throw new EOFException();
        }
        if (position < windowAt || position >= windowAt + windowLength) {
            in.position(position);
            windowAt = position;
            windowLength = in.read(ByteBuffer.wrap(window, 0, WINDOW));
            if (windowLength <= 0) {
                windowLength = 0;
                throw new EOFException();
            }
        }
        return window[(int) (position++ - windowAt)] & 0xFF;
    }

    /** The bytes are no data set of this encoding. */
    static final class MalformedHeader extends IOException {
        private static final long serialVersionUID = 1L;

        MalformedHeader(String message) {
            super(message);
        }
    }
}
