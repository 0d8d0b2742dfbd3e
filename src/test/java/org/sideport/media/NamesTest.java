package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NamesTest {

    @Test
    void partsAreOrderedAsPeopleCount() {
        assertThat(sorted("rec10.mp4", "rec9.mp4", "Rec1.mp4", "rec2b.mp4", "rec2.mp4", "rec02a.mp4"))
                .containsExactly("Rec1.mp4", "rec2.mp4", "rec02a.mp4", "rec2b.mp4", "rec9.mp4", "rec10.mp4");
        assertThat(sorted("20260309235959.mts", "20260309000001.mts", "99999999999999999999999.mts"))
                .containsExactly("20260309000001.mts", "20260309235959.mts", "99999999999999999999999.mts");
    }

    private static List<String> sorted(String... names) {
        return NaturalOrder.sorted(Stream.of(names).map(Path::of).toList()).stream()
                .map(Path::toString)
                .toList();
    }

    @ParameterizedTest
    @CsvSource({
        "rec_2026-03-09.mp4, a date",
        "09.03.2026 left.mp4, a date",
        "case 4471234567.mp4, a long number",
        "Surname Given.mp4, a person's name"
    })
    void namesThatMayIdentifyAreFound(String name, String hint) {
        assertThat(IdentityHints.inName(Path.of("/x/clean").resolve(name))).anyMatch(found -> found.contains(hint));
    }

    @ParameterizedTest
    @CsvSource({"D-001_part9.mp4", "case0007.mkv", "VTS_01_2.VOB", "00012.mts"})
    void plainNamesRaiseNoAlarm(String name) {
        assertThat(IdentityHints.inName(Path.of("/x/clean").resolve(name))).isEmpty();
    }

    @Test
    void tagsThatSayHowAFileWasMadeAreNotIdentity() {
        assertThat(IdentityHints.mayIdentify("encoder", "Lavf60")).isFalse();
        assertThat(IdentityHints.mayIdentify("handler_name", "VideoHandler")).isFalse();
        assertThat(IdentityHints.mayIdentify("title", "anything")).isTrue();
        assertThat(IdentityHints.mayIdentify("creation_time", "2026-03-09T10:00:00Z"))
                .isTrue();
        assertThat(IdentityHints.mayIdentify("com.apple.quicktime.location.ISO6709", "+1+1/"))
                .isTrue();
    }

    /** 30000/1001 frames a second (SMPTE ST 12-1), at a clock of 30000: frame n starts at n × 1001/30000 s. */
    @Test
    void ticksBecomeMicrosecondsExactly() {
        TimeBase base = new TimeBase(1, 30_000);
        assertThat(base.toMicros(1001)).isEqualTo(33_367);
        assertThat(base.toMicros(-1001)).isEqualTo(-33_367);
        // an hour of them: 107 892 × 1001 / 30000 s = 3 599.9964 s
        assertThat(base.toMicros(107_892L * 1001)).isEqualTo(3_599_996_400L);
        // a clock in nanoseconds, far out: 2^62 ns = 4 611 686 018 427 387.904 us
        assertThat(new TimeBase(1, 1_000_000_000).toMicros(1L << 62)).isEqualTo(4_611_686_018_427_388L);
    }
}
