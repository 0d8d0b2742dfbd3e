package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.timing.CsvTable;

/**
 * One person's cases from {@code subject,case_number,value}; the column subject may be missing.
 *
 * @param subject {@code null} if there is no such column
 * @param withoutValue rows left out for want of a value
 */
@SuppressWarnings("ArrayRecordComponent")
record CurveCsv(@Nullable String subject, double[] caseNumber, double[] value, int withoutValue, boolean repeated) {

    private static final String SUBJECT = "subject";

    /**
     * @param wanted the subject; {@code null} if the file holds one only
     * @throws InputException for what cannot be read, and for several subjects of whom none was named
     */
    static CurveCsv read(Path file, @Nullable String wanted) {
        CsvTable table = ColumnNames.read(file);
        LongCsv.need(table, "case_number");
        LongCsv.need(table, "value");
        if (wanted != null) {
            LongCsv.need(table, SUBJECT);
        }
        @Nullable String subject = table.has(SUBJECT) ? subject(table, file, wanted) : null;
        List<CsvTable.Row> own = table.rows().stream()
                .filter(row -> subject == null || row.text(SUBJECT).equals(subject))
                .toList();
        List<CsvTable.Row> rows =
                own.stream().filter(row -> !row.text("value").isEmpty()).toList();
        if (rows.isEmpty()) {
            throw new InputException("no row has a value", file.toString(), "fill the column in");
        }
        double[] caseNumber = rows.stream()
                .mapToDouble(row -> LongCsv.number(row, "case_number"))
                .toArray();
        double[] value =
                rows.stream().mapToDouble(row -> LongCsv.number(row, "value")).toArray();
        boolean repeated = Arrays.stream(caseNumber).distinct().count() < caseNumber.length;
        return new CurveCsv(subject, caseNumber, value, own.size() - rows.size(), repeated);
    }

    private static String subject(CsvTable table, Path file, @Nullable String wanted) {
        List<String> codes = table.rows().stream()
                .map(row -> row.required(SUBJECT))
                .distinct()
                .sorted()
                .toList();
        if (wanted == null && codes.size() > 1) {
            throw new InputException(
                    "there are " + codes.size() + " subjects: " + String.join(", ", codes),
                    file.toString(),
                    "name one with --subject, or see the command mixed for all at once");
        }
        if (wanted != null && !codes.contains(wanted)) {
            throw new InputException(
                    "there is no subject " + wanted, "--subject", "the codes are " + String.join(", ", codes));
        }
        return wanted != null ? wanted : codes.isEmpty() ? "" : codes.get(0);
    }
}
