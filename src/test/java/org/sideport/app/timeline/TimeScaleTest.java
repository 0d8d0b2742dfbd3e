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
        TimeScale scale = TimeScale.whole(MINUTE, 600);
        assertThat(scale.tickStepUs(80)).isEqualTo(10_000_000);
        assertThat(scale.firstTickUs(10_000_000)).isZero();
        // from 20 s on, 300 px show 7.5 s: a pixel is 25 ms, 80 px are 2 s, and the first tick at or after 20 s is 20 s
        TimeScale closer = TimeScale.whole(MINUTE, 300).over(20_000_000, 27_500_000);
        assertThat(closer.tickStepUs(80)).isEqualTo(2_000_000);
        assertThat(closer.firstTickUs(2_000_000)).isEqualTo(20_000_000);
    }

    @Test
    void singleFramesCanBeShown() {
        // 25 frames a second, 40 ms each; at 250 µs a pixel each is 160 pixels wide
        TimeScale scale = TimeScale.whole(3_600_000_000L, 1000).over(60_000_000, 60_000_001);

        assertThat(scale.usPerPixel()).isEqualTo(250);
        assertThat(scale.x(60_040_000) - scale.x(60_000_000)).isCloseTo(160, within(1e-9));
        assertThat(scale.x(60_000_000)).isCloseTo(500, within(0.01));
    }
}
