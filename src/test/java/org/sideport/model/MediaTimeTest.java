package org.sideport.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MediaTimeTest {

    @ParameterizedTest
    @CsvSource({
        "0, 0",
        "83.24, 83240000",
        "'83,24', 83240000",
        ".5, 500000",
        "1:23.24, 83240000",
        "0:01:23.240, 83240000",
        "1:00:00, 3600000000",
        "90:00, 5400000000",
        // 1001/30000 s, the second frame at the rate of 30000/1001 (SMPTE ST 12-1): 33 366.67 us
        "0.033366667, 33367",
        "0.0000004, 0",
        "0.0000005, 1"
    })
    void secondsAndClockTimesAreReadExactly(String text, long micros) {
        assertThat(MediaTime.parse(text).micros()).isEqualTo(micros);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-1", "1:60", "1:60:00", "1e3", "NaN", "12 s", "1:2:3:4", "99999999999999999999"})
    void whatIsNoTimeIsRefusedWithAnExample(String text) {
        assertThatThrownBy(() -> MediaTime.parse(text))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("h:mm:ss.sss");
    }

    @Test
    void secondsWrittenAreReadBackTheSame() {
        for (long micros : new long[] {0, 1, 999_999, 1_000_000, 83_240_000, 3_600_000_001L, 10_000_000_000L}) {
            assertThat(MediaTime.parse(MediaTime.ofMicros(micros).toSecondsText())
                            .micros())
                    .isEqualTo(micros);
        }
        assertThat(MediaTime.ofMicros(10_000_000).toSecondsText()).isEqualTo("10");
    }

    @Test
    void clockTextIsCutToMilliseconds() {
        assertThat(MediaTime.ofMicros(83_240_999).toClockText()).isEqualTo("1:23.240");
        assertThat(MediaTime.ofMicros(3_723_004_000L).toClockText()).isEqualTo("1:02:03.004");
    }
}
