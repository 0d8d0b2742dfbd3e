package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.MediaTime;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.PublishedDurations;
import org.sideport.workflow.ReferenceTimes.Reference;
import org.sideport.workflow.ReferenceTimes.Standing;
import org.sideport.workflow.ReferenceTimes.Usual;

/** Times by hand, in seconds. The case looked at, C-01, is T03's of 9 March 2026. */
class ReferenceTimesTest {

    private static final Clock NOON = Clock.fixed(Instant.parse("2026-05-04T12:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 300);
        tags("C-01", "A1", "side_port,10,20", "rhexis,30,75");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void tags(String code, String annotator, String... spans) {
        String[] lines = new String[spans.length + 1];
        lines[0] = "case,annotator,phase,start,end,operator";
        for (int i = 0; i < spans.length; i++) {
            lines[i + 1] = code + "," + annotator + "," + spans[i] + ",";
        }
        new TagExchange(workspace).importCsv(Unit.csv(temp, lines), null, false);
    }

    private void rhexis(String code, String trainee, LocalDate date, int seconds) {
        workspace.change(s -> s.cases().add(new SurgicalCase(code, trainee, date, "phaco", Map.of(), null)));
        tags(code, "A1", "rhexis,10," + (10 + seconds));
    }

    private Reference reference(String id) {
        return new ReferenceTimes(workspace)
                .of("C-01", null).stream()
                        .filter(r -> r.id().equals(id))
                        .findFirst()
                        .orElseThrow();
    }

    @Test
    void earlierCasesOfTheSameTraineeGiveQuartilesAndAPlaceAmongThem() {
        int[] seconds = {20, 60, 30, 50, 40};
        for (int i = 0; i < seconds.length; i++) {
            rhexis("P-" + i, "T03", LocalDate.of(2026, 2, 1 + i), seconds[i]);
        }
        rhexis("Q-1", "T04", LocalDate.of(2026, 2, 1), 500); // somebody else's
        rhexis("P-9", "T03", LocalDate.of(2026, 4, 1), 600); // later

        Reference earlier = reference("EARLIER");

        // 20 30 40 50 60: positions 2, 3 and 4 by type 7 (Hyndman & Fan 1996)
        assertThat(earlier.usual("rhexis")).isEqualTo(new Usual(30_000_000, 40_000_000, 50_000_000, true, 5));
        // with their steps added up under the phase
        assertThat(earlier.usual("capsulotomy")).isEqualTo(earlier.usual("rhexis"));
        assertThat(earlier.usual("side_port")).isNull();
        // 45 s are longer than 20, 30 and 40
        Standing standing = Objects.requireNonNull(earlier.standing("rhexis", 45_000_000));
        assertThat(standing.n()).isEqualTo(5);
        assertThat(standing.shorter()).isEqualTo(3);
        assertThat(Objects.requireNonNull(standing.share()).value()).isEqualTo(0.6);
        assertThat(standing.place()).isNull();
    }

    @Test
    void ofFewTheRangeIsToldAndNoQuartiles() {
        rhexis("E-1", "T09", LocalDate.of(2026, 1, 1), 40);
        rhexis("E-2", "T09", LocalDate.of(2026, 1, 2), 60);
        Exemplars exemplars = new Exemplars(workspace, NOON);
        exemplars.name("E-1", "A1", "one", "", "A1", false);
        exemplars.name("E-2", "A1", "two", "", "A1", false);
        exemplars.name("C-01", "A1", "the case itself is no reference for itself", "", "A1", false);

        assertThat(reference("EXEMPLARS").n()).isEqualTo(2);
        assertThat(reference("EXEMPLARS").usual("rhexis"))
                .isEqualTo(new Usual(40_000_000, 50_000_000, 60_000_000, false, 2));
    }

    @Test
    void publishedFiguresStandBetweenTheirPercentiles() {
        Reference little = reference("published_little_experience");

        // rhexis, Cataract-101 (doi 10.1145/3204949.3208137): quartiles 43.9, 65.1, 85.9 s
        assertThat(little.usual("rhexis")).isEqualTo(new Usual(43_900_000, 65_100_000, 85_900_000, true, 45));
        assertThat(Objects.requireNonNull(little.standing("rhexis", 45_000_000)).place())
                .isEqualTo(new PublishedDurations.Place(25, 50));
        // only a mean was published: no band, no place
        assertThat(reference("published_very_experienced").usual("rhexis")).isNull();
    }

    @Test
    void aTimeWithACutInItIsNoReference() {
        rhexis("P-1", "T03", LocalDate.of(2026, 2, 1), 40);
        new RecordingCuts(workspace).add("C-01", MediaTime.ofSeconds(60), "paused", "A1");
        Unit.addCase(workspace, "C-00", 300);
        tags("C-00", "A1", "rhexis,30,75");
        new RecordingCuts(workspace).add("C-00", MediaTime.ofSeconds(60), "paused", "A1");

        assertThat(Objects.requireNonNull(reference("EARLIER").usual("rhexis")).n())
                .as("C-00 is earlier too, but a cut lies in its rhexis")
                .isEqualTo(1);
    }

    @Test
    void withoutCasesThereAreThePublishedOnes() {
        List<Reference> all = new ReferenceTimes(workspace).of("C-01", null);

        assertThat(all).allMatch(r -> r instanceof ReferenceTimes.Published).hasSize(3);
    }
}
