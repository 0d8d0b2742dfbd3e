package org.sideport.app.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.model.Progress;
import org.sideport.player.VlcDiscovery;

/** Real LibVLC: key presses while it plays, against the numbers in the pictures. Says nothing of speed. */
@Timeout(240)
class PlaybackBenchTest {

    @Test
    void pressesWhilePlayingArePutOnTheFrameThatWasOnTheScreen() throws Exception {
        assumeTrue(VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found, "LibVLC is not installed");
        try (PlaybackBench bench = PlaybackBench.open(Progress.NONE)) {
            PlaybackBench.Presses presses = bench.moving(2, 10);

            assertThat(presses.clockMs()).hasSize(10);
            // a machine that stands still for seconds may leave the clock farther off than is searched
            assertThat(presses.exact()).isGreaterThanOrEqualTo(9);
            assertThat(presses.leftMs()).hasSize(10);
        }
    }
}
