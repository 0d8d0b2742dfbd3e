package org.sideport.app.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.player.LivePicture;
import org.sideport.player.PictureSurface;
import org.sideport.player.PlayerState;
import org.sideport.player.VlcDiscovery;
import org.sideport.player.VlcPlayer;
import org.sideport.workflow.ImportRecording;

/**
 * Measures live playback against the frame numbers in the pictures of a drawn recording: how far the time shown is from
 * the picture shown, and how often a key press is put on the very frame. The numbers are painted over before frames are
 * searched for. Takes about two minutes.
 */
public final class PlaybackBench implements AutoCloseable {

    private static final int BORDER = 700;
    private static final int FRAMES = 1500;
    private static final int STILL_FROM = 1000;
    private static final int STILL_TO = 1375;
    private static final long LONGEST_WAIT_NS = 90_000_000_000L;

    /**
     * What was measured.
     *
     * @param rate of playback
     * @param clockMs from the start of the frame on the screen to the time shown, for each press, signed: positive where
     *     the time is ahead; 0 while that frame lasts
     * @param exact how many presses were put on the frame on the screen
     * @param leftMs how far from it the others were put, and 0 for those, absolute
     * @param searchMs how long each search took
     */
    public record Presses(double rate, List<Double> clockMs, int exact, List<Double> leftMs, List<Double> searchMs) {
        public Presses {
            clockMs = List.copyOf(clockMs);
            leftMs = List.copyOf(leftMs);
            searchMs = List.copyOf(searchMs);
        }
    }

    private record Press(PlayerState state, LivePicture picture, int truth) {}

    private final Path folder;
    private final VlcPlayer player;
    private final FrameSource frames;
    private final SplittableRandom moments = new SplittableRandom(5);

    private PlaybackBench(Path folder, Recording recording, VlcPlayer player) {
        this.folder = folder;
        this.player = player;
        this.frames = FrameSource.of(recording, Progress.NONE);
        player.open(recording);
    }

    /**
     * Draws the recording and starts the player.
     *
     * @throws InputException if LibVLC is not there
     */
    public static PlaybackBench open(Progress progress) throws IOException {
        if (!(VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found)) {
            throw new InputException(
                    "LibVLC is not on this machine, so there is no live playback to measure",
                    null,
                    "install VLC 3 and try again");
        }
        Path folder = Files.createTempDirectory("sideport-bench");
        progress.report(0, "Drawing the recording");
        Path first = folder.resolve("part1.mp4");
        Path second = folder.resolve("part2.mp4");
        StampedVideo.write(first, 0, BORDER, STILL_FROM, STILL_TO);
        StampedVideo.write(second, BORDER, FRAMES, STILL_FROM, STILL_TO);
        Recording recording =
                ImportRecording.probe(List.of(first, second), Progress.NONE).recording();
        return new PlaybackBench(folder, recording, new VlcPlayer(Runnable::run, PictureSurface.withoutScreen()));
    }

    /** Presses while the picture moves. */
    public Presses moving(double rate, int count) {
        return measure(rate, 0, BORDER - (int) (50 * rate), count);
    }

    /** Presses while the picture stands still. */
    public Presses still(int count) {
        return measure(1, STILL_FROM + 12, STILL_TO - 50, count);
    }

    private Presses measure(double rate, int from, int to, int count) {
        List<Press> presses = new ArrayList<>();
        player.setRate(rate);
        while (presses.size() < count) {
            player.play(StampedVideo.startOf(from));
            await(() -> player.state().live() && player.livePicture() != null);
            while (presses.size() < count) {
                LockSupport.parkNanos(moments.nextLong(150_000_000, 450_000_000));
                PlayerState state = player.state();
                LivePicture picture = player.livePicture();
                if (picture == null || !state.isPlaying()) {
                    break;
                }
                int truth = StampedVideo.number(picture.width(), picture.height(), picture.bgra());
                if (truth >= to) {
                    break;
                }
                if (truth >= from) {
                    presses.add(new Press(state, picture, truth));
                }
            }
            player.pause();
        }
        return search(rate, presses);
    }

    private Presses search(double rate, List<Press> presses) {
        List<Double> clock = new ArrayList<>();
        List<Double> left = new ArrayList<>();
        List<Double> took = new ArrayList<>();
        int exact = 0;
        FrameSource plain = frames.with(StampedVideo::withoutNumber);
        for (Press press : presses) {
            clock.add(clockMs(press));
            LivePicture seen = press.picture();
            LivePicture hidden = new LivePicture(
                    seen.width(),
                    seen.height(),
                    StampedVideo.withoutNumber(seen.width(), seen.height(), seen.bgra()),
                    seen.display(),
                    seen.nanos());
            long start = System.nanoTime();
            long found = new FrameSearch(hidden, press.state()).all(plain).number();
            took.add((System.nanoTime() - start) / 1e6);
            exact += found == press.truth() ? 1 : 0;
            left.add(Math.abs(found - press.truth()) * StampedVideo.FRAME_US / 1000.0);
        }
        return new Presses(rate, clock, exact, left, took);
    }

    private static double clockMs(Press press) {
        long ahead = press.state().time().micros() - press.truth() * StampedVideo.FRAME_US;
        long beyond = ahead < 0 ? ahead : Math.max(0, ahead - StampedVideo.FRAME_US + 1);
        return beyond / 1000.0;
    }

    /** How long the last picture of the first file stays on the screen before the next comes, ms; one frame if none. */
    public double borderPauseMs() {
        player.setRate(1);
        player.play(StampedVideo.startOf(BORDER - 75));
        await(() -> player.state().live());
        long last = 0;
        long longest = 0;
        long display = -1;
        int number = 0;
        long end = System.nanoTime() + LONGEST_WAIT_NS;
        while (number < BORDER + 25 && System.nanoTime() < end) {
            LivePicture picture = player.livePicture();
            if (picture != null && picture.display() != display) {
                number = StampedVideo.number(picture.width(), picture.height(), picture.bgra());
                if (last != 0 && number >= BORDER - 5) {
                    longest = Math.max(longest, picture.nanos() - last);
                }
                last = picture.nanos();
                display = picture.display();
            }
            LockSupport.parkNanos(4_000_000);
        }
        player.pause();
        return longest / 1e6;
    }

    private static void await(BooleanSupplier condition) {
        long end = System.nanoTime() + LONGEST_WAIT_NS;
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() > end) {
                throw new IllegalStateException("LibVLC showed no picture within a minute and a half");
            }
            LockSupport.parkNanos(10_000_000);
        }
    }

    @Override
    public void close() throws IOException {
        player.close();
        frames.close();
        try (var files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(folder);
    }
}
