package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.sideport.app.cases.CasesTrial;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/** How soon the list of 100 000 made-up cases is on the screen, and how long a key in its search takes. Needs a screen. */
final class CasesBench {

    static final int CASES = 100_000;

    private static final int TRAINEES = 40;
    private static final String RUBRIC = "bench";

    private final Console console;

    CasesBench(Console console) {
        this.console = console;
    }

    int run() {
        CasesTrial.Result measured = measure();
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name",
                    "cases",
                    "cases",
                    CASES,
                    "cases_first_paint_ms",
                    measured.firstPaintMs(),
                    "cases_all_read_ms",
                    measured.allReadMs(),
                    "filter_keystrokes",
                    measured.keystrokesMs().size(),
                    "filter_keystroke_ms_median",
                    measured.keystrokeMedianMs(),
                    "filter_keystroke_cpu_ms_median",
                    measured.keystrokeCpuMedianMs(),
                    "filter_keystroke_ms_max",
                    measured.keystrokeMaxMs()));
        } else {
            console.say(String.format(
                    Locale.ROOT,
                    "%d cases: first rows %.0f ms after the window, all after %.0f ms; a key in the search takes %.1f ms"
                            + " (median of %d; %.1f ms of work), %.1f ms at most",
                    CASES,
                    measured.firstPaintMs(),
                    measured.allReadMs(),
                    measured.keystrokeMedianMs(),
                    measured.keystrokesMs().size(),
                    measured.keystrokeCpuMedianMs(),
                    measured.keystrokeMaxMs()));
        }
        return 0;
    }

    /** Makes the cases in a folder of its own, measures and removes it. */
    CasesTrial.Result measure() {
        try {
            Path folder = Files.createTempDirectory("sideport-bench-cases");
            try {
                console.note("making " + CASES + " cases …");
                fill(folder, CASES);
                return CasesTrial.run(folder, CASES);
            } finally {
                Scratch.delete(folder);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the cases to measure with cannot be made: " + e.getMessage(),
                    System.getProperty("java.io.tmpdir"),
                    "make room there",
                    e);
        }
    }

    /** Nine of ten cases with a recording, half of them tagged, one of five marked. */
    static void fill(Path folder, int cases) {
        try (Workspace workspace = Workspace.create(folder)) {
            workspace.change(stores -> {
                stores.ratings().keepRubric(RUBRIC, "1.0.0", "{}");
                Random random = new Random(7);
                for (int i = 1; i <= cases; i++) {
                    add(stores, random, i);
                }
            });
        }
    }

    private static void add(Stores stores, Random random, int number) {
        String code = String.format(Locale.ROOT, "C-%05d", number);
        String trainee = String.format(Locale.ROOT, "T%02d", 1 + random.nextInt(TRAINEES));
        Recording recording = number % 10 == 0
                ? null
                : new Recording(List.of(segment(code, 300_000_000L + 1_000_000L * random.nextInt(1500))));
        stores.cases()
                .add(new SurgicalCase(
                        code,
                        trainee,
                        LocalDate.of(2026, 11, 1).minusDays(random.nextInt(3650)),
                        "phaco",
                        Map.of(
                                "eye", random.nextBoolean() ? "right" : "left",
                                "anaesthesia", random.nextBoolean() ? "topical" : "block",
                                "nuclear_grade", String.valueOf(random.nextInt(5)),
                                "pupil", random.nextInt(5) == 0 ? "small" : "large"),
                        recording));
        if (random.nextBoolean()) {
            PhaseSpan span = new PhaseSpan("rhexis", MediaTime.ofSeconds(60), MediaTime.ofSeconds(90), null);
            stores.taggings()
                    .save(
                            code,
                            "A" + (1 + random.nextInt(6)),
                            new Tagging(TaggingStyle.START_AND_END, List.of(span), List.of()));
        }
        if (random.nextInt(5) == 0) {
            Rating rating = new Rating(
                    RUBRIC,
                    "1.0.0",
                    "A" + (1 + random.nextInt(6)),
                    false,
                    false,
                    List.of(new ItemScore.Marked("rhexis", 4, "")),
                    "");
            long id = stores.ratings().addDraft(code, rating, null, null);
            if (random.nextBoolean()) {
                stores.ratings().sign(id, Instant.EPOCH);
            }
        }
    }

    private static Segment segment(String code, long durationUs) {
        return new Segment(
                Path.of("recordings", code + ".mp4").toAbsolutePath(),
                "ab".repeat(32),
                1_000_000L,
                durationUs,
                durationUs / 40_000,
                0,
                25,
                1,
                false,
                "h264",
                1920,
                1080,
                "1:1",
                0,
                false,
                false,
                List.of());
    }
}
