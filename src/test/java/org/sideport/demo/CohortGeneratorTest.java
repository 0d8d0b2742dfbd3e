package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

class CohortGeneratorTest {

    private final CohortGenerator generator = new CohortGenerator(CohortGenerator.DEMO_SEED);
    private final List<CohortCase> cases = generator.cases(EyeScripts.all());
    private final List<CohortCase> tagged =
            cases.stream().filter(c -> !c.recorded()).toList();

    @TempDir
    Path folder;

    @Test
    void theSameSeedGivesTheSameFilesAndAnotherSeedOthers() throws IOException {
        Path again = folder.resolve("again");
        Path other = folder.resolve("other");
        generator.write(folder.resolve("once"), EyeScripts.all(), FORM);
        new CohortGenerator(CohortGenerator.DEMO_SEED).write(again, EyeScripts.all(), FORM);
        new CohortGenerator(7).write(other, EyeScripts.all(), FORM);
        for (String name : List.of(
                "cohort-cases.csv",
                "cohort-phases.csv",
                "cohort-events.csv",
                "cohort-second-phases.csv",
                "cohort-ratings.csv")) {
            String once = Files.readString(folder.resolve("once").resolve(name));
            assertThat(again.resolve(name)).content().isEqualTo(once);
            assertThat(other.resolve(name)).content().isNotEqualTo(once);
        }
    }

    /**
     * P10 and P90 of surgeons of low experience, seconds, derived from the published annotation table of Cataract-101:
     * Schoeffmann et al. 2018, doi 10.1145/3204949.3208137.
     */
    @ParameterizedTest
    @CsvSource({
        "side_port;main_incision, 10.5, 64.5",
        "ovd_chamber;ovd_bag, 22.9, 67.3",
        "rhexis, 38.8, 107.2",
        "hydrodissection, 23.6, 74.3",
        "sculpting;division;fragment_removal, 150.2, 302.8",
        "cortex_aspiration, 52.1, 128.5",
        "capsule_polishing, 11.6, 46.5",
        "lens_insertion;lens_positioning, 23.8, 45.8",
        "ovd_removal, 57.0, 110.9",
        "hydration, 10.3, 93.4"
    })
    void firstCasesTakeAsLongAsBeginnersAreKnownToTake(String steps, double p10, double p90) {
        List<String> ids = List.of(steps.split(";"));
        double[] seconds = tagged.stream()
                .filter(c -> c.number() <= 5)
                .filter(c -> c.tagging().spans().stream()
                        .noneMatch(s -> ids.contains(s.phase()) && s.operator() == Operator.TRAINER))
                .mapToDouble(c -> seconds(c, ids))
                .sorted()
                .toArray();
        assertThat(seconds[seconds.length / 2]).isBetween(p10, p90);
        long inside = Arrays.stream(seconds).filter(s -> s >= p10 && s <= p90).count();
        // 80 % of the published cases lie inside; chance in so few cases may take some away
        assertThat(inside / (double) seconds.length).isGreaterThan(0.6);
    }

    private static double seconds(CohortCase aCase, List<String> steps) {
        return aCase.tagging().spans().stream()
                .filter(s -> steps.contains(s.phase()))
                .mapToDouble(s ->
                        Objects.requireNonNull(s.end()).seconds() - s.start().seconds())
                .sum();
    }

    @Test
    void onlyStepsAndEventsOfTheProcedureFileAreUsed() throws IOException {
        ProcedureIds ids = ProcedureIds.read();
        for (CohortCase aCase : tagged) {
            assertThat(aCase.tagging().spans()).extracting(PhaseSpan::phase).isSubsetOf(ids.steps());
            assertThat(aCase.tagging().events()).extracting(PointEvent::kind).isSubsetOf(ids.events());
        }
    }

    @Test
    void sixTraineesHaveTwentyCasesEachAndTheRecordedOnesAreAmongThem() {
        assertThat(cases).hasSize(120);
        assertThat(cases).extracting(CohortCase::code).doesNotHaveDuplicates().contains("D-001", "D-002", "D-003");
        assertThat(cases).extracting(c -> c.trainee().code()).containsOnly("T01", "T02", "T03", "T04", "T05", "T06");
    }

    @Test
    void twoOperationsAreComplicated() {
        assertThat(tagged).filteredOn(CohortCase::complicated).hasSize(2);
    }

    @Test
    void whatTheTrainerDidIsNotMarked() {
        List<List<Rating>> ratings = generator.ratings(cases, FORM);
        int excused = 0;
        for (int i = 0; i < cases.size(); i++) {
            boolean byTrainer = cases.get(i).tagging().spans().stream()
                    .filter(s -> s.phase().equals("division"))
                    .allMatch(s -> s.operator() == Operator.TRAINER);
            for (Rating rating : ratings.get(i)) {
                ItemScore score = rating.score("split").orElseThrow();
                boolean left = score instanceof ItemScore.Excused e && e.reason() == NotApplicable.DONE_BY_TRAINER;
                assertThat(left).isEqualTo(byTrainer);
                excused += left ? 1 : 0;
            }
        }
        assertThat(excused).isPositive();
    }

    @Test
    void theSevereAssessorMarksLowerThanTheLenientOneByAboutWhatWasPutIn() {
        RatingSimulator simulator = new RatingSimulator(FORM, 3);
        double severe = mean(simulator, "A1");
        double lenient = mean(simulator, "A3");
        // 0.7 of a level was put in; the ends of the scale swallow some of it, and a level is 3/4 of a unit
        assertThat(lenient - severe).isCloseTo(0.7 * 0.75, within(0.2));
    }

    private double mean(RatingSimulator simulator, String assessor) {
        return cases.stream()
                .flatMap(c -> simulator.rate(c, assessor).scores().stream())
                .map(ItemScore::pointsOrNull)
                .filter(Objects::nonNull)
                .mapToInt(Integer::intValue)
                .average()
                .orElseThrow();
    }

    /** A small form of our own: four levels, one item on a step, one on the whole operation. */
    private static final Rubric FORM = new Rubric(
            "small",
            "1.0.0",
            "Small form",
            "phaco",
            "made for this test",
            "",
            List.of(
                    new Rubric.Level(1, "a", ""),
                    new Rubric.Level(2, "b", ""),
                    new Rubric.Level(3, "c", ""),
                    new Rubric.Level(4, "d", "")),
            List.of(new Rubric.Domain("all", "All")),
            List.of(
                    item("split", "division", Set.of(NotApplicable.DONE_BY_TRAINER)),
                    item("care", null, Set.of(NotApplicable.NOT_VISIBLE))),
            null);

    private static Rubric.Item item(String id, @Nullable String phase, Set<NotApplicable> reasons) {
        return new Rubric.Item(id, "all", id, Rubric.Kind.LEVEL, phase, 1, null, reasons, "", List.of());
    }
}
