package org.sideport.stats.rasch;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.sideport.stats.data.Factor;

/** Marks for tests. */
final class RaschData {

    private final List<String> trainees = new ArrayList<>();
    private final List<String> assessors = new ArrayList<>();
    private final List<String> items = new ArrayList<>();
    private final List<Integer> levels = new ArrayList<>();

    RaschData add(String trainee, String assessor, String item, int level) {
        trainees.add(trainee);
        assessors.add(assessor);
        items.add(item);
        levels.add(level);
        return this;
    }

    Markings marks() {
        return new Markings(
                Factor.of("trainee", trainees),
                Factor.of("assessor", assessors),
                Factor.of("item", items),
                levels.stream().mapToInt(Integer::intValue).toArray());
    }

    /** Rows of a file of this package's resources, comments and the header left out. */
    static List<String[]> rows(String file) throws IOException {
        List<String[]> rows = new ArrayList<>();
        try (BufferedReader in = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(RaschData.class.getResourceAsStream(file)), StandardCharsets.UTF_8))) {
            String line = in.readLine();
            boolean header = true;
            while (line != null) {
                if (!line.startsWith("#")) {
                    if (!header) {
                        rows.add(line.split(",", -1));
                    }
                    header = false;
                }
                line = in.readLine();
            }
        }
        return rows;
    }

    /** Levels moved and stretched: {@code base + unit * level}. */
    static Markings read(String file, int base, int unit) throws IOException {
        RaschData data = new RaschData();
        for (String[] row : rows(file)) {
            data.add(row[0], row[1], row[2], base + unit * Integer.parseInt(row[3]));
        }
        return data.marks();
    }

    static Markings read(String file) throws IOException {
        return read(file, 0, 1);
    }

    static Measure find(List<Measure> measures, String label) {
        return measures.stream()
                .filter(m -> m.label().equals(label))
                .findFirst()
                .orElseThrow();
    }
}
