package org.sideport.cli.bench;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** What {@code bench store} is told. */
final class StoreOptions {

    @Nullable
    @Option(
            names = "--database",
            paramLabel = "URL",
            description =
                    "With store: an empty PostgreSQL database to measure too (login PGUSER, PGPASSWORD, which must be"
                            + " allowed to make logins); what is made in it is deleted.")
    String database;

    @Option(
            names = "--cases",
            paramLabel = "N",
            defaultValue = "20000",
            description = "With store: cases on PostgreSQL; 1000000 for the full measure. Default: ${DEFAULT-VALUE}.")
    long cases;

    @Option(
            names = "--sqlite-cases",
            paramLabel = "N",
            defaultValue = "5000",
            description =
                    "With store: cases on SQLite, 0 for none; 100000 for the full measure. Default: ${DEFAULT-VALUE}.")
    long sqliteCases;

    @Option(
            names = "--assessors",
            paramLabel = "N",
            defaultValue = "50",
            description = "With store: how many save drafts at once. Default: ${DEFAULT-VALUE}.")
    int assessors;

    @Option(
            names = "--strokes",
            paramLabel = "N",
            defaultValue = "30",
            description =
                    "With store: how many strokes each assessor makes at the own pace. Default: ${DEFAULT-VALUE}.")
    int strokes;

    @Option(
            names = "--stroke-ms",
            paramLabel = "N",
            defaultValue = "1000",
            description =
                    "With store: how long between two strokes of an assessor in the mean, each gap between half and"
                            + " one and a half of it. Default: ${DEFAULT-VALUE}.")
    int strokeMs;
}
