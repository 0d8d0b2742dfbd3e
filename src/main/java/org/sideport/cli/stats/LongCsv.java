package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.timing.CsvTable;

/** Observations from a CSV in long form: one a row, columns found by name. A row whose value is empty is left out. */
final class LongCsv {

    private LongCsv() {}

    /**
     * @param valueColumn the number of each row
     * @param required factor columns that must be there
     * @param optional factor columns taken where they are there
     * @throws InputException names the line and the column of what cannot be used
     */
    static LongData read(Path file, String valueColumn, List<String> required, List<String> optional) {
        CsvTable table = CsvTable.read(file);
        need(table, valueColumn);
        required.forEach(column -> need(table, column));
        List<String> columns = new ArrayList<>(required);
        optional.stream().filter(table::has).forEach(columns::add);
        List<CsvTable.Row> rows = table.rows().stream()
                .filter(row -> !row.text(valueColumn).isEmpty())
                .toList();
        if (rows.isEmpty()) {
            throw new InputException("no row has a " + valueColumn, file.toString(), "fill the column in");
        }
        double[] values =
                rows.stream().mapToDouble(row -> number(row, valueColumn)).toArray();
        List<Factor> factors = columns.stream()
                .map(column -> Factor.of(
                        column, rows.stream().map(row -> row.required(column)).toList()))
                .toList();
        return new LongData(factors, values);
    }

    /**
     * @throws InputException if the table has no such column
     */
    static void need(CsvTable table, String column) {
        if (!table.has(column)) {
            throw new InputException(
                    "there is no column " + column,
                    table.file() + ", line 1",
                    "the columns are " + String.join(", ", table.columns())
                            + "; rename one, or see --help for what this command reads");
        }
    }

    /**
     * A finite number with a decimal point or, where the file is separated by semicolons, a decimal comma.
     *
     * @throws InputException if the cell holds none
     */
    static double number(CsvTable.Row row, String column) {
        String text = row.required(column);
        @Nullable Double value = parse(text);
        if (value == null) {
            throw row.fault("the " + column + " is no number: " + text, "write for instance 3 or 2.5");
        }
        return value;
    }

    private static @Nullable Double parse(String text) {
        String plain = text.replace('−', '-');
        if (plain.indexOf(',') >= 0 && plain.indexOf('.') < 0) {
            plain = plain.replace(',', '.');
        }
        if (!plain.toLowerCase(Locale.ROOT).matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)(e[-+]?\\d+)?")) {
            return null;
        }
        double value = Double.parseDouble(plain);
        return Double.isFinite(value) ? (Double) value : null;
    }
}
