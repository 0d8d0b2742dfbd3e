package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;

/** Opening, seeking and closing again and again leaves no thread and no memory behind. Linux counts both. */
@Timeout(value = 30, unit = java.util.concurrent.TimeUnit.MINUTES)
class PlayerCyclesTest {

    private static Recording recording;

    @TempDir
    static Path folder;

    /** @param kilobytes of memory in use, by VmRSS */
    private record Use(long kilobytes, int threads) {

        static Use now() throws IOException {
            System.gc();
            LockSupport.parkNanos(300_000_000); // threads that have ended are gone by then
            long kilobytes = 0;
            int threads = 0;
            for (String line : Files.readAllLines(Path.of("/proc/self/status"))) {
                if (line.startsWith("VmRSS:")) {
                    kilobytes = Long.parseLong(line.replaceAll("[^0-9]", ""));
                } else if (line.startsWith("Threads:")) {
                    threads = Integer.parseInt(line.replaceAll("[^0-9]", ""));
                }
            }
            return new Use(kilobytes, threads);
        }
    }

    @BeforeAll
    static void writeFile() throws IOException {
        assumeTrue(VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found, "LibVLC is not installed");
        assumeTrue(Files.exists(Path.of("/proc/self/status")), "only Linux counts a program's threads in a file");
        recording = NumberedVideo.recording(NumberedVideo.write(folder.resolve("one.mp4"), 0, 200));
    }

    /** Opens, seeks and closes; every tenth time with a player of its own, else with one that is kept. */
    private static void cycles(VlcPlayer kept, int count) {
        for (int i = 0; i < count; i++) {
            if (i % 10 == 9) {
                VlcPlayer own = new VlcPlayer(Runnable::run, PictureSurface.withoutScreen());
                cycle(own, i);
                own.close();
            } else {
                cycle(kept, i);
            }
        }
    }

    private static void cycle(VlcPlayer player, int number) {
        player.setMuted(true);
        player.open(recording);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live()); // no copies of pictures here: they would fill the heap, which counts too
        player.seek(MediaTime.ofMicros((number * 7 % 150) * 40_000L));
        until(() -> player.state().live());
        player.stop();
    }

    private static void until(BooleanSupplier condition) {
        long end = System.nanoTime() + 90_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited in vain").isLessThan(end);
            LockSupport.parkNanos(5_000_000);
        }
    }

    /** After a first round, in which libraries and heap grow to their size, {@code count} more leave nothing. */
    private static void leavesNothing(int first, int count, long mostKilobytes) throws IOException {
        VlcPlayer kept = new VlcPlayer(Runnable::run, PictureSurface.withoutScreen());
        try {
            cycles(kept, first);
            Use before = Use.now();
            cycles(kept, count);
            Use after = Use.now();
            System.getLogger(PlayerCyclesTest.class.getName())
                    .log(System.Logger.Level.INFO, "{0} cycles: {1}, then {2}", count, before, after);
            assertThat(after.threads()).as("threads").isLessThanOrEqualTo(before.threads() + 2);
            assertThat(after.kilobytes() - before.kilobytes()).as("kB more").isLessThan(mostKilobytes);
        } finally {
            kept.close();
        }
    }

    @Test
    void fortyCyclesLeaveNothing() throws IOException {
        // heap and LibVLC's threads still grow to their size here: only a leak of several pictures a cycle would show
        leavesNothing(10, 30, 90_000);
    }

    @Test
    @Tag("slow")
    void fiveHundredCyclesLeaveNothing() throws IOException {
        // one decoded picture with its padding (about 100 kB), kept in each cycle, would make 30 MB
        leavesNothing(200, 300, 30_000);
    }
}
