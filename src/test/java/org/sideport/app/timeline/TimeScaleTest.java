package org.sideport.app.timeline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class TimeScaleTest {

    private static final long MINUTE = 60_000_000;

    @Test
    void theWholeRecordingFillsTheWidth() {
        TimeScale scale = TimeScale.whole(MINUTE, 600);

        assertThat(scale.x(MINUTE)).isEqualTo(600);
        assertThat(scale.timeAt(300)).isEqualTo(MINUTE / 2);
        assertThat(scale.isWhole()).isTrue();
    }

    @Test
    void aPlaceBesideTheRecordingIsItsNearestEnd() {
        TimeScale scale = TimeScale.whole(MINUTE, 600);

        assertThat(scale.timeAt(-20)).isZero();
        assertThat(scale.timeAt(700)).isEqualTo(MINUTE);
    }

    @Test
    void comingCloserKeepsTheTimeUnderTheMouse() {
        TimeScale closer = TimeScale.whole(MINUTE, 600).zoomed(4, 150);

        assertThat(closer.x(MINUTE / 4)).isCloseTo(150, within(1e-6));
        assertThat(closer.endUs() - closer.startUs()).isCloseTo(MINUTE / 4.0, within(1.0));
    }

    @Test
    void goingWiderEndsWithTheWhole() {
        TimeScale scale = TimeScale.whole(MINUTE, 600).zoomed(8, 500).zoomed(0.01, 20);

        assertThat(scale.isWhole()).isTrue();
        assertThat(scale.startUs()).isZero();
    }

    @Test
    void movingStopsAtTheEnds() {
        TimeScale scale = TimeScale.whole(MINUTE, 600).zoomed(2, 300);

        assertThat(scale.moved(-10_000).startUs()).isZero();
        assertThat(scale.moved(10_000).endUs()).isCloseTo(MINUTE, within(1.0));
    }

    @Test
    void turnsThePageWhenThePlayheadLeaves() {
        TimeScale scale = TimeScale.whole(MINUTE, 600).zoomed(4, 0); // shows 0 to 15 s

        assertThat(scale.following(10_000_000)).isSameAs(scale);
        TimeScale turned = scale.following(16_000_000);
        assertThat(turned.x(16_000_000)).isBetween(0.0, 600.0);
    }

    @Test
    void aScaleMadeBeforeThereIsRoomShowsTheWholeOnceThereIs() {
        assertThat(TimeScale.whole(MINUTE, 0).resized(800).isWhole()).isTrue();
        assertThat(TimeScale.whole(MINUTE, 0).resized(800).x(MINUTE)).isEqualTo(800);
    }

    @Test
    void ticksAreRoundAndFarEnoughApart() {
        // 100 px are 10 s; the next round step of at least 80 px is 10 s
        assertThat(TimeScale.whole(MINUTE, 600).ticks(80))
                .containsExactly(0L, 10_000_000L, 20_000_000L, 30_000_000L, 40_000_000L, 50_000_000L, 60_000_000L);
    }
}
