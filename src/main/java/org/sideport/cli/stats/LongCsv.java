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
        return of(ColumnNames.read(file), valueColumn, required, optional);
    }

    /** As {@link #read}, of a table that has been read. */
    static LongData of(CsvTable table, String valueColumn, List<String> required, List<String> optional) {
        Path file = table.file();
        List<String> wanted = new ArrayList<>(required);
        wanted.add(valueColumn);
        need(table, wanted);
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
        need(table, List.of(column));
    }

    /**
     * @throws InputException naming all columns that the table lacks
     */
    static void need(CsvTable table, List<String> wanted) {
        List<String> missing =
                wanted.stream().filter(column -> !table.has(column)).toList();
        if (missing.isEmpty()) {
            return;
        }
        throw new InputException(
                (missing.size() == 1 ? "there is no column " : "there are no columns ")
                        + String.join(
                                " and no ",
                                missing.stream().map(ColumnNames::withOthers).toList()),
                table.file() + ", line 1",
                "the columns are " + String.join(", ", table.columns())
                        + "; rename what holds it; each row is to hold one value (--help shows an example)");
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
