package org.sideport.report.workbook;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.Date;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.apache.commons.compress.archivers.zip.Zip64Mode;
import org.apache.poi.ooxml.POIXMLProperties;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.AtomicFile;
import org.sideport.report.workbook.Notes.Setting;

/**
 * Writes the competency workbook (Office Open XML, {@code .xlsx}): the sheet "Read me", one plain table with one header row
 * and no merged cells for each of {@link WorkbookTables}, and charts.
 */
public final class CompetencyWorkbook {

    /** Rows in memory: item rows of a large department run to a million cells, so they are streamed to the disk. */
    private static final int WINDOW = 200;

    /** The fraction done when all rows are made and the file is put together. */
    private static final double WRITING = 0.8;

    private final WorkbookData data;
    private final WorkbookOptions options;
    private final Headings headings;
    private final WorkbookTables tables;

    private CompetencyWorkbook(WorkbookData data, WorkbookOptions options) {
        this.data = data;
        this.options = options;
        this.headings = new Headings(options.language());
        this.tables = WorkbookTables.of(data, options, headings);
    }

    /** As {@link #write(WorkbookData, WorkbookOptions, Path, Progress)}, for the unit itself and in English. */
    public static void write(WorkbookData data, Path out, Progress progress) {
        write(data, WorkbookOptions.USUAL, out, progress);
    }

    /**
     * Writes the file whole or not at all: whatever stood at {@code out} stays until the new file is complete.
     *
     * @param out ends in {@code .xlsx}; its folder must exist
     * @throws InputException if the file cannot be written there, a rating does not fit its rubric, or there are more
     *     rows than a sheet holds (1,048,575)
     * @throws CancellationException if it was cancelled
     */
    public static void write(WorkbookData data, WorkbookOptions options, Path out, Progress progress) {
        requireName(out);
        CompetencyWorkbook workbook = new CompetencyWorkbook(data, options);
        AtomicFile.write(out, stream -> workbook.write(progress, stream));
        progress.report(1, "done");
    }

    /** @throws InputException if the name of a workbook does not end as it should */
    public static void requireName(Path out) {
        if (!out.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
            throw new InputException("a workbook's name ends in .xlsx", out.toString(), "add .xlsx to the name");
        }
    }

    private void write(Progress progress, OutputStream stream) throws IOException {
        try (SXSSFWorkbook book = new SXSSFWorkbook(WINDOW)) {
            try {
                fill(book, progress);
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

    private void fill(SXSSFWorkbook book, Progress progress) {
        // entries of the large form, the library's habit, are not read by all programs; no sheet comes near 4 GB
        book.setZip64Mode(Zip64Mode.AsNeeded);
        describe(book);
        Styles styles = new Styles(book);
        PrintSetUp print = new PrintSetUp(
                "Sideport " + data.programVersion() + ", " + data.created().toLocalDate(),
                options.shared() ? "Shared view: counts below " + options.maskBelow() + " are masked" : "");
        TableSheet sheets = new TableSheet(book, styles, new Cells(options), headings, print);
        print.apply(ReadMeSheet.write(book, styles, data, options, tables.rubrics(), tables.all()), 1);
        double all =
                tables.all().stream().mapToDouble(t -> t.rows().size() + 1.0).sum();
        double done = 0;
        for (Table<?> table : tables.all()) {
            progress.check();
            double share = (table.rows().size() + 1.0) / all;
            Sheet sheet = sheets.write(table, progress.part(WRITING * done, WRITING * (done + share)));
            done += share;
            if (table.name().equals("Settings")) {
                settings(sheet, table);
            }
            if (table.name().equals(tables.competencies().name()) && !options.shared()) {
                print.apply(book.createSheet(ChartSheet.NAME), 1);
            }
        }
        if (!options.shared()) {
            ChartSheet.draw(
                    book.getXSSFWorkbook().getSheet(ChartSheet.NAME),
                    data.figures(),
                    tables.competencies(),
                    tables.curves());
        }
    }

    /** Each value has its own name and limits. */
    private static void settings(Sheet sheet, Table<?> table) {
        List<?> rows = table.rows();
        for (int r = 0; r < rows.size(); r++) {
            if (rows.get(r) instanceof Setting setting) {
                CellRangeAddress cell = new CellRangeAddress(r + 1, r + 1, 1, 1);
                SheetHelps.name(sheet, setting.name(), cell);
                SheetHelps.validate(sheet, cell, setting.input());
            }
        }
    }

    private void describe(SXSSFWorkbook book) {
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
