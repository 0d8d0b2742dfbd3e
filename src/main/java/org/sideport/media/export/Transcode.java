package org.sideport.media.export;

import java.io.IOException;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.media.TimeBase;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.media.export.SourceFiles.Span;
import org.sideport.model.Progress;

/** Decodes spans of a recording and encodes them one after the other into an MP4, each frame at its own time. */
final class Transcode {

    private final List<Span> spans;
    private final OutputFile out;
    private final Encoding encoding;
    private final boolean withSound;
    private final FrameEdit edit;
    private final OutputClock clock;
    private final int width;
    private final int height;
    private final long total;
    private long[] planned = new long[1024];
    private int sent;
    private long baseTicks;
    private boolean soundWritten;

    private Transcode(List<Span> spans, OutputFile out, Encoding encoding, boolean withSound, FrameEdit edit) {
        this.spans = spans;
        this.out = out;
        this.encoding = encoding;
        this.withSound = withSound;
        this.edit = edit;
        this.clock = OutputClock.holding(
                spans.stream().map(s -> s.part().index().timeBase()).distinct().toList());
        this.width = encoding.width(spans.get(0).part());
        this.height = encoding.height(spans.get(0).part());
        this.total = spans.stream().mapToLong(Span::frames).sum();
    }

    /**
     * What was written.
     *
     * @param lost frames that damage has swallowed: they are in no copy
     * @param durationUs of the copy
     */
    record Written(int frames, long lost, long durationUs, boolean sound, int width, int height) {}

    /**
     * Writes the file up to, but without, its commit, and checks that each frame has its time.
     *
     * @throws org.sideport.model.InputException if the file cannot be written, or not one frame can be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    static Written run(
            List<Span> spans,
            OutputFile out,
            Encoding encoding,
            boolean withSound,
            FrameEdit edit,
            String doing,
            Progress progress) {
        SourceFiles.requireOneShape(spans);
        Transcode job = new Transcode(spans, out, encoding, withSound, edit);
        try {
            job.encode(doing, progress);
        } catch (IOException e) {
            throw Faults.notWritten(out.target(), e);
        }
        out.end();
        return job.verify();
    }

    private void encode(String doing, Progress progress) throws IOException {
        PictureTrack pictures = null;
        SoundTrack sound = null;
        try (FrameShaper shaper = new FrameShaper(width, height, out.target())) {
            for (Span span : spans) {
                try (FrameFeed frames = FrameFeed.open(span);
                        SpanSound spanSound = new SpanSound(span)) {
                    for (AVFrame frame = frames.next(); frame != null; frame = frames.next()) {
                        progress.check();
                        progress.report(Math.min(0.999, (double) sent / total), doing);
                        if (pictures == null) {
                            pictures = new PictureTrack(
                                    out, encoding, span.part(), frame, width, height, clock, meanTicks());
                            sound = withSound ? SoundTrack.open(out, spans) : null;
                            soundWritten = sound != null;
                            header();
                        }
                        AVFrame picture = shaper.shape(frame, out.target());
                        add(pictures, span, frames.number(), picture, frame);
                        if (sound != null) {
                            spanSound.advance(sound, planned[sent - 1]);
                        }
                    }
                    baseTicks += spanTicks(span);
                    if (sound != null) {
                        spanSound.finish(sound);
                    }
                }
            }
            if (pictures == null) {
                throw Faults.unreadable(spans.get(0).part().file(), "not one picture can be decoded there");
            }
            pictures.finish();
            if (sound != null) {
                sound.finish();
            }
        } finally {
            if (sound != null) {
                sound.close();
            }
            if (pictures != null) {
                pictures.close();
            }
        }
    }

    private void header() {
        Map<String, String> options = new HashMap<>();
        options.put("movflags", "+faststart");
        options.put("video_track_timescale", Integer.toString(clock.timescale()));
        options.put("empty_hdlr_name", "1");
        out.header(options);
    }

    private void add(PictureTrack pictures, Span span, int number, AVFrame picture, AVFrame like) throws IOException {
        FrameIndex index = span.part().index();
        edit.apply(picture, span.part().startUs() + index.startUs(number));
        long at = baseTicks + ticks(span, number);
        long until = baseTicks + ticks(span, number + 1);
        if (sent > 0 && at <= planned[sent - 1]) {
            // only where two clocks had to be rounded to a common one
            return;
        }
        if (sent == planned.length) {
            planned = Arrays.copyOf(planned, sent * 2);
        }
        planned[sent++] = at;
        pictures.add(picture, like, at, until - at);
    }

    /** Where a frame's start lies after the span's start, in ticks of the output. */
    private long ticks(Span span, int number) {
        FrameIndex index = span.part().index();
        long pts = number == index.size() ? index.endPts() : index.pts(number);
        return clock.ticks(pts - index.pts(span.first()), index.timeBase());
    }

    private long spanTicks(Span span) {
        return ticks(span, span.end());
    }

    private long meanTicks() {
        return Math.max(1, spans.stream().mapToLong(this::spanTicks).sum() / Math.max(1, total));
    }

    /** Frames that share their time with another, of files that are exported whole. */
    private long sharedTimes() {
        return spans.stream()
                .filter(s -> s.frames() == s.part().index().size())
                .mapToLong(s -> s.part().index().duplicates())
                .sum();
    }

    private Written verify() {
        try (MediaInput copy = Inputs.open(out.partial())) {
            FrameIndex index = FrameIndexer.index(copy, Progress.NONE);
            if (index.size() != sent) {
                throw Faults.notFaithful(
                        out.target(), "it holds " + index.size() + " frames, and " + sent + " were written");
            }
            for (int i = 0; i < sent; i++) {
                if (index.startUs(i) != clock.micros(planned[i] - planned[0])) {
                    throw Faults.notFaithful(
                            out.target(), "frame " + i + " does not have the time that it should have");
                }
            }
            return new Written(sent, total - sent + sharedTimes(), index.durationUs(), soundWritten, width, height);
        }
    }

    /** The sound that belongs to one span, pulled in step with its pictures. */
    private final class SpanSound implements AutoCloseable {

        private final Span span;
        private final long startTicks;
        private @Nullable SoundFeed feed;
        private boolean opened;
        private SoundFeed.@Nullable Block next;

        SpanSound(Span span) {
            this.span = span;
            this.startTicks = baseTicks;
        }

        /** Puts all sound up to a time of the output, in picture ticks. */
        void advance(SoundTrack track, long untilTicks) throws IOException {
            pull(track, samples(track, untilTicks));
        }

        /** Puts the rest, and silence where the sound is shorter than the picture. */
        void finish(SoundTrack track) throws IOException {
            long end = samples(track, startTicks + spanTicks(span));
            pull(track, end);
            track.padTo(end);
        }

        private void pull(SoundTrack track, long until) throws IOException {
            Part part = span.part();
            if (!opened) {
                opened = true;
                feed = part.soundRate() > 0 ? SoundFeed.open(part, span.first(), track.rate(), track.channels()) : null;
            }
            SoundFeed source = feed;
            if (source == null) {
                return;
            }
            TimeBase base = part.index().timeBase();
            long start = samples(track, startTicks);
            long end = samples(track, startTicks + spanTicks(span));
            long cut = new OutputClock(track.rate())
                    .ticks(part.index().pts(span.first()) - part.index().pts(0), base);
            while (track.position() < until) {
                SoundFeed.Block block = next != null ? next : source.next();
                if (block == null) {
                    return;
                }
                long place = block.start() - cut + start;
                if (place >= until) {
                    next = block;
                    return;
                }
                next = null;
                track.put(place, block.samples(), end);
            }
        }

        private long samples(SoundTrack track, long ticks) {
            return new OutputClock(track.rate()).ticks(ticks, new TimeBase(1, clock.timescale()));
        }

        @Override
        public void close() {
            if (feed != null) {
                feed.close();
            }
        }
    }
}
