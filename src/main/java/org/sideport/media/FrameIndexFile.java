package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avformat.avformat_version;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A {@link FrameIndex} as bytes: a head that names the format, its version and that of the library which read the packets;
 * times and frame numbers as differences, seven bits a byte; last, SHA-256 of all before it.
 */
final class FrameIndexFile {

    private static final int MAGIC = 0x53_50_46_49;

    /** Raised whenever what is read from files, or how it is kept, changes. */
    private static final int VERSION = 2;

    private static final int DIGEST = 32;

    private FrameIndexFile() {}

    static byte[] toBytes(FrameIndex index) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream(index.size() * 3 + 1024);
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            out.writeInt(MAGIC);
            out.writeInt(VERSION);
            out.writeInt(avformat_version());
            out.writeInt(index.base().num());
            out.writeInt(index.base().den());
            FrameIndex.Doubts doubts = index.doubts();
            out.writeBoolean(doubts.damaged());
            out.writeBoolean(doubts.guessed());
            out.writeInt(doubts.duplicates());
            out.writeInt(doubts.jumps());
            out.writeInt(doubts.undecodable());
            out.writeInt(doubts.damagedPackets().size());
            int packet = 0;
            for (int damaged : doubts.damagedPackets()) {
                writeNumber(out, (long) damaged - packet);
                packet = damaged;
            }
            out.writeInt(index.size());
            long last = 0;
            for (int i = 0; i < index.size(); i++) {
                writeNumber(out, index.pts(i) - last);
                last = index.pts(i);
            }
            writeNumber(out, index.endPts() - last);
            out.writeInt(index.packets());
            int frame = 0;
            for (int i = 0; i < index.packets(); i++) {
                writeNumber(out, (long) index.frameOf(i) - frame);
                frame = index.frameOf(i);
            }
            out.writeInt(index.keys().size());
            for (KeyPacket key : index.keys()) {
                out.writeInt(key.ordinal());
                out.writeInt(key.frame());
                out.writeLong(key.pts());
                out.writeLong(key.dts());
                out.writeLong(key.pos());
                out.writeLong(key.seekPos());
                out.writeInt(key.signature());
            }
            out.flush();
            out.write(sha256(bytes.toByteArray()));
        } catch (IOException e) {
            throw new IllegalStateException("writing to memory cannot fail", e);
        }
        return bytes.toByteArray();
    }

    /**
     * @throws IOException if these are not the bytes of an index of this version
     */
    static FrameIndex fromBytes(byte[] bytes) throws IOException {
        int end = bytes.length - DIGEST;
        if (end < 0
                || !Arrays.equals(sha256(Arrays.copyOf(bytes, end)), Arrays.copyOfRange(bytes, end, bytes.length))) {
            throw new IOException("damaged");
        }
        DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes, 0, end));
        if (in.readInt() != MAGIC || in.readInt() != VERSION || in.readInt() != avformat_version()) {
            throw new IOException("of another version");
        }
        TimeBase base = new TimeBase(in.readInt(), in.readInt());
        FrameIndex.Doubts doubts = new FrameIndex.Doubts(
                in.readBoolean(), in.readBoolean(), in.readInt(), in.readInt(), in.readInt(), readPackets(in));
        long[] pts = new long[in.readInt()];
        long last = 0;
        for (int i = 0; i < pts.length; i++) {
            last += readNumber(in);
            pts[i] = last;
        }
        long endPts = last + readNumber(in);
        int[] frameOf = new int[in.readInt()];
        int frame = 0;
        for (int i = 0; i < frameOf.length; i++) {
            frame += (int) readNumber(in);
            frameOf[i] = frame;
        }
        int count = in.readInt();
        List<KeyPacket> keys = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            keys.add(new KeyPacket(
                    in.readInt(),
                    in.readInt(),
                    in.readLong(),
                    in.readLong(),
                    in.readLong(),
                    in.readLong(),
                    in.readInt()));
        }
        return new FrameIndex(base, pts, endPts, frameOf, keys, doubts);
    }

    private static List<Integer> readPackets(DataInputStream in) throws IOException {
        int count = in.readInt();
        List<Integer> packets = new ArrayList<>();
        int packet = 0;
        for (int i = 0; i < count; i++) {
            packet += (int) readNumber(in);
            packets.add(packet);
        }
        return packets;
    }

    private static void writeNumber(DataOutputStream out, long value) throws IOException {
        long rest = value << 1 ^ value >> 63;
        while ((rest & ~0x7FL) != 0) {
            out.writeByte((int) (rest & 0x7F | 0x80));
            rest >>>= 7;
        }
        out.writeByte((int) rest);
    }

    private static long readNumber(DataInputStream in) throws IOException {
        long value = 0;
        for (int shift = 0; shift < 64; shift += 7) {
            int next = in.readUnsignedByte();
            value |= (long) (next & 0x7F) << shift;
            if (next < 0x80) {
                return value >>> 1 ^ -(value & 1);
            }
        }
        throw new IOException("number too long");
    }

    private static byte[] sha256(byte[] bytes) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(bytes);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
