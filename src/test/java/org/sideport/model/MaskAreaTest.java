package org.sideport.model;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** From its first time, included, to its last, excluded (as {@link MaskArea} says of both). */
class MaskAreaTest {

    private static final MaskArea FOR_A_TIME =
            new MaskArea(0, 0, 8, 8, MediaTime.ofMicros(5_000), MediaTime.ofMicros(7_000));
    private static final MaskArea TO_THE_END = new MaskArea(0, 0, 8, 8, MediaTime.ofMicros(5_000), null);

    @Test
    void itCoversFromItsStartUntilItsEnd() {
        assertThat(FOR_A_TIME.covers(4_999)).isFalse();
        assertThat(FOR_A_TIME.covers(5_000)).isTrue();
        assertThat(FOR_A_TIME.covers(6_999)).isTrue();
        assertThat(FOR_A_TIME.covers(7_000)).isFalse();
        assertThat(TO_THE_END.covers(Long.MAX_VALUE)).isTrue();
    }

    @Test
    void aStretchTouchesItAlsoWhereItLiesWhollyInside() {
        assertThat(FOR_A_TIME.touches(0, 100_000)).isTrue();
        assertThat(FOR_A_TIME.touches(-1_000, 4_999)).isFalse();
        assertThat(FOR_A_TIME.touches(0, 5_000)).isTrue();
        assertThat(FOR_A_TIME.touches(6_999, 9_000)).isTrue();
        assertThat(FOR_A_TIME.touches(7_000, 9_000)).isFalse();
        assertThat(TO_THE_END.touches(0, 4_999)).isFalse();
        assertThat(TO_THE_END.touches(9_000, 9_001)).isTrue();
    }
}
