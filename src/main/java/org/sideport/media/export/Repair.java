package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_CORRUPT;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.av_rescale_q;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaInput;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * Saves what can be read of a file that was cut short or lost its index: packets are copied, without loss, into a new
 * file with an index of its own. The original is only read. Tags are not carried over.
 *
 * <p>An MP4 whose table of contents was never written cannot be read at all: where its frames begin is written nowhere
 * else.
 */
public final class Repair {

    /** Errors in a row after which a file counts as ended. */
    private static final int GIVE_UP = 1000;

    /** A step back in time of more than this begins a new run of the recorder's clock. */
    private static final long NEW_RUN_US = 500_000;

    private static final AVRational MICROS = new AVRational().num(1).den(1_000_000);

    private final MediaInput input;
    private final OutputFile file;
    private final Map<Integer, Long> lastDts = new HashMap<>();
    private long dropped;
    private long errors;

    /** What to add to the times of each run of the recorder's clock, microseconds; the first run is left as it is. */
    private final List<Long> shifts = new ArrayList<>(List.of(0L));

    /** The run that a stream is in: streams pass a join one after the other. */
    private final Map<Integer, Integer> runOf = new HashMap<>();

    /** The last distance between two packets of a stream. */
    private final Map<Integer, Long> steps = new HashMap<>();

    private long latestUs = Long.MIN_VALUE;

    private Repair(MediaInput input, OutputFile file) {
        this.input = input;
        this.file = file;
    }

    /**
     * @param frames in the copy
     * @param promisedUs length that the original's header promises; {@code null} if it promises none
     * @param dropped damaged packets that were left out
     * @param errors places where reading failed and went on behind
     * @param runs stretches whose clock began anew, joined without gap; 1 if there was one clock
     */
    public record Result(
            Path file,
            long frames,
            long durationUs,
            @Nullable Long promisedUs,
            long dropped,
            long errors,
            long runs,
            boolean sound) {}

    /** The file name ending of what {@link #write} makes of this file. */
    public static String extension(Path source) {
        return readable(source).extension();
    }

    /**
     * @param out its ending should be {@link #extension}
     * @throws MediaException if nothing of the file can be read, which it says plainly for an MP4 without table of
     *     contents
     * @throws InputException if the target exists or cannot be written
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(Path source, Path out, boolean replace, Progress progress) {
        OutputFile.guard(out, replace, List.of(source));
        Container container = readable(source);
        long firstPts;
        try (MediaInput input = Inputs.open(source)) {
            firstPts = FrameIndexer.index(input, progress.part(0, 0.3)).pts(0);
        }
        try (MediaInput input = Inputs.open(source);
                OutputFile file = OutputFile.create(out, container.muxer(), replace, List.of(source))) {
            PacketTracks tracks = new PacketTracks(file, container, input, true, null);
            tracks.header();
            Repair repair = new Repair(input, file);
            DecodingTimes times = new DecodingTimes(
                    input.video().index(), firstPts, input.video().codecpar().video_delay());
            repair.copy(tracks, times, progress.part(0.3, 0.9));
            file.end();
            Result result = repair.verify(tracks.inputs().size() > 1, progress.part(0.9, 1));
            file.commit();
            progress.report(1, "Repaired");
            return result;
        }
    }

    private static Container readable(Path source) {
        try {
            return Container.of(source);
        } catch (MediaException e) {
            if (e.reason() == Reason.UNFINISHED) {
                throw new MediaException(
                        Reason.UNFINISHED,
                        "nothing can be saved: the recorder never wrote this file's table of contents (moov), and without"
                                + " it no program of this kind can tell where a frame begins",
                        source.toString(),
                        "look for the original on the recorder or its card, and do not write to that card;"
                                + " the maker's service may restore it from there");
            }
            throw e;
        }
    }

    private void copy(PacketTracks tracks, DecodingTimes times, Progress progress) {
        long size = Math.max(1, size(input.file()));
        boolean transport = input.formatName().equals("mpegts");
        int inARow = 0;
        AVPacket packet = av_packet_alloc();
        try {
            while (inARow < GIVE_UP) {
                progress.check();
                int code = av_read_frame(input.context(), packet);
                if (code == AVERROR_EOF) {
                    break;
                }
                if (code < 0) {
                    inARow++;
                    errors++;
                    continue;
                }
                inARow = 0;
                progress.report(Math.max(0, Math.min(0.999, packet.pos() / (double) size)), "Saving what can be read");
                // a transport stream marks packets after any lost piece, and decoders cope with those
                boolean corrupt = (packet.flags() & AV_PKT_FLAG_CORRUPT) != 0 && !transport;
                if (tracks.takes(packet.stream_index())) {
                    times.fill(packet);
                    if (corrupt || packet.size() == 0 || !write(tracks, packet)) {
                        dropped++;
                    }
                }
                av_packet_unref(packet);
            }
        } finally {
            av_packet_free(packet);
        }
        if (lastDts.isEmpty()) {
            throw Faults.unreadable(input.file(), "not one packet can be read");
        }
    }

    /** False if a packet's time does not fit and it had to be left out. */
    private boolean write(PacketTracks tracks, AVPacket packet) {
        int stream = packet.stream_index();
        AVRational base = input.context().streams(stream).time_base();
        long dts = packet.dts() == AV_NOPTS_VALUE ? packet.pts() : packet.dts();
        if (dts == AV_NOPTS_VALUE) {
            return false;
        }
        Long last = lastDts.get(stream);
        long raw = av_rescale_q(dts, base, MICROS);
        int run = runOf.getOrDefault(stream, 0);
        if (last != null && raw + shifts.get(run) < last - NEW_RUN_US) {
            run++;
            if (run == shifts.size()) {
                shifts.add(Math.max(latestUs, last + steps.getOrDefault(stream, 1L)) - raw);
            }
            runOf.put(stream, run);
        }
        long us = raw + shifts.get(run);
        if (last != null && us <= last) {
            return false;
        }
        if (last != null) {
            steps.put(stream, us - last);
        }
        lastDts.put(stream, us);
        latestUs = Math.max(latestUs, us + av_rescale_q(Math.max(0, packet.duration()), base, MICROS));
        long shift = av_rescale_q(shifts.get(run), MICROS, base);
        packet.flags(packet.flags() & ~AV_PKT_FLAG_CORRUPT);
        tracks.write(packet, stream, base, shift);
        return true;
    }

    private Result verify(boolean sound, Progress progress) {
        Long promised = promisedUs();
        try (MediaInput copy = Inputs.open(file.partial())) {
            FrameIndex index = FrameIndexer.index(copy, progress);
            if (index.isDamaged()) {
                throw Faults.notFaithful(file.target(), "it is damaged itself");
            }
            return new Result(
                    file.target(), index.size(), index.durationUs(), promised, dropped, errors, shifts.size(), sound);
        }
    }

    private @Nullable Long promisedUs() {
        long ticks = input.video().duration();
        boolean table = input.formatName().contains("mp4") || input.formatName().contains("matroska");
        return table && ticks != AV_NOPTS_VALUE && ticks > 0 ? input.timeBase().toMicros(ticks) : null;
    }

    private static long size(Path path) {
        try {
            return Files.size(path);
        } catch (IOException e) {
            return 1;
        }
    }
}
