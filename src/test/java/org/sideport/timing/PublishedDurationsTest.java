package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.sideport.rubric.ProcedureReader;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.timing.PublishedDurations.Group;
import org.sideport.timing.PublishedDurations.Place;
import org.sideport.timing.PublishedDurations.Spread;

/** Figures worked out from the annotation table of Cataract-101 (Schoeffmann et al. 2018, doi 10.1145/3204949.3208137). */
class PublishedDurationsTest {

    private final PublishedDurations shipped = PublishedDurations.shipped();

    private Group group(String id) {
        return shipped.groups().stream()
                .filter(g -> g.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theRhexisOfLittleExperienceIsAsPublished() {
        Group little = group("published_little_experience");
        var row = little.row("rhexis").orElseThrow();

        assertThat(little.n()).isEqualTo(45);
        assertThat(row.meanSeconds()).isEqualTo(72.7);
        assertThat(row.spread()).isEqualTo(new Spread(38.8, 43.9, 65.1, 85.9, 107.2));
    }

    @Test
    void aTimeLiesBetweenTheTwoPercentilesAroundIt() {
        Spread rhexis = Objects.requireNonNull(
                group("published_little_experience").row("rhexis").orElseThrow().spread());

        // 38.8, 43.9, 65.1, 85.9, 107.2
        assertThat(rhexis.placeOf(30)).isEqualTo(new Place(null, 10));
        assertThat(rhexis.placeOf(38.8)).isEqualTo(new Place(null, 10));
        assertThat(rhexis.placeOf(50)).isEqualTo(new Place(25, 50));
        assertThat(rhexis.placeOf(65.1)).isEqualTo(new Place(25, 50));
        assertThat(rhexis.placeOf(200)).isEqualTo(new Place(90, null));
    }

    @Test
    void whereOnlyMeansWerePublishedNoPercentilesAreMadeUp() {
        // 1735 s of capsulorhexis over 56 operations: 30.98
        var row = group("published_very_experienced").row("rhexis").orElseThrow();
        assertThat(row.spread()).isNull();
        assertThat(row.meanSeconds()).isEqualTo(31.0);
    }

    @Test
    void everyGroupNamesItsSourceAndItsRowsBelongToTheShippedProcedure() {
        var phaco = ProcedureReader.read(ShippedRubrics.text("phaco-procedure.json"), "phaco-procedure.json");
        assertThat(shipped.note()).contains("never a norm");
        for (Group group : shipped.groups()) {
            assertThat(group.source()).contains("doi 10.");
            assertThat(group.caveat()).isNotBlank();
            assertThat(group.rows()).allMatch(r -> phaco.find(r.phase()).isPresent());
        }
    }
}
