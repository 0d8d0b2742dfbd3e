package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.player.PlayerState.Status;

class ClockPlayerTest {

    private long nanos;
    private int told;
    private final ClockPlayer player = new ClockPlayer(Runnable::run, () -> nanos);

    private static Recording tenSeconds() {
        Segment segment = new Segment(
                Path.of("ten.mp4"),
                "0",
                1,
                10_000_000,
                250,
                0,
                25,
                1,
                false,
                "h264",
                640,
                480,
                "1:1",
                0,
                false,
                false,
                List.of());
        return new Recording(List.of(segment));
    }

    @Test
    void runsFromWhereItIsToldAtItsRate() {
        player.open(tenSeconds());
        player.setRate(0.5);
        player.play(MediaTime.ofSeconds(2));
        nanos = 3_000_000_000L;

        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(3.5));
        assertThat(player.state().isPlaying()).isTrue();
    }

    @Test
    void standsStillWhilePaused() {
        player.open(tenSeconds());
        player.play(MediaTime.ZERO);
        nanos = 1_000_000_000L;
        player.pause();
        nanos = 9_000_000_000L;

        assertThat(player.state()).isEqualTo(new PlayerState(Status.PAUSED, MediaTime.ofSeconds(1), true, 1.0));
    }

    @Test
    void endsWithTheRecordingAndSaysSo() {
        player.onChange(() -> told++);
        player.open(tenSeconds());
        player.play(MediaTime.ofSeconds(9));
        nanos = 5_000_000_000L;

        assertThat(player.state().status()).isEqualTo(Status.ENDED);
        assertThat(player.state().time()).isEqualTo(MediaTime.ofSeconds(10));
        assertThat(told).isEqualTo(3); // paused, playing, ended
    }

    @Test
    void playsNothingWhileNothingIsOpen() {
        player.play(MediaTime.ZERO);

        assertThat(player.state().status()).isEqualTo(Status.CLOSED);
    }
}
