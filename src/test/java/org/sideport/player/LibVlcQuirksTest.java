package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.PlayerState.Status;

/**
 * What LibVLC 3 does otherwise than one would think, and what holds it. Nothing here depends on how quick the machine is.
 *
 * <table>
 * <caption>Quirk, and its test or why there is none</caption>
 * <tr><td>its clock ticks every quarter of a second</td><td>{@code PlaybackClockTest};
 *     {@link #theTimeRunsOnBetweenTheTicks}</td></tr>
 * <tr><td>backward ticks, ticks before a seek has arrived</td><td>{@code PlaybackClockTest}</td></tr>
 * <tr><td>fast seeking starts at a key frame</td><td>{@link #aSeekWhilePlayingDoesNotStartAtTheKeyFrame}</td></tr>
 * <tr><td>a paused seek shows a picture some frames early, or an old one, and sends no event</td><td>no test of LibVLC:
 *     what stands is never its picture; {@code PictureDeskTest.theTimeShownIsThatOfThePictureShown}</td></tr>
 * <tr><td>of many seeks in a hurry some are lost</td><td>{@link #ofManySeeksInAHurryTheNewestWins}</td></tr>
 * <tr><td>no step back; the first step on only pauses</td><td>no test: LibVLC's stepping is not used;
 *     {@code PictureDeskTest.fastStepsLoseNoneAndDecodeOnlyTheNewest}</td></tr>
 * <tr><td>at the end it stops and forgets time and length</td><td>{@link #afterTheEndItPlaysAgainFromAnywhere}</td></tr>
 * <tr><td>the end of a file looks like a pause</td><td>{@link #aPauseIsNotTakenForTheEnd};
 *     {@code VlcPlayerTest.endsStandingWithTheLastFile}</td></tr>
 * <tr><td>the last frames are swallowed</td><td>{@link #theLastFrameIsShown}</td></tr>
 * <tr><td>an unreadable file gives no error</td><td>{@link #aFileThatIsNoVideoFailsAndAnotherOpensAfterwards}</td></tr>
 * <tr><td>a file that breaks off looks like a pause</td><td>{@link #aFileThatBreaksOffFailsInsteadOfHanging}</td></tr>
 * <tr><td>calls from its own event thread crash</td><td>{@link #callsFromTheListenerAreSafe}; {@code VlcPlayer} has one
 *     thread for all calls</td></tr>
 * <tr><td>calls that race with the release crash</td><td>{@link #callsDuringAndAfterTheReleaseAreSafe}</td></tr>
 * <tr><td>callbacks are collected as garbage</td><td>{@link #theCallbacksSurviveGarbageCollection}</td></tr>
 * <tr><td>native objects stay behind</td><td>{@code PlayerCyclesTest}</td></tr>
 * <tr><td>one native buffer is overwritten while it is shown</td><td>{@code PictureSurfaceTest}</td></tr>
 * <tr><td>proposed picture sizes are padded and differ</td><td>{@link #picturesHaveTheSizeOfTheFile}</td></tr>
 * <tr><td>the fourth byte may not be opaque</td><td>{@code VlcPlayerTest.playsFromTheMomentAskedForAndKeepsRoughTime}</td></tr>
 * <tr><td>the shape of pixels is not told</td><td>{@code DisplaySizeTest}: it comes from the file</td></tr>
 * <tr><td>a new set-up comes after each stop</td><td>{@link #afterTheEndItPlaysAgainFromAnywhere}</td></tr>
 * <tr><td>after a stop the last picture stays</td><td>{@link #afterAStopNoPictureCountsAsLive}</td></tr>
 * <tr><td>a rate set before playing may be forgotten</td><td>{@link #theRateOutlivesTheNextFile}</td></tr>
 * <tr><td>no sound device: lines on standard error, volume -1</td><td>{@code SoundDeviceTest}; the volume is never
 *     asked for</td></tr>
 * <tr><td>pitch at other rates</td><td>no test: nobody listens in one. The option that keeps it is set, and above 2 × it
 *     is silent</td></tr>
 * <tr><td>discovery stops at the first failure, is slow, knows few places; another architecture</td>
 *     <td>{@code VlcPlacesTest}, {@code VlcDiscoveryTest}</td></tr>
 * <tr><td>a missing LibVLC</td><td>{@code ClockPlayerTest}, {@code PictureDeskTest}</td></tr>
 * <tr><td>audio on Windows wants calls off the screen's thread</td><td>no test on other systems: all calls are made by a
 *     thread of the player's own</td></tr>
 * <tr><td>it may fetch pictures and data from the network</td><td>no test: an option forbids it; to see nothing sent for
 *     some seconds would prove nothing</td></tr>
 * </table>
 */
@Timeout(150)
class LibVlcQuirksTest {

    private static VlcDiscovery.Result library =
            new VlcDiscovery.Result.Missing(VlcDiscovery.Reason.NOT_INSTALLED, null);
    private static Recording one;
    private static Recording two;

    @TempDir
    static Path folder;

    private VlcPlayer player;

    @BeforeAll
    static void writeFiles() throws IOException {
        library = VlcDiscovery.discover();
        assumeTrue(library instanceof VlcDiscovery.Result.Found, "LibVLC is not installed");
        one = NumberedVideo.recording(NumberedVideo.write(folder.resolve("one.mp4"), 0, 200));
        two = NumberedVideo.recording(
                NumberedVideo.write(folder.resolve("a.mp4"), 0, 60),
                NumberedVideo.write(folder.resolve("b.mp4"), 60, 160));
    }

    @BeforeEach
    void start() {
        player = new VlcPlayer(Runnable::run, PictureSurface.withoutScreen());
        player.setMuted(true);
    }

    @AfterEach
    void close() {
        player.close();
    }

    private int number() {
        LivePicture picture = player.livePicture();
        return picture == null ? -1 : NumberedVideo.number(picture);
    }

    private static MediaTime frame(int number) {
        return MediaTime.ofMicros(number * 40_000L);
    }

    private static void until(BooleanSupplier condition) {
        long end = System.nanoTime() + 90_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited in vain").isLessThan(end);
            LockSupport.parkNanos(5_000_000);
        }
    }

    @Test
    void theTimeRunsOnBetweenTheTicks() {
        player.open(one);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live());
        List<Long> times = new ArrayList<>();
        until(() -> {
            times.add(player.state().time().micros());
            return times.size() >= 40 || player.state().status() == Status.ENDED;
        });

        // forty looks within a second: a clock of four ticks a second would show a handful of times
        assertThat(times.stream().distinct().count()).isGreaterThan(20);
    }

    @Test
    void aSeekWhilePlayingDoesNotStartAtTheKeyFrame() {
        player.open(one);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live());
        player.seek(frame(145)); // key frames are 100 and 150
        until(() -> player.state().live());

        assertThat(number()).isGreaterThanOrEqualTo(140);
    }

    @Test
    void ofManySeeksInAHurryTheNewestWins() {
        player.open(one);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live());
        for (int target = 0; target < 60; target++) {
            player.seek(frame(target * 2));
        }
        player.seek(frame(150));
        assertThat(player.state().time()).isEqualTo(frame(150));

        until(() -> number() >= 145);
        assertThat(player.state().time().micros())
                .isGreaterThanOrEqualTo(frame(145).micros());
    }

    @Test
    void afterTheEndItPlaysAgainFromAnywhere() {
        player.open(one);
        player.setRate(8);
        player.play(frame(150));
        until(() -> player.state().status() == Status.ENDED);
        assertThat(player.state().time()).isEqualTo(frame(200));

        player.setRate(1);
        player.play(frame(50));
        until(() -> player.state().live());
        assertThat(number()).isBetween(45, 199);
    }

    @Test
    void theLastFrameIsShown() {
        AtomicInteger last = new AtomicInteger(-1);
        player.open(one);
        player.play(frame(150));
        until(() -> {
            last.set(Math.max(last.get(), number()));
            return player.state().status() == Status.ENDED;
        });

        LivePicture rest = player.surface().shown();
        assertThat(rest).isNotNull();
        assertThat(Math.max(last.get(), NumberedVideo.number(rest))).isEqualTo(199);
    }

    @Test
    void aPauseIsNotTakenForTheEnd() {
        player.open(one);
        player.play(frame(10));
        until(() -> player.state().live());
        for (int i = 0; i < 5; i++) {
            player.pause();
            player.play(frame(20 + i));
        }
        until(() -> player.state().live() && number() >= 15);

        assertThat(player.state().status()).isEqualTo(Status.PLAYING);
    }

    @Test
    void aFileThatIsNoVideoFailsAndAnotherOpensAfterwards() throws IOException {
        Path file = folder.resolve("broken.mp4");
        Files.copy(folder.resolve("one.mp4"), file);
        Recording broken = NumberedVideo.recording(file);
        Files.write(file, new byte[40_000]);
        player.open(broken);
        player.play(MediaTime.ZERO);
        until(() -> player.state().status() == Status.FAILED);

        player.open(one);
        player.play(frame(20));
        until(() -> player.state().live());
        assertThat(number()).isGreaterThanOrEqualTo(15);
    }

    @Test
    void aFileThatBreaksOffFailsInsteadOfHanging() throws IOException {
        Path file = folder.resolve("breaks.mp4");
        NumberedVideo.write(file, 0, 1500);
        Recording whole = NumberedVideo.recording(file);
        player.open(whole);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live());
        try (RandomAccessFile cut = new RandomAccessFile(file.toFile(), "rw")) {
            cut.setLength(cut.length() / 2); // the device is pulled out
        }
        player.setRate(8);
        until(() -> player.state().status() != Status.PLAYING);

        assertThat(player.state().status()).isEqualTo(Status.FAILED);
        player.setRate(1);
        player.open(one);
        player.play(frame(20));
        until(() -> player.state().live());
    }

    @Test
    void callsFromTheListenerAreSafe() {
        List<Status> heard = new CopyOnWriteArrayList<>();
        player.onChange(() -> {
            heard.add(player.state().status());
            if (player.state().status() == Status.ENDED && heard.size() < 50) {
                player.play(frame(150)); // calls LibVLC from where its event is told
            }
        });
        player.open(one);
        player.setRate(8);
        player.play(frame(150));

        until(() -> heard.stream().filter(s -> s == Status.ENDED).count() >= 3);
    }

    @Test
    void callsDuringAndAfterTheReleaseAreSafe() throws InterruptedException {
        player.open(one);
        player.play(MediaTime.ZERO);
        Thread caller = new Thread(() -> {
            for (int i = 0; i < 2000; i++) {
                player.seek(frame(i % 200));
                player.setRate(1 + i % 3);
                player.state();
            }
        });
        caller.start();
        player.close();
        caller.join();
        player.pause();
        player.play(MediaTime.ZERO);

        assertThat(player.state().status()).isEqualTo(Status.CLOSED);
    }

    @Test
    void theCallbacksSurviveGarbageCollection() {
        player.open(one);
        player.play(MediaTime.ZERO);
        until(() -> player.state().live());
        int before = number();
        for (int i = 0; i < 5; i++) {
            System.gc();
        }
        until(() -> number() > before + 5);
    }

    @Test
    void picturesHaveTheSizeOfTheFile() {
        player.open(one); // 180 rows are no multiple of 16: LibVLC proposes more
        player.play(MediaTime.ZERO);
        until(() -> player.livePicture() != null);

        LivePicture picture = player.livePicture();
        assertThat(picture.width()).isEqualTo(320);
        assertThat(picture.height()).isEqualTo(180);
    }

    @Test
    void afterAStopNoPictureCountsAsLive() {
        player.open(one);
        player.play(MediaTime.ZERO);
        until(() -> player.livePicture() != null);
        player.stop();

        assertThat(player.livePicture()).isNull();
        assertThat(player.state()).isEqualTo(new PlayerState(Status.CLOSED, MediaTime.ZERO, false, 1.0));
    }

    @Test
    void theRateOutlivesTheNextFile() {
        player.setRate(2);
        player.open(two);
        player.play(frame(20));
        until(() -> player.state().live() && number() >= 70); // in the second file
        int number = number();
        long start = System.nanoTime();
        until(() -> number() >= number + 50 || player.state().status() == Status.ENDED);
        double seconds = (System.nanoTime() - start) / 1e9;

        // fifty frames last 2 s at normal speed, 1 s at 2 ×: a slow machine drops pictures, but not the time they stand
        // for
        assertThat(player.state().rate()).isEqualTo(2);
        assertThat(seconds).isLessThan(1.9);
    }

    @Test
    void theNextFileFollowsWithoutAClickAndInTime() {
        player.open(two);
        player.play(frame(30));
        List<Integer> seen = new ArrayList<>();
        until(() -> {
            int now = number();
            if (now >= 0 && (seen.isEmpty() || seen.get(seen.size() - 1) != now)) {
                seen.add(now);
            }
            return now >= 110;
        });

        assertThat(seen).isSorted();
        assertThat(seen).anyMatch(n -> n < 60).anyMatch(n -> n >= 60);
        assertThat(player.state().status()).isEqualTo(Status.PLAYING);
    }

    @Test
    @Tag("slow")
    void aHundredBordersAreCrossed() {
        player.open(two);
        for (int i = 0; i < 100; i++) {
            player.play(frame(50));
            until(() -> player.state().live() && number() >= 62);
        }
    }
}
