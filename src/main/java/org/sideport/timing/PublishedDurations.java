package org.sideport.timing;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Durations of phases that were published, for orientation. Each group carries its source and what is to be kept in mind;
 * a face that shows a figure shows these too.
 *
 * @param note what holds for all of them
 */
public record PublishedDurations(String note, List<Group> groups) {

    /**
     * @param n operations
     * @param procedure id of the procedure whose phases and steps the rows name
     */
    public record Group(
            String id, String title, String source, String caveat, int n, String procedure, List<Row> rows) {
        public Group {
            rows = List.copyOf(rows);
        }

        public Optional<Row> row(String phase) {
            return rows.stream().filter(r -> r.phase().equals(phase)).findFirst();
        }
    }

    /**
     * @param phase id of a phase or step
     * @param spread {@code null} if only the mean was published
     */
    public record Row(
            String phase, double meanSeconds, @Nullable Spread spread) {}

    /** Quantiles in seconds, in order. */
    public record Spread(double p10, double q1, double median, double q3, double p90) {

        public Spread {
            if (!(p10 <= q1 && q1 <= median && median <= q3 && q3 <= p90)) {
                throw new IllegalArgumentException("quantiles out of order");
            }
        }

        /** Between which of the published percentiles a time lies. */
        public Place placeOf(double seconds) {
            double[] at = {p10, q1, median, q3, p90};
            int i = 0;
            while (i < at.length && seconds > at[i]) {
                i++;
            }
            return new Place(i == 0 ? null : (Integer) PERCENTS[i - 1], i == at.length ? null : (Integer) PERCENTS[i]);
        }

        private static final int[] PERCENTS = {10, 25, 50, 75, 90};
    }

    /**
     * @param above the time is longer than this percentile; {@code null} if it is not longer than the lowest one
     * @param notAbove the time is not longer than this percentile; {@code null} if it is longer than the highest one
     */
    public record Place(@Nullable Integer above, @Nullable Integer notAbove) {}

    private static final String FILE = "published-durations.json";

    public PublishedDurations {
        groups = List.copyOf(groups);
    }

    /** Those that come with the program. */
    public static PublishedDurations shipped() {
        try (InputStream in = Objects.requireNonNull(PublishedDurations.class.getResourceAsStream(FILE), FILE)) {
            JsonNode root = JsonMapper.builder().build().readTree(in);
            List<Group> groups = new ArrayList<>();
            root.path("groups").forEach(g -> groups.add(group(g)));
            return new PublishedDurations(root.path("note").asString(), groups);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Group group(JsonNode group) {
        List<Row> rows = new ArrayList<>();
        group.path("rows").forEach(r -> rows.add(row(r)));
        return new Group(
                group.path("id").asString(),
                group.path("title").asString(),
                group.path("source").asString(),
                group.path("caveat").asString(),
                group.path("n").asInt(),
                group.path("procedure").asString(),
                rows);
    }

    private static Row row(JsonNode row) {
        @Nullable
        Spread spread = row.has("median_s")
                ? new Spread(
                        row.path("p10_s").asDouble(),
                        row.path("q1_s").asDouble(),
                        row.path("median_s").asDouble(),
                        row.path("q3_s").asDouble(),
                        row.path("p90_s").asDouble())
                : null;
        return new Row(row.path("phase").asString(), row.path("mean_s").asDouble(), spread);
    }
}
