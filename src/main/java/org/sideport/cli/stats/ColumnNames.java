package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.timing.CsvTable;

/** Other names under which columns are known as well, where the usual one is missing. */
final class ColumnNames {

    private static final Map<String, List<String>> ALSO = Map.of(
            "subject", List.of("trainee", "person", "trainee_code", "subject_code"),
            "rater", List.of("assessor", "judge", "marker", "examiner"),
            "score", List.of("total", "mark", "points", "total_score"),
            "case", List.of("operation", "case_code", "procedure"),
            "item", List.of("criterion"),
            "case_number", List.of("case_no", "case_nr", "case_num", "number", "no", "nr"),
            "failure", List.of("event", "complication"),
            "value", List.of("duration", "seconds", "duration_s", "minutes"));

    private ColumnNames() {}

    /**
     * A table with the usual names.
     *
     * @throws org.sideport.model.InputException if it cannot be read
     */
    static CsvTable read(Path file) {
        CsvTable table = CsvTable.read(file);
        Map<String, String> renamed = new LinkedHashMap<>();
        ALSO.forEach((usual, others) -> {
            if (!table.has(usual)) {
                others.stream().filter(table::has).findFirst().ifPresent(other -> renamed.put(other, usual));
            }
        });
        if (renamed.isEmpty()) {
            return table;
        }
        return new CsvTable(
                table.file(),
                table.columns().stream().map(c -> renamed.getOrDefault(c, c)).toList(),
                table.rows().stream()
                        .map(row -> {
                            Map<String, String> cells = new LinkedHashMap<>();
                            row.cells().forEach((c, text) -> cells.put(renamed.getOrDefault(c, c), text));
                            return new CsvTable.Row(row.file(), row.line(), cells);
                        })
                        .toList());
    }

    /** {@code subject (or trainee, person …)} for messages. */
    static String withOthers(String usual) {
        List<String> others = ALSO.getOrDefault(usual, List.of());
        return others.isEmpty() ? usual : usual + " (or " + String.join(", ", others) + ")";
    }
}
