package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.Rubric.Kind;

/**
 * The shipped forms against the published figures that each says it follows. What a form does in its own way (its scale,
 * its bands) is held against what its file says, and named so here.
 */
class PublishedStructureTest {

    private static Rubric shipped(String id) {
        return RubricReader.read(ShippedRubrics.text(id + ".json"), id);
    }

    private static Score score(Rubric rubric, List<ItemScore> scores) {
        return Scorer.score(rubric, new Rating(rubric.id(), rubric.version(), "A1", false, false, scores, ""));
    }

    private static ItemScore most(Rubric rubric, Rubric.Item item) {
        int most = rubric.maximumOf(item);
        Double value = item.kind().isNumber()
                ? item.bands().stream()
                        .filter(b -> b.points() == most)
                        .map(Rubric.Band::from)
                        .findFirst()
                        .orElseThrow()
                : null;
        return new ItemScore.Marked(item.id(), most, value, "", List.of());
    }

    /**
     * Number of items:
     *
     * <ul>
     *   <li>phaco-competency and msics-competency: 20, each on 4 described levels (Golnik et al. 2013, Trans Am
     *       Ophthalmol Soc 111:24-33; four levels read in the form's published scale values). The published scale is 2 to
     *       5, so that 20 items make 100; these forms have a scale of their own from 1 to 4, so that 20 make 80.
     *   <li>phaco-global: 7 of 5 levels, 35 in all (Martin et al. 1997, Br J Surg 84:273; from memory).
     *   <li>capsulorhexis: 6 judged items and an adverse event of 0 or 1 (arXiv 2510.16371); its scale of 0 to 3, its
     *       3 counts and 2 measures, with most points 3, 3, 2, 2 and 2, are its own: 18 + 1 + 12 = 31.
     *   <li>phaco-errors: 10 steps, errors of execution and of procedure apart (Gauba et al. 2008, doi
     *       10.1001/archophthalmol.2007.47); points by bands are its own.
     *   <li>teaching-case: 14 checks of 1 point; common practice, no source.
     * </ul>
     */
    @ParameterizedTest
    @CsvSource({
        "phaco-competency, 20, 4, 20, 0, 0, 0, 80",
        "msics-competency, 20, 4, 20, 0, 0, 0, 80",
        "phaco-global, 7, 5, 7, 0, 0, 0, 35",
        "capsulorhexis, 12, 4, 6, 1, 3, 2, 31",
        "phaco-errors, 20, 0, 0, 0, 20, 0, 60",
        "teaching-case, 14, 0, 0, 14, 0, 0, 14",
    })
    void itemsLevelsAndGreatestSum(
            String id, int items, int levels, int judged, int checks, int counts, int measures, int maximum) {
        Rubric rubric = shipped(id);
        assertThat(rubric.items()).hasSize(items);
        assertThat(rubric.levels()).hasSize(levels);
        assertThat(ofKind(rubric, Kind.LEVEL)).isEqualTo(judged);
        assertThat(ofKind(rubric, Kind.CHECK)).isEqualTo(checks);
        assertThat(ofKind(rubric, Kind.COUNT)).isEqualTo(counts);
        assertThat(ofKind(rubric, Kind.MEASURED)).isEqualTo(measures);
        Score full =
                score(rubric, rubric.items().stream().map(i -> most(rubric, i)).toList());
        assertThat(full.maximum()).isEqualTo(maximum);
        assertThat(full.points()).isEqualTo(maximum);
        assertThat(full.share()).isEqualTo(1.0);
    }

    private static long ofKind(Rubric rubric, Kind kind) {
        return rubric.items().stream().filter(i -> i.kind() == kind).count();
    }

    /**
     * The rule for items that do not apply: what the trainer did or the recording does not show leaves both sum and
     * maximum (the published form has a column of its own for it; it must not count as zero). With all
     * weights 1 the share is sum ÷ (most points × applicable items).
     */
    @ParameterizedTest
    @CsvSource({"phaco-competency", "msics-competency", "phaco-global", "capsulorhexis", "phaco-errors"})
    void anItemThatIsLeftOutLeavesSumAndMaximum(String id) {
        Rubric rubric = shipped(id);
        List<ItemScore> scores = new ArrayList<>();
        int left = 0;
        int rest = 0;
        for (Rubric.Item item : rubric.items()) {
            boolean leave = left < 3 && !item.notApplicable().isEmpty();
            NotApplicable reason = item.notApplicable().contains(NotApplicable.DONE_BY_TRAINER)
                    ? NotApplicable.DONE_BY_TRAINER
                    : NotApplicable.NOT_VISIBLE;
            if (leave) {
                scores.add(new ItemScore.Excused(item.id(), reason, "", List.of()));
                left++;
            } else {
                scores.add(most(rubric, item));
                rest += rubric.maximumOf(item);
            }
        }
        Score score = score(rubric, scores);
        assertThat(score.excusedCount()).isEqualTo(3);
        assertThat(score.maximum()).isEqualTo(rest);
        assertThat(score.points()).isEqualTo(rest);
        assertThat(score.share()).isEqualTo(1.0);
        assertThat(score.complete()).isTrue();
    }

    /** A step that the trainer did is a reason of its own for each step of the two step-wise forms, and for none of the six
     * general aspects: the whole operation is never done by the trainer in a trainee's case (form's own guidance). */
    @ParameterizedTest
    @CsvSource({"phaco-competency", "msics-competency"})
    void stepsCanBeDoneByTheTrainerAndGeneralAspectsCannot(String id) {
        for (Rubric.Item item : shipped(id).items()) {
            assertThat(item.notApplicable().contains(NotApplicable.DONE_BY_TRAINER))
                    .as(item.id())
                    .isEqualTo(item.phase() != null);
            // some items cannot be seen on a microscope's recording (common practice, no source)
            assertThat(item.notApplicable()).as(item.id()).contains(NotApplicable.NOT_VISIBLE);
        }
    }

    /** Only judged and counted items may be critical; a measured one can never fail a rating alone. */
    @Test
    void noMeasuredItemIsCritical() {
        for (String name : ShippedRubrics.RUBRICS) {
            assertThat(RubricReader.read(ShippedRubrics.text(name), name).items())
                    .filteredOn(i -> i.kind() == Kind.MEASURED)
                    .allMatch(i -> i.criticalMinimum() == null);
        }
    }

    /** Each source line names what the structure was taken from. */
    @Test
    void everySourceNamesWhatItFollows() {
        Map<String, String> named = Map.of(
                "phaco-competency", "Trans Am Ophthalmol Soc 111:24-33",
                "msics-competency", "Trans Am Ophthalmol Soc 111:24-33",
                "phaco-global", "Br J Surg 84:273",
                "capsulorhexis", "arXiv 2510.16371",
                "phaco-errors", "10.1001/archophthalmol.2007.47",
                "teaching-case", "common practice, no source");
        assertThat(named.keySet())
                .isEqualTo(ShippedRubrics.RUBRICS.stream()
                        .map(name -> name.replace(".json", ""))
                        .collect(Collectors.toSet()));
        named.forEach((id, source) -> assertThat(shipped(id).source()).contains(source));
    }

    /** A weight was published for none of them. */
    @Test
    void allWeightsAreOne() {
        for (String name : ShippedRubrics.RUBRICS) {
            assertThat(RubricReader.read(ShippedRubrics.text(name), name).items())
                    .allMatch(i -> i.weight() == 1);
        }
    }
}
