package org.sideport.media.hostile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Damaged at random, the same way in every run: a file is read or refused with a reason, in bounded time and memory. What
 * longer runs found lies in {@code src/test/resources/hostile}.
 */
class MutatedFilesTest {

    private static final int FILES = 300;

    private static final Duration LIMIT = Duration.ofSeconds(20);

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"mp4", "frag", "mkv", "avi", "ts", "ps", "dcm", "dcm-ts"})
    void everyDamagedFileIsReadOrRefusedWithAReason(String kind) throws IOException {
        byte[] seed = Seeds.all(folder).get(kind);
        Path file = folder.resolve("damaged.bin");
        Map<String, Integer> outcomes = new TreeMap<>();
        Files.write(file, seed);
        assertThat(Victim.open(file)).isEqualTo("read");
        for (int i = 0; i < FILES; i++) {
            Files.write(file, new Mutator(i).mutate(seed));
            String outcome = assertTimeoutPreemptively(LIMIT, () -> Victim.open(file), "mutation " + i + " of " + kind);
            outcomes.merge(outcome, 1, Integer::sum);
        }
        // both ends are met, else the damage is of no use
        assertThat(outcomes).containsKey("read").hasSizeGreaterThan(1);
    }

    static Stream<Path> found() throws IOException {
        Path kept = Path.of("src", "test", "resources", "hostile");
        return Files.isDirectory(kept)
                ? Files.list(kept).filter(f -> f.toString().endsWith(".bin")).sorted()
                : Stream.of();
    }

    @ParameterizedTest(allowZeroInvocations = true)
    @MethodSource("found")
    void whatWasFoundOnceDoesNotComeBack(Path file) {
        assertTimeoutPreemptively(LIMIT, () -> Victim.open(file));
    }
}
