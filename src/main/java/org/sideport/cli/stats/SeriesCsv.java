package org.sideport.cli.stats;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.ValueSeries;
import org.sideport.timing.CsvTable;

/**
 * A log of cases from a CSV: one case a row, its place in the order from the column case_number, or from the column date
 * with ties in the order of the rows.
 */
final class SeriesCsv {

    private static final String NUMBER = "case_number";
    private static final String DATE = "date";
    private static final String SUBJECT = "subject";

    private final List<CsvTable.Row> rows;
    private final long[] numbers;
    private final List<String> warnings;
    private final CsvTable table;

    private SeriesCsv(CsvTable table, List<CsvTable.Row> rows, long[] numbers, List<String> warnings) {
        this.table = table;
        this.rows = rows;
        this.numbers = numbers;
        this.warnings = warnings;
    }

    /**
     * @throws InputException for a file without an order, or with the cases of several people and no word on whose
     */
    static SeriesCsv read(Path file, SeriesOptions options) {
        CsvTable table = ColumnNames.read(file);
        List<CsvTable.Row> rows = ofSubject(table, options.subject);
        List<String> warnings = new ArrayList<>();
        long[] numbers;
        if (table.has(NUMBER)) {
            numbers = rows.stream().mapToLong(SeriesCsv::caseNumber).toArray();
            if (table.has(DATE)) {
                compare(rows, numbers, warnings);
            }
        } else if (table.has(DATE)) {
            rows.forEach(SeriesCsv::date); // so that the first bad one in the file is named
            rows = rows.stream().sorted(Comparator.comparing(SeriesCsv::date)).toList();
            numbers = new long[rows.size()];
            for (int i = 0; i < numbers.length; i++) {
                numbers[i] = i + 1L;
            }
            warnings.add(
                    "the cases have dates but no case_number (or case_no): they are numbered here by date, ties in the"
                            + " order of the rows, and whether one is missing cannot be seen");
        } else {
            throw new InputException(
                    "there is no column case_number and none called date",
                    file + ", line 1",
                    "the columns are " + String.join(", ", table.columns())
                            + "; number the cases 1, 2, 3 … in the order of operation");
        }
        return new SeriesCsv(table, rows, numbers, warnings).upTo(options.upTo);
    }

    private static List<CsvTable.Row> ofSubject(CsvTable table, @Nullable String subject) {
        if (subject != null) {
            LongCsv.need(table, SUBJECT);
            List<CsvTable.Row> found = table.rows().stream()
                    .filter(row -> row.text(SUBJECT).equals(subject))
                    .toList();
            if (found.isEmpty()) {
                throw new InputException(
                        "there is no case of " + subject, table.file().toString(), "check the code after --subject");
            }
            return found;
        }
        List<String> subjects =
                table.rows().stream().map(row -> row.text(SUBJECT)).distinct().toList();
        if (subjects.size() > 1) {
            throw new InputException(
                    "there are cases of " + subjects.size() + " people: "
                            + String.join(", ", subjects.subList(0, Math.min(5, subjects.size()))),
                    table.file().toString(),
                    "say whose cases are to be charted: --subject " + subjects.get(0));
        }
        return table.rows();
    }

    private static long caseNumber(CsvTable.Row row) {
        String text = row.required(NUMBER);
        if (!text.matches("\\d{1,9}")) {
            throw row.fault("the case_number is no whole number: " + text, "number the cases 1, 2, 3 …");
        }
        return Long.parseLong(text);
    }

    private static LocalDate date(CsvTable.Row row) {
        String text = row.required(DATE);
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw row.fault("this is no date: " + text, "write it as year-month-day, for instance 2026-03-09");
        }
    }

    private static void compare(List<CsvTable.Row> rows, long[] numbers, List<String> warnings) {
        List<Integer> order = java.util.stream.IntStream.range(0, numbers.length)
                .boxed()
                .sorted(Comparator.comparingLong(i -> numbers[i]))
                .toList();
        for (int i = 1; i < order.size(); i++) {
            CsvTable.Row before = rows.get(order.get(i - 1));
            CsvTable.Row after = rows.get(order.get(i));
            if (date(after).isBefore(date(before))) {
                warnings.add("case " + numbers[order.get(i)] + " is dated before case " + numbers[order.get(i - 1)]
                        + "; the case numbers were taken as the order");
                return;
            }
        }
    }

    private SeriesCsv upTo(@Nullable Long last) {
        if (last == null) {
            return this;
        }
        List<Integer> kept = java.util.stream.IntStream.range(0, numbers.length)
                .filter(i -> numbers[i] <= last)
                .boxed()
                .toList();
        List<String> more = new ArrayList<>(warnings);
        int left = numbers.length - kept.size();
        if (left > 0) {
            more.add(left + " cases after case " + last
                    + " are not charted; where to stop must not depend on their outcome");
        }
        return new SeriesCsv(
                table,
                kept.stream().map(rows::get).toList(),
                kept.stream().mapToLong(i -> numbers[i]).toArray(),
                more);
    }

    /**
     * @param risk column, {@code null} for none
     */
    Outcome<BinarySeries> outcomes(String failure, @Nullable String risk) {
        if (!table.has(failure)) {
            throw new InputException(
                    "there is no column " + ColumnNames.withOthers(failure),
                    table.file() + ", line 1",
                    "the columns are " + String.join(", ", table.columns())
                            + "; name the one that holds 1 for a failure and 0 for none by --failure COLUMN");
        }
        List<@Nullable Boolean> failures = new ArrayList<>();
        rows.forEach(row -> failures.add(outcome(row, failure)));
        List<@Nullable Double> risks = null;
        if (risk != null) {
            LongCsv.need(table, risk);
            List<@Nullable Double> found = new ArrayList<>();
            rows.forEach(row -> found.add(row.text(risk).isEmpty() ? null : (Double) LongCsv.number(row, risk)));
            risks = found;
        }
        return BinarySeries.of(numbers, failures, risks)
                .map(series ->
                        new BinarySeries(series.first(), series.failures(), series.risks(), with(series.warnings())));
    }

    /**
     * @param logarithm whether to take the natural logarithm of each value
     */
    Outcome<ValueSeries> values(String column, boolean logarithm) {
        LongCsv.need(table, column);
        List<@Nullable Double> values = new ArrayList<>();
        for (CsvTable.Row row : rows) {
            if (row.text(column).isEmpty()) {
                values.add(null);
                continue;
            }
            double value = LongCsv.number(row, column);
            if (logarithm && value <= 0) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the " + column + " " + value + " (" + row.place() + ") has no logarithm",
                        "chart without --log, or look whether the value is right");
            }
            values.add(logarithm ? Math.log(value) : value);
        }
        return ValueSeries.of(numbers, values)
                .map(series -> new ValueSeries(series.first(), series.values(), with(series.warnings())));
    }

    boolean has(String column) {
        return table.has(column);
    }

    private List<String> with(List<String> more) {
        List<String> all = new ArrayList<>(warnings);
        all.addAll(more);
        return all;
    }

    private static @Nullable Boolean outcome(CsvTable.Row row, String column) {
        String text = row.text(column).toLowerCase(Locale.ROOT);
        return switch (text) {
            case "1", "yes", "true" -> Boolean.TRUE;
            case "0", "no", "false" -> Boolean.FALSE;
            case "", "?", "unknown", "na" -> null;
            default ->
                throw row.fault(
                        "the " + column + " is neither 1 nor 0: " + text,
                        "write 1 for a failure, 0 for none, and leave the cell empty where it is unknown");
        };
    }
}
