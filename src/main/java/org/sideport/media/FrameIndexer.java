package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_CORRUPT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_DISCARD;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.Arrays;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.Progress;

/** Builds a {@link FrameIndex} by reading packets, without decoding. */
public final class FrameIndexer {

    private static final int CHECK_EVERY = 256;

    private FrameIndexer() {}

    /**
     * @throws MediaException if no frame has a time
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static FrameIndex index(MediaInput input, Progress progress) {
        long[] pts = new long[4096];
        int count = 0;
        long lastDuration = 0;
        long latest = Long.MIN_VALUE;
        boolean damaged = false;
        boolean guessed = false;
        long size = Math.max(1, sizeOf(input));
        AVPacket packet = av_packet_alloc();
        try {
            int read = 0;
            int code;
            while ((code = av_read_frame(input.context(), packet)) >= 0) {
                if (++read % CHECK_EVERY == 0) {
                    progress.check();
                    progress.report(
                            packet.pos() < 0 ? -1 : Math.min(1.0, packet.pos() / (double) size), "Reading frame times");
                }
                if (packet.stream_index() == input.video().index() && (packet.flags() & AV_PKT_FLAG_DISCARD) == 0) {
                    damaged |= (packet.flags() & AV_PKT_FLAG_CORRUPT) != 0;
                    long time = packet.pts();
                    if (time == AV_NOPTS_VALUE) {
                        guessed = true;
                        time = packet.dts();
                    }
                    if (time != AV_NOPTS_VALUE) {
                        if (count == pts.length) {
                            pts = Arrays.copyOf(pts, count * 2);
                        }
                        pts[count++] = time;
                        if (time > latest) {
                            latest = time;
                            lastDuration = packet.duration();
                        }
                    }
                }
                av_packet_unref(packet);
            }
            damaged |= code != AVERROR_EOF;
        } finally {
            av_packet_free(packet);
        }
        if (count == 0) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "not one frame can be read",
                    input.file().toString(),
                    "copy the file again from the recorder");
        }
        return build(input, Arrays.copyOf(pts, count), lastDuration, damaged, guessed);
    }

    private static FrameIndex build(
            MediaInput input, long[] times, long lastDuration, boolean damaged, boolean guessed) {
        Arrays.sort(times);
        int unique = 1;
        for (int i = 1; i < times.length; i++) {
            if (times[i] != times[unique - 1]) {
                times[unique++] = times[i];
            }
        }
        long[] pts = Arrays.copyOf(times, unique);
        long last = pts[unique - 1];
        long duration = lastDuration > 0 ? lastDuration : fallbackDuration(input, pts);
        return new FrameIndex(input.timeBase(), pts, last + duration, damaged, guessed, times.length - unique);
    }

    private static long fallbackDuration(MediaInput input, long[] pts) {
        if (pts.length > 1) {
            return pts[pts.length - 1] - pts[pts.length - 2];
        }
        AVRational rate = input.video().avg_frame_rate();
        TimeBase base = input.timeBase();
        return rate.num() > 0 ? Math.max(1, (long) rate.den() * base.den() / ((long) rate.num() * base.num())) : 1;
    }

    private static long sizeOf(MediaInput input) {
        try {
            return java.nio.file.Files.size(input.file());
        } catch (java.io.IOException e) {
            return 1;
        }
    }
}
