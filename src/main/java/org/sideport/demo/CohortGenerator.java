package org.sideport.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;

/**
 * Invents a department's year: six trainees, three assessors, about twenty cases each, with timings, events and marks.
 * The same seed gives the same files.
 */
public final class CohortGenerator {

    /** The seed of the demo that is shipped. */
    public static final long DEMO_SEED = 20_250_113L;

    private static final int CASES_EACH = 20;
    private static final LocalDate FIRST_DAY = LocalDate.of(2025, 1, 13);
    private static final List<String> ASSESSORS = List.of("A1", "A2", "A3");

    /** Which case of which trainee each recording is, by the recording's code. */
    private static final Map<String, Slot> RECORDED =
            Map.of("D-003", new Slot("T01", 3), "D-001", new Slot("T02", 8), "D-002", new Slot("T04", 15));

    /** The cases in which the posterior capsule tears: two of 120, near the rate published for trainees. */
    private static final Map<Slot, CohortStep> TORN =
            Map.of(new Slot("T03", 6), CohortStep.FRAGMENT_REMOVAL, new Slot("T05", 13), CohortStep.CORTEX_ASPIRATION);

    private final long seed;

    private record Slot(String trainee, int number) {}

    public CohortGenerator(long seed) {
        this.seed = seed;
    }

    /** Cases in order of trainee and date; those that are recorded take their truth from the scripts. */
    List<CohortCase> cases(List<EyeScript> scripts) {
        List<CohortCase> cases = new ArrayList<>();
        for (int t = 0; t < CohortTrainee.ALL.size(); t++) {
            CohortTrainee trainee = CohortTrainee.ALL.get(t);
            double day = 0;
            for (int number = 1; number <= CASES_EACH; number++) {
                Random random = Seeds.random(seed, "case " + trainee.code() + " " + number);
                day += 7 / trainee.weeklyCases() * (0.5 + random.nextDouble());
                cases.add(aCase(random, trainee, 100 * (t + 1), number, workday(day), scripts));
            }
        }
        return cases;
    }

    private static LocalDate workday(double day) {
        LocalDate date = FIRST_DAY.plusDays((long) day);
        int late = date.getDayOfWeek().getValue() - 5;
        return late > 0 ? date.minusDays(late) : date;
    }

    private static CohortCase aCase(
            Random random, CohortTrainee trainee, int block, int number, LocalDate date, List<EyeScript> scripts) {
        Slot slot = new Slot(trainee.code(), number);
        EyeScript script = scripts.stream()
                .filter(s -> slot.equals(RECORDED.get(s.code())))
                .findFirst()
                .orElse(null);
        // beginners are given softer nuclei
        double grade = Math.max(1, Math.min(4, 2.1 + number / 60.0 + 0.7 * random.nextGaussian()));
        double halfGrade = Math.round(grade * 2) / 2.0;
        double pupil = random.nextDouble();
        String size = pupil < 0.7 || script != null ? "large" : pupil < 0.93 ? "medium" : "small";
        String eye = random.nextBoolean() ? "right" : "left";
        String anaesthesia = random.nextDouble() < 0.55 ? "sub-tenon" : "topical";
        String assessor = ASSESSORS.get(random.nextInt(ASSESSORS.size()));
        Tagging tagging = script != null
                ? script.truth()
                : new OperationSimulator(random, trainee, number, halfGrade, TORN.get(slot)).play();
        String code = script != null ? script.code() : String.format(Locale.ROOT, "D-%03d", block + number);
        return new CohortCase(
                code, trainee, number, date, halfGrade, size, eye, anaesthesia, assessor, tagging, script != null);
    }

    /**
     * Writes {@code cohort-cases.csv}, {@code cohort-phases.csv}, {@code cohort-events.csv},
     * {@code cohort-second-phases.csv} and, given a rubric, {@code cohort-ratings.csv}.
     */
    public void write(Path folder, List<EyeScript> scripts, @Nullable Rubric rubric) throws IOException {
        Files.createDirectories(folder);
        List<CohortCase> cases = cases(scripts);
        CohortFiles files = new CohortFiles(folder);
        files.cases(cases);
        files.taggings(cases.stream().filter(c -> !c.recorded()).toList());
        secondLooks(cases, files);
        if (rubric != null) {
            files.ratings(cases, ratings(cases, rubric));
        }
    }

    /** About one case in eight is tagged twice, so that agreement can be seen. */
    private void secondLooks(List<CohortCase> cases, CohortFiles files) throws IOException {
        List<CohortCase> chosen = new ArrayList<>();
        List<String> annotators = new ArrayList<>();
        List<Tagging> looks = new ArrayList<>();
        for (CohortCase aCase : cases) {
            Random random = Seeds.random(seed, "second look " + aCase.code());
            if (!aCase.recorded() && random.nextInt(8) == 0) {
                chosen.add(aCase);
                annotators.add(other(aCase));
                looks.add(SecondLook.of(aCase.tagging(), random));
            }
        }
        files.secondLooks(chosen, annotators, looks);
    }

    private static String other(CohortCase aCase) {
        return ASSESSORS.stream()
                .filter(a -> !a.equals(aCase.assessor()))
                .min(Comparator.comparing(a -> (a + aCase.code()).hashCode()))
                .orElseThrow();
    }

    /** Ratings of each case, in the order of {@code cases}: one assessor, sometimes a second, sometimes the trainee. */
    List<List<Rating>> ratings(List<CohortCase> cases, Rubric rubric) {
        RatingSimulator simulator = new RatingSimulator(rubric, seed);
        List<List<Rating>> all = new ArrayList<>();
        for (CohortCase aCase : cases) {
            Random random = Seeds.random(seed, "raters " + aCase.code());
            List<String> raters = new ArrayList<>();
            raters.add(aCase.assessor());
            if (random.nextDouble() < 0.22 || aCase.recorded()) {
                raters.add(other(aCase));
            }
            if (random.nextDouble() < 0.3 || aCase.recorded()) {
                raters.add(aCase.trainee().code());
            }
            all.add(raters.stream().map(rater -> simulator.rate(aCase, rater)).toList());
        }
        return all;
    }
}
