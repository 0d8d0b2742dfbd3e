package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_HEVC;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.Progress;

/** Builds a {@link FrameIndex} by reading packets, without decoding. */
public final class FrameIndexer {

    private static final int SECONDS_OF_DAY = 86_400;

    /** Longer than any operation, so that whole files of damaged times are told from long ones. */
    private static final int MOST_DAYS = 7;

    /** Clocks may count from 1601 or 1970; beyond some thousand years lies damage. */
    private static final double FARTHEST_SECONDS = 1e11;

    private FrameIndexer() {}

    /** As {@link #index(MediaInput, Progress)}, opening the file. */
    public static FrameIndex index(Path file, Progress progress) {
        try (MediaInput input = MediaInput.open(file)) {
            FrameIndex index = index(input, progress);
            progress.report(1, "Reading frame times");
            return index;
        }
    }

    /**
     * @param input just opened, nothing read from it yet
     * @throws MediaException if no frame has a time
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static FrameIndex index(MediaInput input, Progress progress) {
        boolean headersAtOnce = input.needsHeaders();
        PacketLog log = headersAtOnce ? withHeaders(input, progress) : PacketScan.read(input, null, progress);
        if (!headersAtOnce && log.lacksTimes()) {
            try (MediaInput again = MediaInput.open(input.file())) {
                log = withHeaders(again, progress);
            }
        }
        FrameIndex index = build(input, log, 0);
        List<Integer> undecodable = LeadingPictures.undecodable(input, index, progress);
        if (undecodable.isEmpty() || undecodable.size() == index.size()) {
            return index;
        }
        undecodable.forEach(log::hide);
        return build(input, log, undecodable.size());
    }

    private static PacketLog withHeaders(MediaInput input, Progress progress) {
        try (PictureHeaders headers = PictureHeaders.of(input)) {
            return PacketScan.read(input, headers, progress);
        }
    }

    private static FrameIndex build(MediaInput input, PacketLog log, int undecodable) {
        TimeBase base = input.timeBase();
        long usual = usualTicks(input, base);
        boolean timeless = isTimeless(log);
        if (timeless) {
            base = rateOfTheStream(input);
            usual = 1;
        }
        int codec = input.video().codecpar().codec_id();
        FrameTimes times = new FrameTimes(log, codec == AV_CODEC_ID_H264 || codec == AV_CODEC_ID_HEVC, usual);
        long[] all = times.all();
        int[] shown = times.shownByTime();
        if (shown.length == 0) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "not one frame can be read",
                    input.file().toString(),
                    "copy the file again from the recorder");
        }
        int[] frameOf = new int[log.size()];
        Arrays.fill(frameOf, -1);
        long[] pts = new long[shown.length];
        int unique = 0;
        int before = -1;
        for (int ordinal : shown) {
            if (before >= 0 && all[before] == all[ordinal]) {
                // the later of two takes the screen from the earlier at once
                frameOf[before] = -1;
                unique--;
            }
            pts[unique] = all[ordinal];
            frameOf[ordinal] = unique++;
            before = ordinal;
        }
        int last = shown[shown.length - 1];
        requireSaneTimes(input, base, pts[0], pts[unique - 1]);
        long lastTicks = timeless ? 1 : lastTicks(log, times, pts, unique, last);
        pts = Arrays.copyOf(pts, unique);
        long[] sorted = pts;
        List<KeyPacket> keys = log.keys().stream()
                .map(key -> key.withFrame(frameFrom(sorted, frameOf[key.ordinal()], all[key.ordinal()])))
                .toList();
        return new FrameIndex(
                base,
                pts,
                pts[unique - 1] + lastTicks,
                frameOf,
                keys,
                new FrameIndex.Doubts(
                        log.isDamaged(),
                        log.lacksTimes(),
                        shown.length - unique,
                        log.runs().size(),
                        undecodable));
    }

    /** Damage can put any number where a time stands, and whoever counts moments up to it would fill the memory. */
    private static void requireSaneTimes(MediaInput input, TimeBase base, long first, long last) {
        double seconds = (double) base.num() / base.den();
        double days = ((double) last - first) * seconds / SECONDS_OF_DAY;
        if (days > MOST_DAYS || Math.abs(first * seconds) > FARTHEST_SECONDS) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    days > MOST_DAYS
                            ? "by its frame times it lasts " + String.format(Locale.ROOT, "%.0f", days)
                                    + " days: its clock is damaged"
                            : "its frame times are of no known era: its clock is damaged",
                    input.file().toString(),
                    "copy the file again from the recorder");
        }
    }

    private static int frameFrom(long[] pts, int frame, long time) {
        if (frame >= 0) {
            return frame;
        }
        int found = Arrays.binarySearch(pts, time);
        return found >= 0 ? found : -found - 1;
    }

    private static long lastTicks(PacketLog log, FrameTimes times, long[] pts, int count, int last) {
        if (log.duration(last) == 0 && count > 1) {
            return pts[count - 1] - pts[count - 2];
        }
        return times.ticks(last);
    }

    private static boolean isTimeless(PacketLog log) {
        for (int i = 0; i < log.size(); i++) {
            if (log.hasPts(i) || log.dts(i) != AV_NOPTS_VALUE) {
                return false;
            }
        }
        return true;
    }

    private static long usualTicks(MediaInput input, TimeBase base) {
        AVRational rate = input.video().avg_frame_rate();
        return rate.num() > 0 ? Math.max(1, (long) rate.den() * base.den() / ((long) rate.num() * base.num())) : 1;
    }

    /** A bare stream has no clock at all: only its own header can say how many frames it shows in a second. */
    private static TimeBase rateOfTheStream(MediaInput input) {
        AVRational rate = input.video().codecpar().framerate();
        if (rate.num() <= 0 || rate.den() <= 0) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "the file holds pictures without any times, and does not say how many there are in a second",
                    input.file().toString(),
                    "put it into an MP4 or Matroska file with the recorder's frame rate first");
        }
        return new TimeBase(rate.den(), rate.num());
    }
}
