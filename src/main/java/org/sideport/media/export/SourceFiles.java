package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaInput;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** The files of one recording in order, with the times of all their frames. Immutable. */
final class SourceFiles {

    /**
     * One file.
     *
     * @param startUs where its first frame lies on the recording's timeline
     * @param firstNumber number of its first frame in the recording
     * @param soundRate samples a second of its first sound track; 0 if it has none
     */
    record Part(
            Path file,
            FrameIndex index,
            long startUs,
            long firstNumber,
            int width,
            int height,
            int aspectNum,
            int aspectDen,
            int rotation,
            int soundRate,
            int soundChannels) {}

    /** Frames {@code first} to {@code end}, exclusive, of a file. */
    record Span(Part part, int first, int end) {

        int frames() {
            return end - first;
        }
    }

    private final List<Part> parts;

    private SourceFiles(List<Part> parts) {
        this.parts = List.copyOf(parts);
    }

    /**
     * @throws org.sideport.media.MediaException if a file is missing or cannot be read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    static SourceFiles open(List<Path> files, Progress progress) {
        if (files.isEmpty()) {
            throw new IllegalArgumentException("a recording needs at least one file");
        }
        List<Part> parts = new ArrayList<>();
        long startUs = 0;
        long firstNumber = 0;
        for (int i = 0; i < files.size(); i++) {
            Path file = files.get(i).toAbsolutePath().normalize();
            try (MediaInput input = MediaInput.open(file)) {
                FrameIndex index =
                        FrameIndexer.index(input, progress.part((double) i / files.size(), (i + 1.0) / files.size()));
                requireOneClock(file, index);
                Part part = part(input, index, startUs, firstNumber);
                parts.add(part);
                startUs += index.durationUs();
                firstNumber += index.size();
            }
        }
        return new SourceFiles(parts);
    }

    /**
     * Refuses a file whose clock began anew: two recordings one behind the other, whose sound cannot be told apart.
     *
     * @throws org.sideport.media.MediaException if the index met such a jump
     */
    static void requireOneClock(Path file, FrameIndex index) {
        if (index.clockJumps() > 0) {
            throw new MediaException(
                    Reason.UNREADABLE,
                    "the recorder's clock began anew in this file",
                    file.toString(),
                    "run repair on it, and use the copy");
        }
    }

    private static Part part(MediaInput input, FrameIndex index, long startUs, long firstNumber) {
        AVRational aspect = input.sampleAspect();
        int rate = 0;
        int channels = 0;
        for (int i = 0; i < input.context().nb_streams() && rate == 0; i++) {
            AVCodecParameters stream = input.context().streams(i).codecpar();
            if (stream.codec_type() == AVMEDIA_TYPE_AUDIO) {
                rate = stream.sample_rate();
                channels = stream.ch_layout().nb_channels();
            }
        }
        return new Part(
                input.file(),
                index,
                startUs,
                firstNumber,
                input.video().codecpar().width(),
                input.video().codecpar().height(),
                aspect.num(),
                aspect.den(),
                input.rotation(),
                rate,
                channels);
    }

    /** The same file with frame times from another reading. */
    static Part with(Part part, FrameIndex index) {
        return new Part(
                part.file(),
                index,
                part.startUs(),
                part.firstNumber(),
                part.width(),
                part.height(),
                part.aspectNum(),
                part.aspectDen(),
                part.rotation(),
                part.soundRate(),
                part.soundChannels());
    }

    List<Part> parts() {
        return parts;
    }

    List<Path> files() {
        return parts.stream().map(Part::file).toList();
    }

    Part first() {
        return parts.get(0);
    }

    long durationUs() {
        Part last = parts.get(parts.size() - 1);
        return last.startUs() + last.index().durationUs();
    }

    List<Span> whole() {
        return parts.stream().map(p -> new Span(p, 0, p.index().size())).toList();
    }

    /**
     * The frames that are on the screen in a half-open interval of the recording's timeline.
     *
     * @throws InputException if the interval is empty or begins after the recording's end
     */
    List<Span> between(long fromUs, long toUs) {
        if (fromUs >= durationUs()) {
            throw new InputException(
                    "the recording ends at " + durationUs() / 1e6 + " s, before " + fromUs / 1e6 + " s",
                    parts.get(parts.size() - 1).file().toString(),
                    "choose an earlier start");
        }
        if (toUs <= fromUs) {
            throw new InputException(
                    "the end " + toUs / 1e6 + " s is not after the start " + fromUs / 1e6 + " s",
                    null,
                    "give the start first, then the end");
        }
        List<Span> spans = new ArrayList<>();
        for (Part part : parts) {
            long from = Math.max(0, fromUs - part.startUs());
            long to = Math.min(part.index().durationUs(), toUs - part.startUs());
            if (from < to && from < part.index().durationUs()) {
                spans.add(new Span(part, part.index().at(from), part.index().at(to - 1) + 1));
            }
        }
        return spans;
    }

    /** @throws InputException if the files cannot be one picture stream */
    static void requireOneShape(List<Span> spans) {
        Part first = spans.get(0).part();
        for (Span span : spans) {
            Part part = span.part();
            boolean same = part.width() == first.width()
                    && part.height() == first.height()
                    && part.rotation() == first.rotation()
                    && (long) part.aspectNum() * first.aspectDen() == (long) part.aspectDen() * first.aspectNum();
            if (!same) {
                throw new InputException(
                        "its picture is " + part.width() + "x" + part.height() + ", that of "
                                + first.file().getFileName() + " " + first.width() + "x" + first.height()
                                + ", or they are turned or stretched differently",
                        part.file().toString(),
                        "export the files one by one");
            }
        }
    }
}
