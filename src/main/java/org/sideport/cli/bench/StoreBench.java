package org.sideport.cli.bench;

import java.io.IOException;
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

/** How quick a store with very many cases is, on SQLite and, where one is named, on an empty PostgreSQL database. */
final class StoreBench {

    private static final int SAVES = 20;

    private final Console console;
    private final StoreOptions options;

    StoreBench(Console console, StoreOptions options) {
        this.console = console;
        this.options = options;
    }

    int run() {
        StoreTrial.Result sqlite = null;
        StoreTrial.Result postgresql = null;
        Path folder = null;
        try {
            folder = Files.createTempDirectory("sideport-bench-store");
            if (options.sqliteCases > 0) {
                sqlite = trial(options.sqliteCases).sqlite(folder.resolve("sqlite"));
                say("SQLite", sqlite);
            }
            String database = options.database;
            if (database != null) {
                postgresql = trial(options.cases)
                        .postgresql(folder.resolve("postgresql"), database, DatabaseLogin.of(System.getenv()));
                say("PostgreSQL", postgresql);
            }
        } catch (IOException e) {
            throw new InputException("no folder can be made: " + e.getMessage(), null, "make room", e);
        } finally {
            delete(folder);
        }
        if (console.isJson()) {
            console.printJson(Json.object("name", "store", "postgresql", json(postgresql), "sqlite", json(sqlite)));
        }
        return 0;
    }

    private StoreTrial trial(long cases) {
        if (options.assessors < 1 || cases < 4L * options.assessors || options.pauseMs < 0) {
            throw new InputException(
                    cases + " cases for " + options.assessors + " assessors",
                    null,
                    "name at least one assessor, four times as many cases, and a pause of 0 ms or more");
        }
        return new StoreTrial(cases, options.assessors, SAVES, options.pauseMs, console::note);
    }

    private void say(String engine, StoreTrial.Result result) {
        if (!console.isJson()) {
            Double ratio = result.rlsRatio();
            console.say(String.format(
                    Locale.ROOT,
                    "%s, %d cases: cohort %.0f ms%s, trainee %.0f ms; %d saves by %d assessors: half within %.0f ms, 99"
                            + " of 100 within %.0f ms, %d lost",
                    engine,
                    result.cases(),
                    result.cohortMs(),
                    ratio == null
                            ? ""
                            : String.format(Locale.ROOT, " (%.2f times that without row-level security)", ratio),
                    result.traineeMs(),
                    result.saves(),
                    options.assessors,
                    result.saveP50Ms(),
                    result.saveP99Ms(),
                    result.lost()));
        }
    }

    private static @Nullable Map<String, @Nullable Object> json(StoreTrial.@Nullable Result result) {
        if (result == null) {
            return null;
        }
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("cases", result.cases());
        json.put("cohort_ms", result.cohortMs());
        json.put("trainee_ms", result.traineeMs());
        json.put("rls_ratio", result.rlsRatio());
        json.put("save_p50_ms", result.saveP50Ms());
        json.put("save_p99_ms", result.saveP99Ms());
        json.put("saves", result.saves());
        json.put("lost", result.lost());
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
