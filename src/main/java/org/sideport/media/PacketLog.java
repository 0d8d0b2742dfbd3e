package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What was read of each video packet, in file order. A packet's ordinal, its place in this order, is its identity: it
 * holds even where a container gives no times.
 */
final class PacketLog {

    /** Without a picture that is ever shown: flagged so by an edit list, or empty. */
    private static final byte HIDDEN = 1;

    private static final byte KEY = 2;
    private static final byte B_PICTURE = 4;

    private int size;
    private long[] pts = new long[4096];
    private long[] dts = new long[4096];
    private int[] duration = new int[4096];
    private int[] order = new int[4096];
    private byte[] flags = new byte[4096];
    private final List<KeyPacket> keys = new ArrayList<>();
    private final List<Integer> runs = new ArrayList<>();
    private final List<Integer> damagedPackets = new ArrayList<>();
    private boolean damaged;

    /**
     * @param order the picture's place in display order as its own header counts it (picture order count)
     */
    void add(long packetPts, long packetDts, long ticks, int picture, boolean shown, boolean key, boolean b) {
        if (size == pts.length) {
            int larger = size * 2;
            pts = Arrays.copyOf(pts, larger);
            dts = Arrays.copyOf(dts, larger);
            duration = Arrays.copyOf(duration, larger);
            order = Arrays.copyOf(order, larger);
            flags = Arrays.copyOf(flags, larger);
        }
        pts[size] = packetPts;
        dts[size] = packetDts;
        duration[size] = (int) Math.min(Integer.MAX_VALUE, Math.max(0, ticks));
        order[size] = picture;
        flags[size] = (byte) ((shown ? 0 : HIDDEN) | (key ? KEY : 0) | (b ? B_PICTURE : 0));
        size++;
    }

    void addKey(KeyPacket key) {
        keys.add(key);
    }

    /** The packet added last is on the screen so much longer: its second field comes in a packet of its own. */
    void extend(long ticks) {
        if (size > 0 && ticks > 0) {
            duration[size - 1] = (int) Math.min(Integer.MAX_VALUE, duration[size - 1] + ticks);
        }
    }

    /** The next packet starts a new run of the clock. */
    void startRun() {
        runs.add(size);
    }

    /** Takes the picture of a packet out of the show. */
    void hide(int ordinal) {
        flags[ordinal] |= HIDDEN;
    }

    void markDamaged() {
        damaged = true;
    }

    /** This packet is damaged. */
    void markDamaged(int ordinal) {
        damaged = true;
        damagedPackets.add(ordinal);
    }

    /** Ordinals, ascending. */
    List<Integer> damagedPackets() {
        return damagedPackets.stream().sorted().distinct().toList();
    }

    int size() {
        return size;
    }

    long pts(int ordinal) {
        return pts[ordinal];
    }

    boolean hasPts(int ordinal) {
        return pts[ordinal] != AV_NOPTS_VALUE;
    }

    long dts(int ordinal) {
        return dts[ordinal];
    }

    int duration(int ordinal) {
        return duration[ordinal];
    }

    int order(int ordinal) {
        return order[ordinal];
    }

    boolean isShown(int ordinal) {
        return (flags[ordinal] & HIDDEN) == 0;
    }

    boolean isKey(int ordinal) {
        return (flags[ordinal] & KEY) != 0;
    }

    boolean isB(int ordinal) {
        return (flags[ordinal] & B_PICTURE) != 0;
    }

    List<KeyPacket> keys() {
        return keys;
    }

    /** First ordinals of the runs after the first one. */
    List<Integer> runs() {
        return runs;
    }

    boolean isDamaged() {
        return damaged;
    }

    /** True if a picture that is shown has no time of its own. */
    boolean lacksTimes() {
        for (int i = 0; i < size; i++) {
            if (isShown(i) && !hasPts(i)) {
                return true;
            }
        }
        return false;
    }
}
