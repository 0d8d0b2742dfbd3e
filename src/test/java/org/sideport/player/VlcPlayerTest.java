package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.scene.image.Image;
import javafx.scene.image.PixelFormat;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.FrameStamp;
import org.sideport.media.dicom.DicomFile;
import org.sideport.media.dicom.DicomVideo;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.player.PlayerState.Status;
import org.testfx.api.FxToolkit;

/** Real LibVLC, real files: what comes on the screen is read back from the number in each picture. */
@Timeout(120)
class VlcPlayerTest {

    private static VlcDiscovery.Result library =
            new VlcDiscovery.Result.Missing(VlcDiscovery.Reason.NOT_INSTALLED, null);

    /** The frame in a picture, and where the player said it was when the picture came. */
    private record Seen(int frame, MediaTime time, boolean live, boolean opaque) {}

    private final List<Seen> seen = new CopyOnWriteArrayList<>();
    private VlcPlayer player;

    @BeforeAll
    static void findLibrary() throws Exception {
        library = VlcDiscovery.discover();
        FxToolkit.registerPrimaryStage();
    }

    @BeforeEach
    void start() {
        assumeTrue(
                library instanceof VlcDiscovery.Result.Found,
                "LibVLC is not installed, so playback is not tested: install libvlc5 and vlc-plugin-base");
        player = new VlcPlayer(Platform::runLater, new PictureSurface(Platform::runLater));
        player.setMuted(true);
        Platform.runLater(() -> player.surface().imageProperty().addListener((property, old, now) -> look(now)));
    }

    private void look(Image image) {
        int width = (int) image.getWidth();
        int height = (int) image.getHeight();
        int[] pixels = new int[width * height];
        image.getPixelReader().getPixels(0, 0, width, height, PixelFormat.getIntArgbInstance(), pixels, 0, width);
        OptionalInt frame = FrameStamp.read(pixels, width, height);
        PlayerState state = player.state();
        boolean opaque = pixels[0] >>> 24 == 0xFF && pixels[width * height / 2] >>> 24 == 0xFF;
        frame.ifPresent(number -> seen.add(new Seen(number, state.time(), state.live(), opaque)));
    }

    @AfterEach
    void close() {
        if (player != null) {
            player.close();
        }
    }

    @AfterAll
    static void clean() throws Exception {
        FxToolkit.cleanupStages();
    }

    @Test
    void playsAVideoInPiecesInsideADicomObject(@TempDir Path folder) throws Exception {
        Recording plain = DemoRecordings.recording(DemoRecordings.D002);
        Path object = folder.resolve("IM0001");
        DicomFile.of(DicomFile.H264)
                .fragments(6)
                .write(object, Files.readAllBytes(plain.segments().get(0).file()));
        player.close();
        player = new VlcPlayer(Platform::runLater, new PictureSurface(Platform::runLater), DicomVideo::streamIn);
        player.setMuted(true);
        Platform.runLater(() -> player.surface().imageProperty().addListener((property, old, now) -> look(now)));

        player.open(new Recording(List.of(plain.segments().get(0).withFile(object))));
        player.play(MediaTime.ofSeconds(20));
        waitUntil(() -> seen.stream().filter(Seen::live).count() >= 20);
        List<Seen> first = seen.stream().filter(Seen::live).toList();
        assertThat(first.get(0).frame()).isBetween(500 - 5, 500 + 75); // frame 500 of 25 a second is at 20 s

        // back, which LibVLC can only do if it can seek in the stream
        seen.clear();
        player.seek(MediaTime.ofSeconds(4));
        waitUntil(() -> seen.stream().filter(Seen::live).count() >= 5);
        player.pause();
        assertThat(seen.stream().filter(Seen::live).findFirst().orElseThrow().frame())
                .isBetween(100 - 5, 100 + 75);
    }

    @Test
    void playsFromTheMomentAskedForAndKeepsRoughTime() {
        player.open(DemoRecordings.recording(DemoRecordings.D002));
        player.play(MediaTime.ofSeconds(20));

        waitUntil(() -> seen.stream().filter(Seen::live).count() >= 40);
        player.pause();

        List<Seen> live = seen.stream().filter(Seen::live).toList();
        assertThat(live).allMatch(Seen::opaque);
        assertThat(live.get(0).frame()).isBetween(500 - 5, 500 + 75); // frame 500 of 25 a second is at 20 s
        for (Seen each : live) {
            // LibVLC's own clock strays up to half a second from its pictures
            assertThat(each.time().seconds()).isCloseTo(each.frame() / 25.0, within(1.0));
        }
        assertThat(live.get(live.size() - 1).frame()).isGreaterThan(live.get(0).frame());
    }

    @Test
    void aSeekWhilePlayingGoesThereAndPlaysOn() {
        player.open(DemoRecordings.recording(DemoRecordings.D001));
        player.play(MediaTime.ofSeconds(5));
        waitUntil(() -> seen.stream().anyMatch(Seen::live));
        player.seek(MediaTime.ofSeconds(60)); // in the second file
        assertThat(player.state().live()).isFalse();
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(60));
        seen.clear();

        waitUntil(() -> seen.stream().filter(Seen::live).count() >= 10);
        assertThat(seen.stream().filter(Seen::live)).allMatch(each -> each.frame() > 1475 && each.frame() < 1700);
    }

    @Test
    void goesOnFromOneFileToTheNext() {
        player.open(DemoRecordings.recording(DemoRecordings.D001));
        player.play(MediaTime.ofSeconds(35.5)); // the second file starts at 37 s with frame 925

        waitUntil(() -> seen.stream().anyMatch(each -> each.frame() >= 950));
        player.pause();

        List<Integer> frames = new ArrayList<>(seen.stream().map(Seen::frame).toList());
        assertThat(frames).anyMatch(frame -> frame > 885 && frame < 925);
        MediaTime time = player.state().time();
        assertThat(time.seconds()).isBetween(37.0, 45.0);
    }

    @Test
    void endsStandingWithTheLastFile() {
        player.open(DemoRecordings.recording(DemoRecordings.D002));
        player.setRate(4);
        player.play(MediaTime.ofSeconds(85));

        waitUntil(() -> player.state().status() == Status.ENDED);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(87.8)); // 2195 frames at 25 a second
    }

    private static void waitUntil(BooleanSupplier condition) {
        long end = System.nanoTime() + 60_000_000_000L;
        while (!condition.getAsBoolean()) {
            assertThat(System.nanoTime()).as("waited a minute in vain").isLessThan(end);
            java.util.concurrent.locks.LockSupport.parkNanos(20_000_000);
        }
    }
}
