package org.sideport.media.join;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** SMPTE ST 12-1: frame numbers 0 and 1 are left out each minute but every tenth, 17 982 frames in ten minutes. */
class TimeCodeTest {

    private static final double FRAME_US = 1e6 * 1001 / 30_000;

    @Test
    void dropFrameTimeCodeCountsTheFramesThatAreThere() {
        assertThat(FileClocks.timeCodeUs("00:10:00;00", 30_000, 1001)).isEqualTo(Math.round(17_982 * FRAME_US));
        // one frame after 00:00:59;29, which is frame 1799
        assertThat(FileClocks.timeCodeUs("00:01:00;02", 30_000, 1001)).isEqualTo(Math.round(1800 * FRAME_US));
    }

    @Test
    void otherTimeCodeCountsAllNumbers() {
        assertThat(FileClocks.timeCodeUs("01:00:00:12", 25, 1)).isEqualTo(3_600_480_000L);
        assertThat(FileClocks.timeCodeUs("yesterday", 25, 1)).isNull();
    }
}
