package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_KEY;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_FLAG_BACKWARD;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_seek_frame;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.av_compare_ts;
import static org.bytedeco.ffmpeg.global.avutil.av_rescale_q;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.media.export.SourceFiles.Span;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** A cut by copying packets, out of one file: from a key frame to a frame after which nothing wanted follows. */
final class PacketClip {

    private final Span span;
    private final MediaInput input;
    private final AVRational base;
    private final List<Long> copied = new ArrayList<>();

    private PacketClip(Span span, MediaInput input) {
        this.span = span;
        this.input = input;
        this.base = input.video().time_base();
    }

    static Clip.Result cut(
            List<Span> spans, List<Path> sources, boolean withSound, Path out, boolean replace, Progress progress) {
        if (spans.size() > 1) {
            throw new InputException(
                    "the stretch reaches over " + spans.size() + " files, whose packets cannot be joined without loss",
                    null,
                    "leave out --fast, or cut each file by itself");
        }
        Span span = withPacketTimes(spans.get(0));
        FrameIndex index = span.part().index();
        if (!index.hasOwnTimes()) {
            throw new InputException(
                    "the file gives no display times for some frames, so a cut of packets would not be known",
                    span.part().file().toString(),
                    "leave out --fast");
        }
        try (MediaInput input = Inputs.open(span.part().file())) {
            PacketClip clip = new PacketClip(span, input);
            Container container = Container.of(input);
            String name = out.getFileName().toString().toLowerCase(java.util.Locale.ROOT);
            if (!name.endsWith(container.extension())) {
                throw new InputException(
                        "copied packets of this recording need a " + container.extension() + " file",
                        out.toString(),
                        "name it so, or leave out --fast");
            }
            try (OutputFile file = OutputFile.create(out, container.muxer(), replace, sources)) {
                PacketTracks tracks = new PacketTracks(file, container, input, withSound, null);
                tracks.header();
                clip.copy(tracks, progress);
                file.end();
                Clip.Result result = clip.verify(file, tracks.inputs().size() > 1);
                file.commit();
                progress.report(1, "Cut");
                return result;
            }
        }
    }

    /** Where the library fills in the very times that frames go by, packets can be told by them. */
    private static Span withPacketTimes(Span span) {
        FrameIndex index = span.part().index();
        if (index.hasOwnTimes() || index.clockJumps() > 0) {
            return span;
        }
        FrameIndex filled;
        try (MediaInput input = Inputs.open(span.part().file())) {
            filled = FrameIndexer.index(input, Progress.NONE);
        }
        if (!filled.hasOwnTimes() || filled.size() != index.size()) {
            return span;
        }
        for (int i = 0; i < index.size(); i++) {
            if (index.pts(i) != filled.pts(i)) {
                return span;
            }
        }
        return new Span(SourceFiles.with(span.part(), filled), span.first(), span.end());
    }

    private void copy(PacketTracks tracks, Progress progress) {
        FrameIndex index = span.part().index();
        long wanted = index.pts(span.first());
        long start = keyAtOrBefore(wanted);
        long lastWanted = index.pts(span.end() - 1);
        long soundEnd = span.end() == index.size() ? Long.MAX_VALUE : index.pts(span.end());
        DecodingTimes decoding = new DecodingTimes(
                input.video().index(), start, input.video().codecpar().video_delay());
        AVPacket packet = av_packet_alloc();
        try {
            boolean begun = false;
            long latest = start;
            int first = index.ofPts(start);
            int missing = span.end() - first;
            long afterEnd = soundEnd == Long.MAX_VALUE
                    ? Long.MAX_VALUE
                    : soundEnd + input.timeBase().ofSeconds(5);
            while (av_read_frame(input.context(), packet) >= 0) {
                progress.check();
                int stream = packet.stream_index();
                long pts = packet.pts() == AV_NOPTS_VALUE ? packet.dts() : packet.pts();
                if (!tracks.takes(stream) || pts == AV_NOPTS_VALUE) {
                    av_packet_unref(packet);
                    continue;
                }
                boolean picture = stream == input.video().index();
                AVRational own = input.context().streams(stream).time_base();
                if (!picture) {
                    boolean inside = av_compare_ts(pts, own, start, base) >= 0
                            && (soundEnd == Long.MAX_VALUE || av_compare_ts(pts, own, soundEnd, base) < 0);
                    if (inside) {
                        tracks.write(packet, stream, own, -av_rescale_q(start, base, own));
                    }
                    if (missing <= 0
                            && !hasHole(first, latest)
                            && afterEnd != Long.MAX_VALUE
                            && av_compare_ts(pts, own, soundEnd, base) >= 0) {
                        break;
                    }
                } else if (!begun && pts == start || begun && (missing > 0 || hasHole(first, latest))) {
                    begun = true;
                    // pictures that lead a key frame need what came before it, which is not in the clip
                    if (pts >= start) {
                        if (pts <= lastWanted) {
                            missing--;
                        }
                        copied.add(pts);
                        latest = Math.max(latest, pts);
                        decoding.fill(packet);
                        progress.report(
                                Math.min(0.99, (pts - start) / (double) Math.max(1, lastWanted - start)), "Copying");
                        tracks.write(packet, stream, own, -start);
                    }
                } else if (begun && (pts >= afterEnd || tracks.inputs().size() == 1)) {
                    break;
                }
                av_packet_unref(packet);
            }
        } finally {
            av_packet_free(packet);
        }
        if (copied.isEmpty()) {
            throw Faults.unreadable(span.part().file(), "no key frame can be read before this stretch");
        }
    }

    /** True while frames are missing that are shown before the latest one copied: those it was decoded ahead of. */
    private boolean hasHole(int first, long latest) {
        return span.part().index().ofPts(latest) + 1 - first > copied.size();
    }

    /** Finds the key frame and leaves the input before it, further back where a container seeks too late. */
    private long keyAtOrBefore(long wanted) {
        FrameIndex index = span.part().index();
        AVPacket packet = av_packet_alloc();
        try {
            for (long back = 0; ; back = back == 0 ? 1 : back * 2) {
                long from = Math.max(index.pts(0), wanted - input.timeBase().ofSeconds(back));
                av_seek_frame(input.context(), input.video().index(), from, AVSEEK_FLAG_BACKWARD);
                long found = lastKeyUpTo(packet, wanted);
                if (found != AV_NOPTS_VALUE) {
                    // with room before the key frame for sound that is stored earlier
                    av_seek_frame(input.context(), input.video().index(), from, AVSEEK_FLAG_BACKWARD);
                    return found;
                }
                if (from == index.pts(0) && back > 0) {
                    throw Faults.unreadable(span.part().file(), "no key frame can be found before this stretch");
                }
            }
        } finally {
            av_packet_free(packet);
        }
    }

    private long lastKeyUpTo(AVPacket packet, long wanted) {
        long found = AV_NOPTS_VALUE;
        while (av_read_frame(input.context(), packet) >= 0) {
            boolean picture = packet.stream_index() == input.video().index();
            boolean key = (packet.flags() & AV_PKT_FLAG_KEY) != 0;
            long pts = packet.pts();
            long dts = packet.dts();
            av_packet_unref(packet);
            if (picture && key && pts <= wanted && span.part().index().ofPts(pts) >= 0) {
                found = pts;
            }
            if (picture && dts != AV_NOPTS_VALUE && dts > wanted) {
                break;
            }
        }
        return found;
    }

    private Clip.Result verify(OutputFile file, boolean sound) {
        FrameIndex index = span.part().index();
        List<Long> times = copied.stream().sorted().toList();
        try (MediaInput copy = Inputs.open(file.partial())) {
            FrameIndex written = FrameIndexer.index(copy, Progress.NONE);
            if (written.size() != times.size()) {
                throw Faults.notFaithful(file.target(), "it holds " + written.size() + " frames of " + times.size());
            }
        }
        int first = index.ofPts(times.get(0));
        int last = index.ofPts(times.get(times.size() - 1));
        long start = span.part().startUs();
        return new Clip.Result(
                file.target(),
                MediaTime.ofMicros(start + index.startUs(first)),
                MediaTime.ofMicros(start + index.startUs(last + 1)),
                times.size(),
                0,
                sound,
                false);
    }
}
