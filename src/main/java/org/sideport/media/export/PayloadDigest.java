package org.sideport.media.export;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.javacpp.BytePointer;

/**
 * SHA-256 over the payload of a stream's packets in decoding order. For H.264 and HEVC it goes over the NAL units, so
 * that neither start codes nor access unit delimiters matter, which containers add and remove; SEI units can be left out.
 */
final class PayloadDigest {

    private static final int H264_SEI = 6;
    private static final int H264_DELIMITER = 9;
    private static final int HEVC_DELIMITER = 35;
    private static final int HEVC_SEI_PREFIX = 39;
    private static final int HEVC_SEI_SUFFIX = 40;

    private final MessageDigest digest;
    private final boolean units;
    private final boolean hevc;
    private final boolean withoutSei;
    /** Bytes of a unit's length, or 0 where start codes divide units. */
    private final int lengthBytes;

    private long packets;
    private long seiUnits;

    PayloadDigest(AVCodecParameters stream, boolean withoutSei) {
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
        this.units = Container.hasNalUnits(stream.codec_id());
        this.hevc = stream.codec_id() == org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_HEVC;
        this.withoutSei = withoutSei;
        this.lengthBytes = units ? lengthBytes(stream) : 0;
    }

    /** ISO/IEC 14496-15: avcC keeps the size of lengths in its fifth byte, hvcC in its 22nd; both start with 1. */
    private int lengthBytes(AVCodecParameters stream) {
        int at = hevc ? 21 : 4;
        BytePointer extra = stream.extradata();
        if (extra == null || extra.isNull() || stream.extradata_size() <= at || extra.get(0) != 1) {
            return 0;
        }
        return (extra.get(at) & 3) + 1;
    }

    void add(AVPacket packet) {
        byte[] bytes = new byte[packet.size()];
        if (bytes.length > 0) {
            packet.data().get(bytes);
        }
        packets++;
        if (!units) {
            update(bytes, 0, bytes.length);
        } else if (lengthBytes > 0) {
            byLength(bytes);
        } else {
            byStartCode(bytes);
        }
    }

    private void byLength(byte[] bytes) {
        int at = 0;
        while (at + lengthBytes <= bytes.length) {
            long size = 0;
            for (int i = 0; i < lengthBytes; i++) {
                size = size << 8 | bytes[at + i] & 0xFF;
            }
            at += lengthBytes;
            int end = (int) Math.min(bytes.length, at + size);
            unit(bytes, at, end);
            at = end;
        }
    }

    private void byStartCode(byte[] bytes) {
        int start = -1;
        for (int i = 0; i + 2 < bytes.length; i++) {
            if (bytes[i] == 0 && bytes[i + 1] == 0 && bytes[i + 2] == 1) {
                if (start >= 0) {
                    unit(bytes, start, withoutZeros(bytes, start, i));
                }
                start = i + 3;
                i += 2;
            }
        }
        if (start >= 0) {
            unit(bytes, start, withoutZeros(bytes, start, bytes.length));
        }
    }

    /** A unit ends with a one bit; zeros behind it belong to the next start code. */
    private static int withoutZeros(byte[] bytes, int start, int end) {
        int last = end;
        while (last > start && bytes[last - 1] == 0) {
            last--;
        }
        return last;
    }

    private void unit(byte[] bytes, int start, int end) {
        if (start >= end) {
            return;
        }
        int type = hevc ? bytes[start] >> 1 & 0x3F : bytes[start] & 0x1F;
        boolean sei = hevc ? type == HEVC_SEI_PREFIX || type == HEVC_SEI_SUFFIX : type == H264_SEI;
        if (sei) {
            seiUnits++;
        }
        boolean delimiter = type == (hevc ? HEVC_DELIMITER : H264_DELIMITER);
        if (!delimiter && !(sei && withoutSei)) {
            update(bytes, start, end);
        }
    }

    private void update(byte[] bytes, int start, int end) {
        digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(end - start).array());
        digest.update(bytes, start, end - start);
    }

    long packets() {
        return packets;
    }

    long seiUnits() {
        return seiUnits;
    }

    /** 64 lower-case hex digits; ends this digest. */
    String value() {
        return HexFormat.of().formatHex(digest.digest());
    }
}
