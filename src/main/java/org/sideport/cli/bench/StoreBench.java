package org.sideport.cli.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.store.DatabaseLogin;
import org.sideport.store.StoreTrial;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;

/** How quick a store with very many cases is, on SQLite and, where one is named, on an empty PostgreSQL database. */
final class StoreBench {

    /** Twenty items, as wanted of the measure. */
    private static final String RUBRIC = "phaco-competency";

    private static final int FULL_SECONDS = 10;

    private final Console console;
    private final StoreOptions options;

    StoreBench(Console console, StoreOptions options) {
        this.console = console;
        this.options = options;
    }

    /** @param load how busy the machine was when it began: programs that want to run, in the mean of a minute; -1 unknown */
    private record Measured(StoreTrial.Result views, SaveLoad.Figures saves, double load) {}

    int run() {
        Measured[] sqlite = new Measured[1];
        Measured[] postgresql = new Measured[1];
        Path folder = null;
        try {
            folder = Files.createTempDirectory("sideport-bench-store");
            Vocabularies.RubricText rubric = rubric(folder.resolve("rubric"));
            if (options.sqliteCases > 0) {
                trial(options.sqliteCases, rubric)
                        .sqlite(folder.resolve("sqlite"), (desks, views) -> sqlite[0] = measured(desks, views, rubric));
                say("SQLite", sqlite[0]);
            }
            String database = options.database;
            if (database != null) {
                trial(options.cases, rubric)
                        .postgresql(
                                folder.resolve("postgresql"),
                                database,
                                DatabaseLogin.of(System.getenv()),
                                (desks, views) -> postgresql[0] = measured(desks, views, rubric));
                say("PostgreSQL", postgresql[0]);
            }
        } catch (IOException e) {
            throw new InputException("no folder can be made: " + e.getMessage(), null, "make room", e);
        } finally {
            delete(folder);
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "name",
                    "store",
                    "processors",
                    Runtime.getRuntime().availableProcessors(),
                    "assessors",
                    options.assessors,
                    "stroke_ms",
                    options.strokeMs,
                    "postgresql",
                    json(postgresql[0]),
                    "sqlite",
                    json(sqlite[0])));
        }
        return 0;
    }

    private static Vocabularies.RubricText rubric(Path folder) {
        try (Workspace workspace = Workspace.create(folder)) {
            return new Vocabularies(workspace).rubric(RUBRIC);
        }
    }

    private StoreTrial trial(long cases, Vocabularies.RubricText rubric) {
        if (options.assessors < 1 || cases < 4L * options.assessors || options.strokeMs < 1 || options.strokes < 1) {
            throw new InputException(
                    cases + " cases for " + options.assessors + " assessors, " + options.strokes + " strokes every "
                            + options.strokeMs + " ms",
                    null,
                    "name at least one assessor, four times as many cases, one stroke and 1 ms");
        }
        return new StoreTrial(cases, options.assessors, rubric.rubric(), rubric.json(), console::note);
    }

    private Measured measured(
            java.util.List<StoreTrial.Desk> desks, StoreTrial.Result views, Vocabularies.RubricText rubric) {
        double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
        console.note(options.assessors + " assessors mark, a stroke each " + options.strokeMs
                + " ms in the mean; then for " + FULL_SECONDS + " s without a pause …");
        SaveLoad.Figures saves =
                new SaveLoad(desks, rubric.rubric(), options.strokes, options.strokeMs).run(FULL_SECONDS);
        return new Measured(views, saves, load);
    }

    private void say(String engine, @Nullable Measured measured) {
        if (console.isJson() || measured == null) {
            return;
        }
        StoreTrial.Result views = measured.views();
        SaveLoad.Figures saves = measured.saves();
        Double ratio = views.rlsRatio();
        console.say(String.format(
                Locale.ROOT,
                "%s, %d cases: cohort %.0f ms%s, trainee %.0f ms",
                engine,
                views.cases(),
                views.cohortMs(),
                ratio == null ? "" : String.format(Locale.ROOT, " (%.2f times that without row-level security)", ratio),
                views.traineeMs()));
        console.say(String.format(
                Locale.ROOT,
                "  %d assessors, each marking once in %d ms in the mean (%d saves): from stroke to saved half within"
                        + " %.0f ms, 99 of 100 within %.0f ms (of the first strokes of each, not counted, within %.0f"
                        + " ms); without a pause %.0f saves a second, 99 of 100 within %.0f"
                        + " ms; %d lost; load of the machine before: %.1f on %d processors",
                options.assessors,
                options.strokeMs,
                saves.saves(),
                saves.p50Ms(),
                saves.p99Ms(),
                saves.beginP99Ms(),
                saves.perSecond(),
                saves.fullP99Ms(),
                saves.lost(),
                measured.load(),
                Runtime.getRuntime().availableProcessors()));
    }

    private static @Nullable Map<String, @Nullable Object> json(@Nullable Measured measured) {
        if (measured == null) {
            return null;
        }
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("cases", measured.views().cases());
        json.put("cohort_ms", measured.views().cohortMs());
        json.put("trainee_ms", measured.views().traineeMs());
        json.put("rls_ratio", measured.views().rlsRatio());
        json.put("save_p50_ms", measured.saves().p50Ms());
        json.put("save_p99_ms", measured.saves().p99Ms());
        json.put("save_begin_p99_ms", measured.saves().beginP99Ms());
        json.put("saves", measured.saves().saves());
        json.put("full_saves_per_s", measured.saves().perSecond());
        json.put("full_save_p99_ms", measured.saves().fullP99Ms());
        json.put("lost", measured.saves().lost());
        json.put("load_before", measured.load() < 0 ? null : (Double) measured.load());
        return json;
    }

    private static void delete(@Nullable Path folder) {
        if (folder == null) {
            return;
        }
        try {
            Scratch.delete(folder);
        } catch (IOException e) {
            // a temporary folder: the system's own tidying takes it
            org.slf4j.LoggerFactory.getLogger(StoreBench.class).info("not deleted: {}", e.toString());
        }
    }
}
