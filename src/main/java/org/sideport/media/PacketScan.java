package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_CORRUPT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_DISCARD;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_KEY;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.io.IOException;
import java.nio.file.Files;
import java.util.zip.CRC32;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;

/** Reads every video packet of a file once, without decoding. */
final class PacketScan {

    private static final int CHECK_EVERY = 256;

    /** Key packets closer together than this are not all kept: decoding so few pictures on costs less than memory. */
    private static final int KEY_DISTANCE = 8;

    private static final int NEAR_A_JOINT = 3;

    private static final int SIGNED_BYTES = 4096;

    private final MediaInput input;
    private final PacketLog log = new PacketLog();
    private final AviClock clock;
    private final PacketCheck check;
    private final boolean clockMayJump;
    private final long second;
    private long lastDts = AV_NOPTS_VALUE;
    private long lastDuration;
    private long lastPos = -1;
    private int corruptAt = -1;
    private int lastKey = -KEY_DISTANCE;

    private PacketScan(MediaInput input) {
        this.input = input;
        this.clock = new AviClock(input);
        this.check = PacketCheck.of(input);
        this.clockMayJump = input.clockMayJump();
        this.second = input.timeBase().ofSeconds(1);
    }

    /**
     * @param headers reads the display order out of the pictures' headers; {@code null} not to
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    static PacketLog read(MediaInput input, @Nullable PictureHeaders headers, Progress progress) {
        return new PacketScan(input).readAll(headers, progress);
    }

    private PacketLog readAll(@Nullable PictureHeaders headers, Progress progress) {
        long size = Math.max(1, sizeOf(input));
        AVPacket packet = av_packet_alloc();
        try {
            int read = 0;
            int code;
            while ((code = input.read(packet)) >= 0) {
                if (++read % CHECK_EVERY == 0) {
                    progress.check();
                    progress.report(
                            packet.pos() < 0 ? -1 : Math.min(1.0, packet.pos() / (double) size), "Reading frame times");
                }
                if (packet.stream_index() == input.video().index()) {
                    take(packet, headers);
                }
                av_packet_unref(packet);
            }
            if (code != AVERROR_EOF) {
                log.markDamaged();
            }
            if (corruptAt >= 0) {
                log.markDamaged(corruptAt);
            }
            if (corruptAt == log.size() - 1 && !clockMayJump && log.size() > 1) {
                // the file ends within this picture
                log.hide(log.size() - 1);
            }
        } finally {
            av_packet_free(packet);
        }
        return log;
    }

    private void take(AVPacket packet, @Nullable PictureHeaders headers) {
        boolean newRun = startsRun(packet);
        if (newRun) {
            log.startRun();
        }
        noteDamage((packet.flags() & AV_PKT_FLAG_CORRUPT) != 0, newRun);
        if (check.isDamaged(packet)) {
            log.markDamaged(log.size());
        }
        if (headers != null && packet.size() > 0) {
            headers.read(packet);
        }
        boolean key = (packet.flags() & AV_PKT_FLAG_KEY) != 0 && packet.size() > 0;
        key &= headers == null || !headers.isSecondField();
        if (key && (newRun || log.size() - lastKey >= KEY_DISTANCE)) {
            long pos = packet.pos();
            log.addKey(new KeyPacket(
                    log.size(), 0, packet.pts(), packet.dts(), pos, pos < 0 ? lastPos : pos, signature(packet)));
            lastKey = log.size();
        }
        if (headers != null && headers.isSecondField()) {
            log.extend(packet.duration());
        }
        long correction = clock.correction(packet);
        log.add(
                packet.pts() == AV_NOPTS_VALUE ? AV_NOPTS_VALUE : packet.pts() + correction,
                packet.dts() == AV_NOPTS_VALUE ? AV_NOPTS_VALUE : packet.dts() + correction,
                packet.duration(),
                headers == null ? 0 : headers.order(),
                isShown(packet, headers),
                key,
                headers != null && headers.isB());
        if (packet.pos() >= 0) {
            lastPos = packet.pos();
        }
    }

    private static boolean isShown(AVPacket packet, @Nullable PictureHeaders headers) {
        return (packet.flags() & AV_PKT_FLAG_DISCARD) == 0
                && packet.size() > 0
                && (headers == null || !headers.isSecondField());
    }

    /** Where streams were joined, a packet near the joint looks corrupt, and is not. */
    private void noteDamage(boolean isCorrupt, boolean newRun) {
        if (corruptAt >= 0 && newRun) {
            corruptAt = -1;
        }
        if (corruptAt >= 0 && (isCorrupt || log.size() - corruptAt > NEAR_A_JOINT)) {
            log.markDamaged(corruptAt);
            corruptAt = -1;
        }
        if (isCorrupt && !newRun) {
            corruptAt = log.size();
        }
    }

    /**
     * In program and transport streams the clock starts anew where files were joined or the recorder restarted: decoding
     * times, which never fall within a stream (ISO/IEC 13818-1, 2.7.4), fall, or leap by more than a second
     * beyond the frame before.
     */
    private boolean startsRun(AVPacket packet) {
        long dts = packet.dts();
        if (!clockMayJump || dts == AV_NOPTS_VALUE) {
            return false;
        }
        long before = lastDts;
        long length = Math.max(0, lastDuration);
        lastDts = dts;
        lastDuration = packet.duration();
        // libraries interpolate times that the stream leaves out: a frame's length of slack is theirs
        return before != AV_NOPTS_VALUE
                && (dts < before - Math.max(1, packet.duration()) || dts > before + length + second);
    }

    /** Of the packet's size and first bytes. */
    static int signature(AVPacket packet) {
        byte[] head = new byte[Math.min(packet.size(), SIGNED_BYTES)];
        packet.data().position(0).get(head);
        CRC32 crc = new CRC32();
        crc.update(head);
        return (int) crc.getValue() * 31 + packet.size();
    }

    private static long sizeOf(MediaInput input) {
        try {
            return Files.size(input.file());
        } catch (IOException e) {
            return 1;
        }
    }
}
