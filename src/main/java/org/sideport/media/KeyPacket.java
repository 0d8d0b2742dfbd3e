package org.sideport.media;

/**
 * A packet at which decoding can start, and what it takes to find it again.
 *
 * @param ordinal its place among the video packets of the file
 * @param frame first frame, by number, that is not shown before it
 * @param pts as read, or {@code AV_NOPTS_VALUE}
 * @param dts as read, or {@code AV_NOPTS_VALUE}
 * @param pos bytes from the start of the file, or -1 where the container does not tell
 * @param seekPos bytes from the start of the file from which reading comes upon it, or -1
 * @param signature of its size and first bytes
 */
record KeyPacket(int ordinal, int frame, long pts, long dts, long pos, long seekPos, int signature) {

    KeyPacket withFrame(int number) {
        return new KeyPacket(ordinal, number, pts, dts, pos, seekPos, signature);
    }
}
