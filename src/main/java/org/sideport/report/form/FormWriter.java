package org.sideport.report.form;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.DataValidationConstraint;
import org.apache.poi.ss.usermodel.DataValidationConstraint.OperatorType;
import org.apache.poi.ss.usermodel.DataValidationHelper;
import org.apache.poi.ss.usermodel.PageMargin;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.SheetVisibility;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.ss.util.CellRangeAddressList;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.report.AtomicFile;

/** Writes a rubric as a workbook to be filled in offline: one row an item, its levels' descriptions beside each other. */
public final class FormWriter {

    private static final int ITEM_WIDTH = 30;
    private static final int ALL_LEVELS_WIDTH = 104;
    private static final int COMMENT_WIDTH = 34;
    private static final int REASON_WIDTH = 17;
    private static final int CHARACTER = 256;
    private static final double MARGIN_INCHES = 0.4;
    private static final double LINE_POINTS = 12.6;

    private final FormHead head;
    private final Rubric rubric;
    private final FormWords words;
    private final FormColumns columns;
    private final XSSFSheet sheet;
    private final FormStyles styles;
    private int next;

    private FormWriter(XSSFWorkbook book, FormHead head, Rubric rubric) {
        this.head = head;
        this.rubric = rubric.in(head.language());
        this.words = new FormWords(head.language());
        this.columns = FormColumns.of(rubric);
        this.sheet = book.createSheet(words.get("sheet"));
        this.styles = new FormStyles(book);
    }

    /**
     * @param out ends in {@code .xlsx}
     * @throws InputException if the file cannot be written; one that was there stays as it was
     */
    public static void write(FormHead head, Rubric rubric, Path out) {
        if (!out.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
            throw new InputException("a form's name ends in .xlsx", out.toString(), "add .xlsx to the name");
        }
        AtomicFile.write(out, stream -> write(head, rubric, stream));
    }

    private static void write(FormHead head, Rubric rubric, OutputStream out) throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook()) {
            FormWriter writer = new FormWriter(book, head, rubric);
            writer.fill();
            writer.hidden(book);
            book.getProperties().getCoreProperties().setCreator("Sideport");
            book.getProperties().getCoreProperties().setTitle(writer.rubric.title());
            book.lockStructure();
            book.write(out);
        }
    }

    private void fill() {
        prose(rubric.title(), styles.title);
        prose(
                words.get("head", head.caseCode(), head.assessor(), rubric.id(), rubric.version())
                        + (head.self() ? ". " + words.get("self") : ""),
                styles.prose);
        prose(words.get("how"), styles.prose);
        prose(words.get("caution"), styles.prose);
        next++;
        int header = header();
        int number = 1;
        for (Rubric.Domain domain : rubric.domains()) {
            List<Rubric.Item> items = rubric.items().stream()
                    .filter(i -> i.domain().equals(domain.id()))
                    .toList();
            if (!items.isEmpty()) {
                band(domain.title());
            }
            for (Rubric.Item item : items) {
                item(number++, item);
            }
        }
        end();
        look(header);
    }

    private void prose(String text, CellStyle style) {
        Row row = sheet.createRow(next);
        cell(row, FormColumns.NUMBER, text, style);
        sheet.addMergedRegion(new CellRangeAddress(next, next, FormColumns.NUMBER, columns.comment()));
        double lines = Math.ceil(text.length() / 170.0);
        row.setHeightInPoints((float) (style.equals(styles.title) ? 22 : lines * LINE_POINTS + 3));
        next++;
    }

    private int header() {
        Row row = sheet.createRow(next);
        cell(row, FormColumns.NUMBER, "", styles.header);
        cell(row, FormColumns.ITEM, words.get("item"), styles.header);
        for (int i = 0; i < columns.levels(); i++) {
            Rubric.Level level = i < rubric.levels().size() ? rubric.levels().get(i) : null;
            cell(
                    row,
                    FormColumns.FIRST_LEVEL + i,
                    level == null ? "" : level.points() + "  " + level.label(),
                    styles.header);
        }
        cell(row, columns.mark(), words.get("mark"), styles.header);
        cell(row, columns.reason(), words.get("why"), styles.header);
        cell(row, columns.comment(), words.get("comment"), styles.header);
        row.setHeightInPoints((float) (2 * LINE_POINTS + 4));
        return next++;
    }

    private void band(String text) {
        Row row = sheet.createRow(next);
        for (int i = FormColumns.NUMBER; i <= columns.comment(); i++) {
            cell(row, i, "", styles.domain);
        }
        cell(row, FormColumns.NUMBER, text, styles.domain);
        sheet.addMergedRegion(new CellRangeAddress(next, next, FormColumns.NUMBER, columns.comment()));
        row.setHeightInPoints(18);
        next++;
    }

    private void item(int number, Rubric.Item item) {
        Row row = sheet.createRow(next);
        cell(row, FormColumns.ID, item.id(), styles.item);
        row.createCell(FormColumns.NUMBER).setCellValue(number);
        row.getCell(FormColumns.NUMBER).setCellStyle(styles.number);
        String about = item.guidance().isEmpty() ? item.title() : item.title() + "\n" + item.guidance();
        cell(row, FormColumns.ITEM, about, styles.item);
        double lines = lines(about, ITEM_WIDTH);
        if (item.kind() == Rubric.Kind.LEVEL) {
            for (int i = 0; i < rubric.levels().size(); i++) {
                int points = rubric.levels().get(i).points();
                String text = item.anchors().stream()
                        .filter(a -> a.points() == points)
                        .map(Rubric.Anchor::text)
                        .findFirst()
                        .orElse(rubric.levels().get(i).meaning());
                cell(row, FormColumns.FIRST_LEVEL + i, text, styles.anchor);
                lines = Math.max(lines, lines(text, ALL_LEVELS_WIDTH / columns.levels()));
            }
        } else {
            String text = scale(item);
            for (int i = 0; i < columns.levels(); i++) {
                cell(row, FormColumns.FIRST_LEVEL + i, i == 0 ? text : "", styles.anchor);
            }
            if (columns.levels() > 1) {
                sheet.addMergedRegion(new CellRangeAddress(next, next, FormColumns.FIRST_LEVEL, columns.mark() - 1));
            }
            lines = Math.max(lines, lines(text, ALL_LEVELS_WIDTH));
        }
        cell(row, columns.mark(), null, styles.markInput);
        cell(row, columns.comment(), null, styles.textInput);
        markRule(item);
        reasons(row, item);
        row.setHeightInPoints((float) (Math.max(2, lines) * LINE_POINTS + 4));
        next++;
    }

    private String scale(Rubric.Item item) {
        if (item.kind() == Rubric.Kind.CHECK) {
            return words.get("check");
        }
        StringBuilder text = new StringBuilder();
        for (Rubric.Band band : item.bands()) {
            String key = item.kind() == Rubric.Kind.COUNT ? "count" : "measured";
            text.append(text.length() == 0 ? "" : "\n")
                    .append(words.get(key, band.from(), band.points(), item.unit()))
                    .append(band.text().isEmpty() ? "" : " (" + band.text() + ")");
        }
        return text.toString();
    }

    /** Rough, and rather too many: a cut description would be worse than an empty line. */
    private static double lines(String text, int characters) {
        double lines = 0;
        for (String line : text.split("\n", -1)) {
            lines += Math.max(1, Math.ceil(line.length() * 1.08 / characters));
        }
        return lines;
    }

    private void markRule(Rubric.Item item) {
        DataValidationHelper helper = sheet.getDataValidationHelper();
        DataValidationConstraint rule;
        String told = words.get("list.text");
        if (item.kind().isNumber()) {
            double from = item.bands().get(0).from();
            told = words.get("number.text", from);
            rule = item.kind() == Rubric.Kind.COUNT
                    ? helper.createIntegerConstraint(
                            OperatorType.GREATER_OR_EQUAL, String.valueOf((long) Math.ceil(from)), null)
                    : helper.createDecimalConstraint(OperatorType.GREATER_OR_EQUAL, String.valueOf(from), null);
        } else {
            rule = helper.createExplicitListConstraint(
                    rubric.pointsOf(item).stream().map(String::valueOf).toArray(String[]::new));
        }
        rule(rule, columns.mark(), told);
    }

    private void reasons(Row row, Rubric.Item item) {
        if (item.notApplicable().isEmpty()) {
            cell(row, columns.reason(), "–", styles.closed);
            return;
        }
        cell(row, columns.reason(), null, styles.textInput);
        rule(
                sheet.getDataValidationHelper()
                        .createExplicitListConstraint(item.notApplicable().stream()
                                .sorted()
                                .map(words::reason)
                                .toArray(String[]::new)),
                columns.reason(),
                words.get("list.text"));
    }

    private void rule(DataValidationConstraint constraint, int column, String told) {
        DataValidation rule = sheet.getDataValidationHelper()
                .createValidation(constraint, new CellRangeAddressList(next, next, column, column));
        rule.setShowErrorBox(true);
        rule.createErrorBox(words.get("list.title"), told);
        rule.setEmptyCellAllowed(true);
        sheet.addValidationData(rule);
    }

    private void end() {
        band(words.get("overall"));
        free(FormColumns.OVERALL, words.get("comment"), 5);
        band(words.get("actions"));
        for (int i = 1; i <= Rating.MOST_ACTIONS; i++) {
            free(FormColumns.ACTION + i, words.get("action", i), 2);
        }
    }

    private void free(String key, String label, int lines) {
        Row row = sheet.createRow(next);
        cell(row, FormColumns.ID, key, styles.item);
        cell(row, FormColumns.NUMBER, "", styles.item);
        cell(row, FormColumns.ITEM, label, styles.item);
        for (int i = FormColumns.FIRST_LEVEL; i <= columns.comment(); i++) {
            cell(row, i, null, styles.textInput);
        }
        sheet.addMergedRegion(new CellRangeAddress(next, next, FormColumns.FIRST_LEVEL, columns.comment()));
        row.setHeightInPoints((float) (lines * LINE_POINTS + 4));
        next++;
    }

    private static void cell(Row row, int column, @Nullable String text, CellStyle style) {
        Cell cell = row.createCell(column);
        cell.setCellStyle(style);
        if (text != null && !text.isEmpty()) {
            cell.setCellValue(text);
        }
    }

    private void look(int header) {
        sheet.setColumnHidden(FormColumns.ID, true);
        sheet.setColumnWidth(FormColumns.NUMBER, 5 * CHARACTER);
        sheet.setColumnWidth(FormColumns.ITEM, ITEM_WIDTH * CHARACTER);
        for (int i = 0; i < columns.levels(); i++) {
            sheet.setColumnWidth(FormColumns.FIRST_LEVEL + i, ALL_LEVELS_WIDTH / columns.levels() * CHARACTER);
        }
        sheet.setColumnWidth(columns.mark(), 8 * CHARACTER);
        sheet.setColumnWidth(columns.reason(), REASON_WIDTH * CHARACTER);
        sheet.setColumnWidth(columns.comment(), COMMENT_WIDTH * CHARACTER);
        sheet.createFreezePane(FormColumns.FIRST_LEVEL, header + 1);
        sheet.setRepeatingRows(new CellRangeAddress(header, header, -1, -1));
        sheet.setDisplayGridlines(false);
        sheet.setFitToPage(true);
        PrintSetup print = sheet.getPrintSetup();
        print.setLandscape(true);
        print.setPaperSize(PrintSetup.A4_PAPERSIZE);
        print.setFitWidth((short) 1);
        print.setFitHeight((short) 0);
        for (PageMargin margin : new PageMargin[] {PageMargin.LEFT, PageMargin.RIGHT, PageMargin.TOP}) {
            sheet.setMargin(margin, MARGIN_INCHES);
        }
        sheet.getFooter().setLeft(head.caseCode() + ", " + head.assessor());
        sheet.getFooter().setRight(words.get("foot"));
        sheet.enableLocking();
        sheet.lockFormatColumns(false);
        sheet.lockFormatRows(false);
    }

    private void hidden(XSSFWorkbook book) {
        XSSFSheet about = book.createSheet(FormHead.SHEET);
        String[][] rows = {
            {"format", FormHead.FORMAT},
            {"version", String.valueOf(FormHead.VERSION)},
            {"rubric", head.rubric()},
            {"rubric_version", head.rubricVersion()},
            {"rubric_sha256", head.rubricSha256()},
            {"case", head.caseCode()},
            {"assessor", head.assessor()},
            {"self", String.valueOf(head.self())},
            {"language", head.language()},
        };
        for (int i = 0; i < rows.length; i++) {
            Row row = about.createRow(i);
            row.createCell(0).setCellValue(rows[i][0]);
            row.createCell(1).setCellValue(rows[i][1]);
        }
        about.enableLocking();
        book.setSheetVisibility(book.getSheetIndex(about), SheetVisibility.VERY_HIDDEN);
    }

    static List<NotApplicable> reasons(Rubric.Item item) {
        return item.notApplicable().stream().sorted().toList();
    }
}
