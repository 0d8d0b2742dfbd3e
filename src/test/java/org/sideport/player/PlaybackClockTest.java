package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class PlaybackClockTest {

    private static final long MS = 1_000_000; // nanoseconds
    private final PlaybackClock clock = new PlaybackClock();

    @Test
    void runsOnBetweenTicksAtTheRate() {
        clock.rate(0, 2.0);
        clock.running(0, true);
        clock.ticked(1000 * MS, 5_000_000);

        assertThat(clock.at(1100 * MS)).isEqualTo(5_200_000); // 100 ms at twice the speed
    }

    @Test
    void standsStillWhenNotRunning() {
        clock.running(0, true);
        clock.ticked(0, 1_000_000);
        clock.running(200 * MS, false);

        assertThat(clock.at(900 * MS)).isEqualTo(1_200_000);
    }

    @Test
    void ignoresSmallStepsBackButBelievesLargeOnes() {
        clock.running(0, true);
        clock.ticked(0, 10_000_000);

        clock.ticked(1000 * MS, 10_800_000); // 200 ms behind the running clock
        assertThat(clock.at(1000 * MS)).isEqualTo(11_000_000);

        clock.ticked(1000 * MS, 10_600_000); // 400 ms behind
        assertThat(clock.at(1000 * MS)).isEqualTo(10_600_000);
    }

    @Test
    void showsThePlaceAskedForUntilTheSeekArrives() {
        clock.running(0, true);
        clock.ticked(0, 1_000_000);
        clock.seeking(0, 60_000_000);

        assertThat(clock.ticked(250 * MS, 1_250_000)).isFalse(); // still the old place
        assertThat(clock.at(400 * MS)).isEqualTo(60_000_000);
        assertThat(clock.ticked(500 * MS, 60_120_000)).isTrue();
        assertThat(clock.at(600 * MS)).isEqualTo(60_220_000);
    }

    @Test
    void believesAnyTickWhenASeekNeverArrives() {
        clock.running(0, true);
        clock.seeking(0, 60_000_000);

        assertThat(clock.ticked(PlaybackClock.PATIENCE_NS + MS, 2_000_000)).isTrue();
        assertThat(clock.at(PlaybackClock.PATIENCE_NS + MS)).isEqualTo(2_000_000);
    }

    @Test
    void aChangeOfRateMovesNothing() {
        clock.running(0, true);
        clock.ticked(0, 1_000_000);
        clock.rate(1000 * MS, 0.5);

        assertThat(clock.at(1000 * MS)).isEqualTo(2_000_000);
        assertThat(clock.at(2000 * MS)).isEqualTo(2_500_000);
    }
}
