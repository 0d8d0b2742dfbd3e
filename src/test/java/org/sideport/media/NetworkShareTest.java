package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.measure.LongVideo;
import org.sideport.model.Progress;

/** A recording on a drive that is slow and goes away, against the same file read from the local disk. */
class NetworkShareTest {

    private static final int SECONDS = 1800;
    private static final long MB = 1 << 20;

    @TempDir
    static Path folder;

    private static Path local;
    private static long size;

    private final Share share = new Share();
    private final Path remote = share.path(local);

    @BeforeAll
    static void write() throws IOException {
        local = folder.resolve("long.mp4");
        LongVideo.write(local, 320, 180, 2, SECONDS, Progress.NONE);
        size = Files.size(local);
        assertThat(size).isGreaterThan(12 * MB);
    }

    @Test
    void theFirstPictureComesWithoutTheWholeFile() {
        FramePicture first = RecordingFrames.firstPicture(remote, Rendering.FULL);
        // its table of contents lies at the end, so that a piece is read there too
        assertThat(share.bytes.get()).isPositive().isLessThan(4 * MB);
        try (RecordingFrames frames = RecordingFrames.open(List.of(local), Progress.NONE)) {
            assertThat(BarStamps.same(first, frames.picture(frames.frame(0)))).isTrue();
        }
    }

    @Test
    void framesAreTheSameAndReadingIsInBoundedPieces() {
        try (RecordingFrames far = RecordingFrames.open(List.of(remote), Progress.NONE);
                RecordingFrames near = RecordingFrames.open(List.of(local), Progress.NONE)) {
            assertThat(far.frameCount()).isEqualTo((long) SECONDS * LongVideo.RATE);
            // the file once, from its start to its end, and what is read to open it
            assertThat(share.bytes.get()).isBetween(size, size + 8 * MB);
            assertThat(share.reads.get()).isLessThan((int) (size / MB) + 20);
            for (long number : new long[] {29_000, 77, 15_003}) {
                long before = share.bytes.get();
                FramePicture picture = far.picture(far.frame(number));
                assertThat(share.bytes.get() - before).isLessThan(6 * MB);
                assertThat(BarStamps.same(picture, near.picture(near.frame(number))))
                        .isTrue();
            }
            assertThat(share.largest.get()).isLessThanOrEqualTo(ChannelIo.PIECE);
        }
    }

    @Test
    void aShareLostWhileTheTimesAreReadIsSaidAndOpeningAgainWorks() {
        share.until = size / 2;
        lost(() -> RecordingFrames.open(List.of(remote), Progress.NONE));
        share.comeBack();
        try (RecordingFrames frames = RecordingFrames.open(List.of(remote), Progress.NONE)) {
            assertThat(frames.frameCount()).isEqualTo((long) SECONDS * LongVideo.RATE);
        }
    }

    @Test
    void aShareLostWhileLookingIsSaidAndTheSameFramesComeWhenItIsBack() {
        try (RecordingFrames frames = RecordingFrames.open(List.of(remote), Progress.NONE);
                RecordingFrames near = RecordingFrames.open(List.of(local), Progress.NONE)) {
            frames.picture(frames.frame(100));
            share.goAway();
            lost(() -> frames.picture(frames.frame(20_000)));
            lost(() -> frames.picture(frames.frame(20_000), Rendering.DRAFT));
            share.unmounted = true;
            assertThatThrownBy(() -> frames.picture(frames.frame(20_000)))
                    .isInstanceOfSatisfying(
                            MediaException.class, e -> assertThat(e.reason()).isEqualTo(Reason.NOT_FOUND))
                    .hasMessageContaining("connect the drive");
            share.comeBack();
            assertThat(BarStamps.same(frames.picture(frames.frame(20_000)), near.picture(near.frame(20_000))))
                    .isTrue();
        }
    }

    @Test
    void aShareThatWasAwayAndIsBackIsReadOnWithoutAWord() {
        try (RecordingFrames frames = RecordingFrames.open(List.of(remote), Progress.NONE);
                RecordingFrames near = RecordingFrames.open(List.of(local), Progress.NONE)) {
            frames.picture(frames.frame(100));
            share.reconnect();
            assertThat(BarStamps.same(frames.picture(frames.frame(20_000)), near.picture(near.frame(20_000))))
                    .isTrue();
        }
    }

    @Test
    void aFileOnALocalDiskIsLeftToTheLibrary() {
        assertThat(ChannelIo.suits(local)).isFalse();
        assertThat(ChannelIo.suits(remote)).isTrue();
    }

    private static void lost(ThrowingCallable reading) {
        assertThatThrownBy(reading)
                .isInstanceOfSatisfying(
                        MediaException.class, e -> assertThat(e.reason()).isEqualTo(Reason.LOST))
                .hasMessageContaining("went away")
                .hasMessageContaining("connect it again");
    }
}
