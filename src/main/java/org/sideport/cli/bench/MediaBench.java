package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.Rendering;
import org.sideport.media.measure.LongVideo;
import org.sideport.media.trace.TraceComputer;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * How fast recordings are read, beside FFmpeg's own programs on the same made-up files in the same run: ours and the
 * reference take turns, and medians count.
 */
final class MediaBench {

    private static final int RANDOM_FRAMES = 5;
    private static final int STEPS = 100;
    private static final int DRAGS = 60;
    private static final int CYCLES = 9;
    private static final int SETTLED = 3;

    /** A key that is held down repeats about thirty times a second. */
    private static final long KEY_REPEAT_MS = 33;

    private static final int CLIP_SECONDS = 4;
    private static final int SMALL_SECONDS = 60;

    private final Path folder;
    private final int minutes;
    private final int repeats;
    private final @Nullable Program ffmpeg;
    private final @Nullable Program ffprobe;
    private final Progress progress;
    private final List<Figure> figures = new ArrayList<>();

    private MediaBench(Path folder, int minutes, int repeats, @Nullable String path, Progress progress) {
        this.folder = folder;
        this.minutes = minutes;
        this.repeats = repeats;
        this.ffmpeg = Program.on(path, "ffmpeg");
        this.ffprobe = Program.on(path, "ffprobe");
        this.progress = progress;
    }

    /**
     * @param minutes of the 1080p recording that is made for it, in a folder that is removed again
     * @param repeats of what is measured on whole files
     * @param path where the reference programs are looked for
     */
    static List<Figure> run(int minutes, int repeats, @Nullable String path, Progress progress) throws IOException {
        Path folder = Files.createTempDirectory("sideport-bench");
        try {
            return new MediaBench(folder, minutes, repeats, path, progress).measure();
        } finally {
            try (Stream<Path> files = Files.walk(folder)) {
                for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(file);
                }
            }
        }
    }

    private List<Figure> measure() throws IOException {
        Path large = folder.resolve("large.mp4");
        Path small = folder.resolve("small.mp4");
        LongVideo.write(large, 1920, 1080, CLIP_SECONDS, minutes * 60, progress.part(0, 0.2));
        LongVideo.write(small, 1280, 720, CLIP_SECONDS, SMALL_SECONDS, progress.part(0.2, 0.3));
        // first, before other measurements have made the Java heap larger than dragging needs
        resident(large);
        index(large);
        randomFrames(large);
        steps(large);
        scrub(small);
        traces(small);
        soak(small);
        return figures;
    }

    private void index(Path file) {
        say(0.35, "Reading frame times");
        Turns turns = new Turns();
        FrameIndex index = FrameIndexer.index(file, Progress.NONE);
        for (int i = 0; i < repeats; i++) {
            turns.ours(() -> FrameIndexer.index(file, Progress.NONE).size());
            turns.reference(ffprobe, List.of("-v", "quiet", "-show_packets", "-of", "compact", file.toString()));
        }
        ratio(
                "index_ratio",
                "reading the times of all frames, 1080p, " + minutes + " min",
                turns,
                "ffprobe",
                true,
                "0.9 or more");
        double bytes = (double) index.bytes() / index.size();
        figures.add(new Figure(
                "index_bytes_per_frame",
                "memory of the frame times",
                number(bytes) + " bytes a frame",
                "",
                bytes,
                "bytes",
                "under 24"));
    }

    private void randomFrames(Path file) {
        say(0.4, "Going to random frames");
        Turns turns = new Turns();
        Turns start = new Turns();
        SplittableRandom random = new SplittableRandom(17);
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            long length = frames.duration().micros();
            frames.picture(frames.frame(0));
            for (int i = 0; i < RANDOM_FRAMES * repeats; i++) {
                long us = random.nextLong(length);
                turns.ours(() ->
                        frames.picture(frames.frameAt(MediaTime.ofMicros(us))).width());
                String seconds = String.format(Locale.ROOT, "%.6f", us / 1e6);
                turns.reference(ffmpeg, decode(file, seconds, "1", "format=bgra"));
                start.reference(ffmpeg, List.of("-v", "quiet", "-version"));
            }
        }
        turns.takeOff(start);
        ratio(
                "random_frame_ratio",
                "going to a random frame, 1080p",
                turns,
                "ffmpeg less its start",
                false,
                "1.2 or less");
    }

    private static List<String> decode(Path file, String seconds, String frames, String filter) {
        return List.of(
                "-v",
                "quiet",
                "-nostdin",
                "-ss",
                seconds,
                "-i",
                file.toString(),
                "-an",
                "-frames:v",
                frames,
                "-vf",
                filter,
                "-f",
                "null",
                "-");
    }

    private void steps(Path file) {
        say(0.5, "Stepping");
        Turns forward = new Turns();
        Turns back = new Turns();
        Turns atKeys = new Turns();
        Turns one = new Turns();
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            long from = frames.frameCount() / 2;
            String seconds = String.format(
                    Locale.ROOT, "%.6f", frames.frame(from).start().micros() / 1e6);
            for (int i = 0; i < Math.max(3, repeats / 2); i++) {
                walk(frames, from, 1, 0, forward);
                walk(frames, from + STEPS, -1, 0, back);
                walk(frames, from, 1, KEY_REPEAT_MS, atKeys);
                atKeys.reference(ffmpeg, decode(file, seconds, Integer.toString(2 * STEPS), "null"));
                one.reference(ffmpeg, decode(file, seconds, "1", "null"));
            }
        }
        atKeys.takeOff(one);
        atKeys.divideReference(2 * STEPS - 1);
        ratio(
                "step_forward_ratio",
                "waiting for the next frame with the key held, 1080p",
                atKeys,
                "ffmpeg decoding one",
                false,
                "1.2 or less");
        double forth = forward.ours();
        double ratio = back.ours() / forth;
        figures.add(new Figure(
                "step_back_ratio",
                "stepping back without a pause, 1080p",
                time(back.ours()),
                "stepping forward " + time(forth),
                ratio,
                "",
                "2 or less"));
    }

    private static void walk(RecordingFrames frames, long from, int way, long pauseMs, Turns turns) {
        frames.picture(frames.frame(from));
        for (int i = 1; i <= STEPS; i++) {
            FrameRef next = frames.frame(from + (long) way * i);
            pause(pauseMs);
            turns.ours(() -> frames.picture(next).width());
        }
    }

    private static void pause(long ms) {
        if (ms > 0) {
            try {
                Thread.sleep(ms);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private void scrub(Path file) {
        say(0.6, "Dragging along the timeline");
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            double ms = drags(frames, DRAGS, null) * 1000;
            figures.add(new Figure(
                    "scrub_ms_median",
                    "a picture while dragging, 720p",
                    number(ms) + " ms",
                    "",
                    ms,
                    "ms",
                    "60 or less"));
        }
    }

    /** Across the recording and back, a hundredth and a bit each time; median seconds. */
    private static double drags(RecordingFrames frames, int drags, @Nullable Resident resident) {
        Turns turns = new Turns();
        long count = frames.frameCount();
        for (int i = 0; i < drags; i++) {
            long along = Math.round(count * (0.013 * i + 0.001 * (i % 7)));
            long number = Math.min(count - 1, i < drags / 2 ? along : count - 1 - along);
            turns.ours(
                    () -> frames.picture(frames.frame(number), Rendering.DRAFT).width());
            if (resident != null) {
                resident.look();
            }
        }
        return turns.ours();
    }

    private void traces(Path file) {
        say(0.7, "Measuring traces");
        Turns turns = new Turns();
        for (int i = 0; i < Math.min(3, repeats); i++) {
            turns.ours(
                    () -> TraceComputer.compute(List.of(file), 5, Progress.NONE).durationUs());
            turns.reference(
                    ffmpeg,
                    List.of(
                            "-v",
                            "quiet",
                            "-nostdin",
                            "-i",
                            file.toString(),
                            "-vf",
                            "fps=5,scale=320:-2",
                            "-f",
                            "null",
                            "-"));
        }
        ratio(
                "traces_ratio",
                "all traces, five a second, 720p, 1 min",
                turns,
                "ffmpeg scaling alone",
                true,
                "0.8 or more");
    }

    private void resident(Path file) {
        say(0.3, "Looking at the memory");
        Resident resident = new Resident();
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            drags(frames, DRAGS, resident);
        }
        Double most = resident.mostMb();
        String text = most == null ? "not measured, only Linux tells" : number(most) + " MB";
        figures.add(new Figure(
                "resident_mb", "memory while dragging, 1080p, " + minutes + " min", text, "", most, "MB", "under 700"));
    }

    private void soak(Path file) {
        say(0.95, "Opening and closing again and again");
        Double settled = null;
        Double end = null;
        for (int i = 0; i < CYCLES; i++) {
            try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
                drags(frames, DRAGS / 4, null);
                for (int n = 60; n > 40; n--) {
                    frames.picture(frames.frame(n));
                }
            }
            end = Resident.nowMb();
            settled = i == SETTLED ? end : settled;
        }
        Double growth = settled == null || end == null ? null : (Double) (end - settled);
        String text = growth == null ? "not measured, only Linux tells" : number(growth) + " MB";
        figures.add(new Figure(
                "soak_growth_mb",
                "growth of memory over " + (CYCLES - 1 - SETTLED) + " more openings",
                text,
                "",
                growth,
                "MB",
                ""));
    }

    private void say(double fraction, String what) {
        progress.check();
        progress.report(fraction, what);
    }

    /** @param isSpeed ours in units of the reference's speed; else our time in units of the reference's */
    private void ratio(String key, String what, Turns turns, String name, boolean isSpeed, String wish) {
        double ours = turns.ours();
        Double reference = turns.reference();
        String program = name.split(" ")[0];
        Double value =
                reference == null || reference <= 0 ? null : (Double) (isSpeed ? reference / ours : ours / reference);
        boolean installed = (program.equals("ffprobe") ? ffprobe : ffmpeg) != null;
        String text = reference != null
                ? name + " " + time(reference)
                : installed ? "not measured, " + program + " failed" : "not measured, " + program + " is not installed";
        figures.add(new Figure(key, what, time(ours), text, value, isSpeed ? "× speed" : "× time", wish));
    }

    private static String time(double seconds) {
        return number(seconds * 1000) + " ms";
    }

    static String number(double value) {
        String form = Math.abs(value) >= 10 ? "%.0f" : Math.abs(value) >= 0.1 ? "%.2f" : "%.4f";
        return String.format(Locale.ROOT, form, value);
    }

    /** Times of ours and of the reference, taken in turns. */
    private static final class Turns {

        private final List<Double> ours = new ArrayList<>();
        private final List<Double> references = new ArrayList<>();
        private double less;
        private double parts = 1;

        void ours(DoubleSupplier work) {
            long start = System.nanoTime();
            double value = work.getAsDouble();
            double seconds = (System.nanoTime() - start) / 1e9;
            if (Double.isNaN(value)) {
                throw new IllegalStateException("no result");
            }
            ours.add(seconds);
        }

        void reference(@Nullable Program program, List<String> arguments) {
            Double seconds = program == null ? null : program.seconds(arguments);
            if (seconds != null) {
                references.add(seconds);
            }
        }

        void takeOff(Turns other) {
            Double seconds = other.reference();
            less = seconds == null ? 0 : seconds;
        }

        void divideReference(double by) {
            parts = by;
        }

        double ours() {
            return median(ours);
        }

        @Nullable
        Double reference() {
            return references.isEmpty() ? null : (Double) ((median(references) - less) / parts);
        }

        private static double median(List<Double> values) {
            return Stopwatch.median(values.stream().mapToDouble(v -> v).toArray());
        }
    }
}
