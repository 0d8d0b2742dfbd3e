package org.sideport.media.hostile;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.bytedeco.javacpp.Pointer;
import org.sideport.media.MediaException;
import org.sideport.media.MediaProbe;
import org.sideport.media.PictureSweep;
import org.sideport.media.RecordingFrames;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Does to one file what the program does when a person opens it. */
final class Victim {

    /** More than any of the small seeds can need; native memory included. */
    static final long MOST_BYTES = 1_500_000_000L;

    private Victim() {}

    /**
     * @return "read", or the reason why the file was refused
     * @throws AssertionError if it needs too much memory
     */
    static String open(Path file) {
        long before = Pointer.physicalBytes();
        String outcome;
        try {
            MediaProbe.probe(file, Progress.NONE);
            try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
                long last = Math.max(0, frames.duration().micros() - 1);
                frames.picture(frames.frameAt(MediaTime.ZERO));
                frames.picture(frames.frameAt(MediaTime.ofMicros(last / 2)));
                frames.picture(frames.frameAt(MediaTime.ofMicros(last)));
            }
            PictureSweep.sweep(List.of(file), null, 1_000_000, 64, (number, segment, picture) -> {}, Progress.NONE);
            outcome = "read";
        } catch (MediaException e) {
            outcome = e.reason().name();
        }
        long grown = Pointer.physicalBytes() - before;
        if (grown > MOST_BYTES) {
            throw new AssertionError("took " + grown / 1_000_000 + " MB");
        }
        return outcome;
    }

    /**
     * A long run by hand: {@code Victim FOLDER SECONDS FIRST_SEED}. Leaves the file at work in the folder, so that a crash
     * of the process tells which it was, and keeps every file with a finding.
     */
    public static void main(String[] args) throws IOException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        long end = System.nanoTime() + Long.parseLong(args[1]) * 1_000_000_000L;
        long seed = Long.parseLong(args[2]);
        var seeds = Seeds.all(folder);
        java.util.TreeMap<String, Integer> outcomes = new java.util.TreeMap<>();
        StringBuilder log = new StringBuilder();
        int slow = 0;
        long files = 0;
        while (System.nanoTime() < end) {
            for (var one : seeds.entrySet()) {
                byte[] bytes = new Mutator(seed * 31 + one.getKey().hashCode()).mutate(one.getValue());
                Path file = Files.write(folder.resolve("now-" + one.getKey() + ".bin"), bytes);
                long start = System.nanoTime();
                String outcome;
                try {
                    outcome = open(file);
                } catch (Throwable t) {
                    outcome = t.getClass().getSimpleName();
                    Files.write(folder.resolve("finding-" + one.getKey() + "-" + seed + ".bin"), bytes);
                    StackTraceElement[] trace = t.getStackTrace();
                    log.append(one.getKey())
                            .append(' ')
                            .append(seed)
                            .append(' ')
                            .append(t);
                    for (int i = 0; i < Math.min(6, trace.length); i++) {
                        log.append("\n    ").append(trace[i]);
                    }
                    log.append('\n');
                    Files.writeString(folder.resolve("findings.txt"), log);
                }
                long ms = (System.nanoTime() - start) / 1_000_000;
                if (ms > 4000) {
                    slow++;
                    Files.write(folder.resolve("slow-" + one.getKey() + "-" + seed + "-" + ms + ".bin"), bytes);
                }
                outcomes.merge(one.getKey() + " " + outcome, 1, Integer::sum);
                files++;
            }
            seed++;
            Files.writeString(
                    folder.resolve("summary.txt"),
                    files + " files, " + slow + " slow, next seed " + seed + "\n" + outcomes);
        }
    }
}
