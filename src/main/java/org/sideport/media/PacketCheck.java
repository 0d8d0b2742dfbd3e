package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_HEVC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG1VIDEO;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG2VIDEO;

import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.javacpp.BytePointer;

/**
 * Sees damage of a coded picture without decoding it: a packet of nothing but zeros; units of H.264 and HEVC whose lengths
 * do not add up to the packet's (ISO/IEC 14496-15, 5.3.2 and 8.3.2), whose head no coder writes, or which hold three bytes
 * that cannot stand in one (ITU-T H.264, 7.4.1; H.265, 7.4.2: 00 00 00, 00 00 01, 00 00 02). Damage that leaves all that
 * as it was is not seen.
 */
final class PacketCheck {

    /** Zeros in a row inside a picture of other coders: entropy coding does not leave so many. */
    private static final int ZEROS = 2048;

    /** Zeros behind a unit, which careless writers leave. */
    private static final int TRAILING = 16;

    private final int lengthBytes;
    private final boolean hevc;
    private final boolean stuffed;
    private byte[] bytes = new byte[1 << 16];

    private PacketCheck(int lengthBytes, boolean hevc, boolean stuffed) {
        this.lengthBytes = lengthBytes;
        this.hevc = hevc;
        this.stuffed = stuffed;
    }

    static PacketCheck of(MediaInput input) {
        AVCodecParameters coded = input.video().codecpar();
        int codec = coded.codec_id();
        BytePointer extra = coded.extradata();
        int size = extra == null ? 0 : coded.extradata_size();
        // such a head, beginning with its version 1, stands where units have lengths instead of start codes
        boolean versionOne = extra != null && size > 6 && extra.get(0) == 1;
        int lengths = 0;
        if (extra != null && versionOne && codec == AV_CODEC_ID_H264) {
            lengths = (extra.get(4) & 3) + 1;
        } else if (extra != null && versionOne && codec == AV_CODEC_ID_HEVC && size > 22) {
            lengths = (extra.get(21) & 3) + 1;
        }
        // these coders may fill up with zeros (ISO/IEC 13818-2, 5.2.3); streams with start codes likewise
        boolean stuffed = codec == AV_CODEC_ID_MPEG1VIDEO
                || codec == AV_CODEC_ID_MPEG2VIDEO
                || lengths == 0 && (codec == AV_CODEC_ID_H264 || codec == AV_CODEC_ID_HEVC);
        return new PacketCheck(lengths, codec == AV_CODEC_ID_HEVC, stuffed);
    }

    boolean isDamaged(AVPacket packet) {
        int size = packet.size();
        if (size <= 0) {
            return false;
        }
        if (bytes.length < size) {
            bytes = new byte[Math.max(size, 2 * bytes.length)];
        }
        packet.data().position(0).get(bytes, 0, size);
        if (lengthBytes > 0) {
            return !unitsAreSound(size);
        }
        if (bytes[0] == 0 && bytes[size - 1] == 0 && zerosFrom(0, size) == size) {
            return true;
        }
        return !stuffed && hasLongZeros(size);
    }

    private boolean unitsAreSound(int size) {
        int at = 0;
        while (at < size) {
            if (size - at <= lengthBytes) {
                return false;
            }
            long length = 0;
            for (int i = 0; i < lengthBytes; i++) {
                length = length << 8 | bytes[at + i] & 0xFF;
            }
            at += lengthBytes;
            if (length <= 0 || length > size - at || !unitIsSound(at, at + (int) length)) {
                return false;
            }
            at += (int) length;
        }
        return true;
    }

    private boolean unitIsSound(int from, int to) {
        boolean forbidden = (bytes[from] & 0x80) != 0;
        int type = hevc ? bytes[from] >> 1 & 0x3F : bytes[from] & 0x1F;
        // HEVC heads have two bytes, of which the last three bits are never zero (ITU-T H.265, 7.4.2.2)
        if (forbidden || !hevc && type == 0 || hevc && (to - from < 2 || (bytes[from + 1] & 7) == 0)) {
            return false;
        }
        int end = to;
        while (end > from && bytes[end - 1] == 0) {
            end--;
        }
        if (to - end > TRAILING) {
            return false;
        }
        // the third byte of a forbidden three is 2 or less: only every third need be looked at until one is
        int i = from + 2;
        while (i < end) {
            int third = bytes[i] & 0xFF;
            if (third > 2) {
                i += 3;
            } else if (bytes[i - 1] == 0 && bytes[i - 2] == 0) {
                return false;
            } else {
                i++;
            }
        }
        return true;
    }

    private boolean hasLongZeros(int size) {
        for (int at = ZEROS; at < size; at += ZEROS) {
            if (bytes[at] == 0) {
                int from = at;
                while (from > 0 && bytes[from - 1] == 0) {
                    from--;
                }
                int run = at - from + zerosFrom(at, size);
                if (run >= ZEROS) {
                    return true;
                }
            }
        }
        return false;
    }

    private int zerosFrom(int from, int size) {
        int to = from;
        while (to < size && bytes[to] == 0) {
            to++;
        }
        return to - from;
    }
}
