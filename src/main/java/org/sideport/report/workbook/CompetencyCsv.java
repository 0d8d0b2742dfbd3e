package org.sideport.report.workbook;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.AtomicFile;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.timing.CsvText;

/**
 * The tables of the workbook as CSV files (RFC 4180, UTF-8), one each, for programs that read tables: headers are the
 * columns' codes, shares 0 to 1, times seconds, dates ISO 8601, unknown is empty. What a spreadsheet program could take
 * for a formula gets an apostrophe, see {@link CsvText}.
 */
public final class CompetencyCsv {

    private static final CSVFormat FORMAT =
            CSVFormat.RFC4180.builder().setRecordSeparator("\n").get();

    private CompetencyCsv() {}

    /**
     * Each file is written whole or not at all; all are made before the first takes its place.
     *
     * @param folder is made if it is missing
     * @return the files
     * @throws InputException if they cannot be written there
     * @throws java.util.concurrent.CancellationException if it was cancelled; nothing has changed then
     */
    public static List<Path> write(WorkbookData data, WorkbookOptions options, Path folder, Progress progress) {
        WorkbookTables tables = WorkbookTables.of(data, options, new Headings(options.language()));
        Cells cells = new Cells(options);
        List<Path> files = new ArrayList<>();
        Path made = null;
        try {
            Files.createDirectories(folder);
            made = Files.createTempDirectory(folder, ".csv");
            for (Table<?> table : tables.all()) {
                progress.check();
                progress.report((double) files.size() / tables.all().size(), table.name());
                try (Writer out = Files.newBufferedWriter(made.resolve(table.code() + ".csv"))) {
                    print(table, cells, out, progress);
                }
                files.add(folder.resolve(table.code() + ".csv"));
            }
            progress.check();
            for (Path file : files) {
                Path from = made.resolve(file.getFileName());
                AtomicFile.write(file, out -> Files.copy(from, out));
            }
        } catch (IOException e) {
            throw new InputException(
                    "the CSV files cannot be written: " + e.getMessage(),
                    folder.toString(),
                    "check your rights in the folder and the room on the disk, or choose another place",
                    e);
        } finally {
            remove(made);
        }
        return files;
    }

    private static <R> void print(Table<R> table, Cells cells, Writer out, Progress progress) throws IOException {
        CSVPrinter printer = new CSVPrinter(out, FORMAT);
        printer.printRecord(table.columns().stream().map(Column::code).toList());
        int number = 0;
        for (R row : table.rows()) {
            if (number++ % 256 == 0) {
                progress.check();
            }
            for (Column<R> column : table.columns()) {
                printer.print(text(column.kind(), cells.value(column, row)));
            }
            printer.println();
        }
        printer.flush();
    }

    private static @Nullable Object text(Kind kind, @Nullable Object value) {
        if (value instanceof Boolean truth) {
            return truth ? "yes" : "no";
        }
        if (value instanceof OffsetDateTime time) {
            return time.withOffsetSameInstant(ZoneOffset.UTC).toLocalDateTime();
        }
        if (value instanceof Number number && kind == Kind.CLOCK) {
            return number.doubleValue() / 1e6;
        }
        return value instanceof String text ? CsvText.guard(text) : value;
    }

    private static void remove(@Nullable Path folder) {
        if (folder == null) {
            return;
        }
        try (java.util.stream.Stream<Path> files = Files.list(folder)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
            Files.delete(folder);
        } catch (IOException e) {
            org.slf4j.LoggerFactory.getLogger(CompetencyCsv.class).info("not deleted: {}", e.toString());
        }
    }
}
