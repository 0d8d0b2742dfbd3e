package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.OwnProcess;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;

/** Opening, seeking and closing again and again leaves no thread and no memory behind. Linux counts both. */
@Timeout(value = 30, unit = java.util.concurrent.TimeUnit.MINUTES)
class PlayerCyclesTest {

    private static Recording recording;

    @TempDir
    static Path folder;

    /** @param kilobytes of memory in use, by VmRSS */
    private record Use(long kilobytes, long threads) {

        static Use now() throws IOException {
            System.gc();
            LockSupport.parkNanos(300_000_000); // threads that have ended are gone by then
            return new Use(OwnProcess.own("VmRSS"), OwnProcess.own("Threads"));
        }
    }

    @BeforeAll
    static void findPlayer() {
        assumeTrue(VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found, "LibVLC is not installed");
        assumeTrue(Files.exists(Path.of("/proc/self/status")), "only Linux counts a program's threads in a file");
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

    /** First round, in which libraries and buffers grow to their size, then the counted one; prints what was used after each. */
    static final class Rounds {

        private Rounds() {}

        public static void main(String[] arguments) throws IOException {
            VlcDiscovery.discover();
            recording = NumberedVideo.recording(NumberedVideo.write(Path.of(arguments[0]), 0, 200));
            VlcPlayer kept = new VlcPlayer(Runnable::run, PictureSurface.withoutScreen());
            for (int i = 1; i < arguments.length; i++) {
                cycles(kept, Integer.parseInt(arguments[i]));
                Use now = Use.now();
                System.out.println(now.kilobytes() + " " + now.threads());
            }
            System.exit(0);
        }
    }

    private void leavesNothing(int first, int count, long mostKilobytes) {
        List<String> lines = OwnProcess.run(
                Rounds.class, folder.resolve("one.mp4").toString(), String.valueOf(first), String.valueOf(count));
        List<long[]> uses = lines.stream()
                .filter(line -> line.matches("\\d+ \\d+"))
                .map(line -> Arrays.stream(line.split(" "))
                        .mapToLong(Long::parseLong)
                        .toArray())
                .toList();
        assertThat(uses).as(String.join("\n", lines)).hasSize(2);
        System.out.printf("%d cycles: from %d to %d kB%n", count, uses.get(0)[0], uses.get(1)[0]);
        assertThat(uses.get(1)[1]).as("threads").isLessThanOrEqualTo(uses.get(0)[1] + 2);
        assertThat(uses.get(1)[0] - uses.get(0)[0]).as("kB more").isLessThan(mostKilobytes);
    }

    @Test
    void fortyCyclesLeaveNothing() {
        // one decoded picture with its padding takes about 100 kB: five of them kept in each cycle would make 15 MB
        leavesNothing(10, 30, 15_000);
    }

    @Test
    @Tag("slow")
    void fiveHundredCyclesLeaveNothing() {
        // half a decoded picture with its padding (about 100 kB), kept in each cycle, would make 15 MB
        leavesNothing(200, 300, 15_000);
    }
}
