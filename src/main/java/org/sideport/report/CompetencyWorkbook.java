package org.sideport.report;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Date;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.apache.poi.ooxml.POIXMLProperties;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * Writes the competency workbook (Office Open XML, {@code .xlsx}): sheets "Read me", "Cohort", "Cases", "Assessments",
 * "Ratings", "Phases", "Events", "Timing", "Case times" and "Timing summary". Each of them but the first is one plain
 * table with one header row and no merged cells.
 */
public final class CompetencyWorkbook {

    /** Rows in memory: item rows of a large department run to a million cells, so they are streamed to the disk. */
    private static final int WINDOW = 200;

    /** The fraction done when all rows are made and the file is put together. */
    private static final double WRITING = 0.8;

    private CompetencyWorkbook() {}

    /**
     * Writes the file whole or not at all: whatever stood at {@code out} stays until the new file is complete.
     *
     * @param out ends in {@code .xlsx}; its folder must exist
     * @throws InputException if the file cannot be written there, a rating does not fit its rubric, or there are more
     *     rows than a sheet holds (1,048,575)
     * @throws CancellationException if it was cancelled
     */
    public static void write(WorkbookData data, Path out, Progress progress) {
        if (!out.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
            throw new InputException("a workbook's name ends in .xlsx", out.toString(), "add .xlsx to the name");
        }
        Lookup lookup = new Lookup(data);
        Assessments assessments = new Assessments(data, lookup);
        TaggingTables tagging = new TaggingTables(data, lookup);
        TimingTables timing = new TimingTables(data, lookup);
        List<Table<?>> tables = List.of(
                new Cohort(data, lookup, assessments).table(),
                CaseTable.of(data, lookup, assessments),
                assessments.assessments(),
                assessments.items(),
                tagging.phases(),
                tagging.events(),
                timing.phases(),
                timing.cases(),
                timing.summary());
        AtomicFile.write(out, stream -> write(data, assessments, tables, progress, stream));
        progress.report(1, "done");
    }

    private static void write(
            WorkbookData data, Assessments assessments, List<Table<?>> tables, Progress progress, OutputStream stream)
            throws IOException {
        try (SXSSFWorkbook book = new SXSSFWorkbook(WINDOW)) {
            try {
                fill(book, data, assessments, tables, progress);
            } finally {
                // Closing with rows still held, as after a cancellation, makes the library warn of closed streams.
                for (Sheet sheet : book) {
                    ((SXSSFSheet) sheet).flushRows();
                }
            }
            progress.report(WRITING, "writing the file");
            book.write(cancellable(stream, progress));
            progress.check();
        }
    }

    private static void fill(
            SXSSFWorkbook book, WorkbookData data, Assessments assessments, List<Table<?>> tables, Progress progress) {
        book.setCompressTempFiles(true);
        describe(book, data);
        Styles styles = new Styles(book);
        String foot =
                "Sideport " + data.programVersion() + ", " + data.created().toLocalDate();
        TableSheet sheets = new TableSheet(book, styles, foot);
        sheets.print(ReadMeSheet.write(book, styles, data, assessments.rubrics(), tables), 1);
        double all = tables.stream().mapToDouble(t -> t.rows().size() + 1.0).sum();
        double done = 0;
        for (Table<?> table : tables) {
            progress.check();
            double share = (table.rows().size() + 1.0) / all;
            sheets.write(table, progress.part(WRITING * done, WRITING * (done + share)));
            done += share;
        }
    }

    private static void describe(SXSSFWorkbook book, WorkbookData data) {
        POIXMLProperties properties = book.getXSSFWorkbook().getProperties();
        POIXMLProperties.CoreProperties core = properties.getCoreProperties();
        core.setTitle("Competency workbook");
        // Otherwise the library's own name, or the user's, would stand there.
        core.setCreator("Sideport " + data.programVersion());
        core.setCreated(Optional.of(Date.from(data.created().toInstant())));
        properties.getExtendedProperties().setApplication("Sideport");
    }

    private static OutputStream cancellable(OutputStream out, Progress progress) {
        return new FilterOutputStream(out) {
            @Override
            public void write(byte[] bytes, int from, int length) throws IOException {
                // An exception out of the library's own writing would leave it warning of half-closed sheets.
                if (!progress.isCancelled()) {
                    out.write(bytes, from, length);
                }
            }
        };
    }
}
