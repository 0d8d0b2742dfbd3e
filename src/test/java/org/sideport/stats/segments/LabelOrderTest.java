package org.sideport.stats.segments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.describe.Moments;
import org.sideport.stats.segments.LabelOrder.Episodes;
import org.sideport.stats.segments.LabelOrder.StandardDistance;

/**
 * 56 operations read off the published timeline figure of Cataract-1K (Ghamsarian et al. 2024, Scientific Data, doi
 * 10.1038/s41597-024-03193-4, CC BY 4.0); one percent of an operation stands for 10 000 units here.
 */
class LabelOrderTest {

    /** Episodes in an operation, mean and most, as counted apart from this program with awk on the same table. */
    @ParameterizedTest
    @CsvSource({
        "Incision, 1.96, 2",
        "Viscoelastic, 2.02, 3",
        "Capsulorhexis, 1.00, 1",
        "Hydrodissection, 1.09, 2",
        "Phacoemulsification, 1.00, 1",
        "Irrigation-Aspiration, 1.00, 1",
        "Capsule polishing, 1.20, 3",
        "Lens Implantation, 1.00, 1",
        "Lens Positioning, 0.98, 1",
        "Viscoelastic-Suction, 1.93, 4",
        "AC Flushing, 0.89, 2",
        "Tonifying/Antibiotics, 1.98, 6",
        "Idle, 14.7, 20"
    })
    void episodesOfPublishedOperations(String label, double mean, int most) throws IOException {
        double[] counts = operations().stream()
                .mapToDouble(operation -> LabelOrder.of(operation).episodes().stream()
                        .filter(e -> e.label().equals(label))
                        .mapToInt(Episodes::count)
                        .sum())
                .toArray();
        assertThat(counts).hasSize(56);
        assertThat(Moments.of(counts).mean()).isCloseTo(mean, within(label.equals("Idle") ? 0.05 : 0.005));
        assertThat(Arrays.stream(counts).max()).hasValue(most);
    }

    /**
     * By awk on the same table: 30.7857 segments an operation, SD 3.09671, 25 to 42 (boundaries are one more); 825 idle ones, of which 2 stand at an end
     * of an operation and 124 between two of one phase.
     */
    @Test
    void segmentsAndIdleTimeOfPublishedOperations() throws IOException {
        double[] sizes =
                operations().stream().mapToDouble(SegmentSequence::size).toArray();
        Moments moments = Moments.of(sizes);
        assertThat(moments.mean()).isCloseTo(30.7857, within(5e-5));
        assertThat(moments.sd()).isCloseTo(3.09671, within(5e-6));
        assertThat(Arrays.stream(sizes).min()).hasValue(25);
        assertThat(Arrays.stream(sizes).max()).hasValue(42);
        int idle = 0;
        int inside = 0;
        for (SegmentSequence operation : operations()) {
            List<Episodes> episodes = LabelOrder.of(operation).episodes();
            idle += episodes.stream()
                    .filter(e -> e.label().equals("Idle"))
                    .mapToInt(Episodes::count)
                    .sum();
            // with idle as background, a phase that follows itself was interrupted by idle time only
            LabelOrder busy = LabelOrder.of(operation.without(Set.of("Idle")));
            inside += busy.episodes().stream()
                    .mapToInt(e -> busy.transitions(e.label(), e.label()))
                    .sum();
        }
        assertThat(idle).isEqualTo(825);
        assertThat(inside).isEqualTo(124);
    }

    /** Case 269 of Cataract-101 (Schoeffmann et al. 2018): the second injection comes after polishing, tonifying twice. */
    @Test
    void orderOfAPublishedCase() {
        SegmentSequence sequence = sequence("IVRHPAXVLSTT");
        LabelOrder order = LabelOrder.of(sequence);
        assertThat(order.episodes())
                .containsExactly(
                        new Episodes("I", 1, 0, 10),
                        new Episodes("V", 2, 1, 20),
                        new Episodes("R", 1, 0, 10),
                        new Episodes("H", 1, 0, 10),
                        new Episodes("P", 1, 0, 10),
                        new Episodes("A", 1, 0, 10),
                        new Episodes("X", 1, 0, 10),
                        new Episodes("L", 1, 0, 10),
                        new Episodes("S", 1, 0, 10),
                        new Episodes("T", 2, 0, 20));
        assertThat(order.transitions("T", "T")).isEqualTo(1);
        assertThat(order.transitions("X", "V")).isEqualTo(1);
        assertThat(order.transitions("V", "X")).isZero();
        assertThat(order.transitions("Z", "V")).isZero();
        assertThat(order.transitions("V", "Z")).isZero();
        StandardDistance same = LabelOrder.distance(sequence, letters("IVRHPAXVLST"));
        assertThat(same).isEqualTo(new StandardDistance(0, 0, 0, 45, List.of()));
        assertThat(same.discordantShare()).isZero();
    }

    /** kitten → sitting takes three edits (the textbook example); Kendall by hand: of 4 common letters only e, i... */
    @Test
    void distancesFromAStandardOrder() {
        StandardDistance kitten = LabelOrder.distance(sequence("kiten"), letters("sitin"));
        // k→s, e→i: two edits of five; common letters i, t, n in the same order
        assertThat(kitten).isEqualTo(new StandardDistance(2, 0.4, 0, 3, List.of("s")));
        // DCBA against ABCD: every one of six pairs is the other way round
        StandardDistance reversed = LabelOrder.distance(sequence("DCBA"), letters("ABCD"));
        assertThat(reversed.discordantPairs()).isEqualTo(6);
        assertThat(reversed.discordantShare()).isEqualTo(1);
        assertThat(reversed.editDistance()).isEqualTo(4);
        // one exchange of neighbours: 1 of 6 pairs, two edits; E is not in the standard
        StandardDistance swapped = LabelOrder.distance(sequence("ACBDE"), letters("ABCD"));
        assertThat(swapped.discordantShare()).isCloseTo(1.0 / 6, within(1e-15));
        assertThat(swapped.editDistance()).isEqualTo(3);
        assertThat(swapped.normalised()).isEqualTo(0.6);
        assertThat(LabelOrder.distance(sequence("A"), letters("AB")))
                .isEqualTo(new StandardDistance(1, 0.5, 0, 0, List.of("B")));
        assertThat(LabelOrder.distance(sequence("A"), letters("AB")).discordantShare())
                .isNull();
        assertThatThrownBy(() -> LabelOrder.distance(sequence("A"), List.of()))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** Levenshtein's distances of textbooks: kitten–sitting 3, Saturday–Sunday 3. */
    @Test
    void editDistancesOfTextbooks() {
        assertThat(EditDistance.of(letters("kitten"), letters("sitting"))).isEqualTo(3);
        assertThat(EditDistance.of(letters("saturday"), letters("sunday"))).isEqualTo(3);
        assertThat(EditDistance.of(letters("abc"), List.of())).isEqualTo(3);
        assertThat(EditDistance.of(List.of(), letters("ab"))).isEqualTo(2);
        assertThat(EditDistance.of(letters("abc"), letters("abc"))).isZero();
    }

    private static SegmentSequence sequence(String letters) {
        List<Segment> segments = new ArrayList<>();
        for (int i = 0; i < letters.length(); i++) {
            segments.add(new Segment(letters.substring(i, i + 1), 10L * i, 10L * i + 10));
        }
        return new SegmentSequence(segments);
    }

    private static List<String> letters(String text) {
        return text.chars().mapToObj(Character::toString).toList();
    }

    private static List<SegmentSequence> operations() throws IOException {
        Map<String, List<Segment>> cases = new LinkedHashMap<>();
        try (var in = LabelOrderTest.class.getResourceAsStream("/org/sideport/timing/cataract1k-figure-segments.csv")) {
            new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .skip(1)
                    .forEach(line -> {
                        String[] cells = line.split(",", -1);
                        cases.computeIfAbsent(cells[0], c -> new ArrayList<>())
                                .add(new Segment(cells[2], units(cells[3]), units(cells[4])));
                    });
        }
        return cases.values().stream().map(SegmentSequence::of).toList();
    }

    private static long units(String percent) {
        return Math.round(Double.parseDouble(percent) * 10_000);
    }
}
