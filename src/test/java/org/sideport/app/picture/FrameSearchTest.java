package org.sideport.app.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FramePicture;
import org.sideport.media.RecordingFrames;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.player.LivePicture;
import org.sideport.player.PlayerState;
import org.sideport.player.PlayerState.Status;
import org.sideport.workflow.ImportRecording;

/**
 * On a drawn recording of 25 frames a second, whose frame n starts at n times 40 ms; frames 60 to 89 show the same but for
 * the number, which is painted over.
 */
class FrameSearchTest {

    @TempDir
    static Path folder;

    private static Recording recording;

    @BeforeAll
    static void draw() throws Exception {
        Path first = folder.resolve("a.mp4");
        Path second = folder.resolve("b.mp4");
        StampedVideo.write(first, 0, 40, 60, 90);
        StampedVideo.write(second, 40, 120, 60, 90);
        recording = ImportRecording.probe(java.util.List.of(first, second), Progress.NONE)
                .recording();
    }

    /** @param off how the player's colours differ */
    private static LivePicture live(RecordingFrames frames, long number, double off) {
        FramePicture exact = StampedVideo.withoutNumber(frames.picture(frames.frame(number)));
        byte[] bgra = exact.bgra().clone();
        for (int i = 0; i < bgra.length; i++) {
            bgra[i] = (byte) Math.round((bgra[i] & 0xFF) * (1 - off) + 100 * off);
        }
        return new LivePicture(exact.width(), exact.height(), bgra, 1, 0);
    }

    /** Who may not see all of a picture still gets the frame that was on the screen: all of it is compared. */
    @Test
    void whatIsCoveredIsComparedAllTheSame() {
        Recording covered = new Recording(recording.segments(), List.of(new MaskArea(0, 0, 10_000, 10_000)));
        try (RecordingFrames frames = RecordingFrames.open(recording, Progress.NONE)) {
            FrameSource source = CoveredFrames.of(plain(frames), covered);
            assertThat(source.picture(source.frame(45)).bgra()[0]).isZero();
            PlayerState state = new PlayerState(Status.PLAYING, MediaTime.ofMicros(41 * 40_000), true, 1);
            assertThat(new FrameSearch(live(frames, 45, 0.02), state)
                            .all(source)
                            .number())
                    .isEqualTo(45);
        }
    }

    private static FrameSource plain(RecordingFrames frames) {
        return FrameSource.of(frames).with(StampedVideo::withoutNumber);
    }

    private static long found(long shown, double off, long roughMicros, double rate) {
        try (RecordingFrames frames = RecordingFrames.open(recording, Progress.NONE)) {
            PlayerState state = new PlayerState(Status.PLAYING, MediaTime.ofMicros(roughMicros), true, rate);
            return new FrameSearch(live(frames, shown, off), state)
                    .all(plain(frames))
                    .number();
        }
    }

    @Test
    void theFrameIsFoundHoweverTheClockStrays() {
        assertThat(found(20, 0, 20 * 40_000 + 370_000, 1)).isEqualTo(20);
        assertThat(found(20, 0, 20 * 40_000 - 500_000, 1)).isEqualTo(20);
    }

    @Test
    void aDifferenceOfColoursDoesNotMatter() {
        assertThat(found(100, 0.1, 100 * 40_000 + 200_000, 1)).isEqualTo(100);
    }

    @Test
    void theFrameIsFoundAcrossTheBorderOfFiles() {
        assertThat(found(38, 0, 42 * 40_000, 1)).isEqualTo(38);
        assertThat(found(41, 0, 37 * 40_000, 1)).isEqualTo(41);
    }

    @Test
    void theClockStraysFartherAtHigherRates() {
        assertThat(found(15, 0, 15 * 40_000 + 1_100_000, 2)).isEqualTo(15);
    }

    @Test
    void theWindowIsWidenedWhereTheFrameIsBeyondIt() {
        assertThat(found(100, 0, 100 * 40_000 - 1_000_000, 1)).isEqualTo(100);
    }

    @Test
    void whereNothingMovesTheFrameNearestToTheClockIsTaken() {
        // all of 60 to 89 look the same to the eye; the coding lets them differ by less than can be told apart, or more
        long found = found(75, 0, 75 * 40_000 + 20_000, 1);
        assertThat(Math.abs(found - 75)).isLessThanOrEqualTo(1);
    }

    @Test
    void aPictureThatIsNoneOfTheFramesLeavesTheClocksFrame() {
        byte[] noise = new byte[640 * 360 * 4];
        new java.util.Random(1).nextBytes(noise);
        for (int row = 0; row < 360; row++) {
            java.util.Arrays.fill(noise, row * 2560, row * 2560 + 1280, (byte) (row / 20 % 2 * 255));
        }
        try (RecordingFrames frames = RecordingFrames.open(recording, Progress.NONE)) {
            PlayerState state = new PlayerState(Status.PLAYING, MediaTime.ofMicros(50 * 40_000), true, 1);
            FrameSearch search = new FrameSearch(new LivePicture(640, 360, noise, 1, 0), state);

            assertThat(search.all(plain(frames)).number()).isEqualTo(50);
            assertThat(search.found()).isNull();
        }
    }
}
