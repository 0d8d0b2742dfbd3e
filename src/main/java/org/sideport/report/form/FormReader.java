package org.sideport.report.form;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.poi.openxml4j.exceptions.OpenXML4JRuntimeException;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/** Reads a filled-in form: every fault is found in one go and named by its cell. */
public final class FormReader {

    private static final int LONGEST = Comment.LONGEST_TEXT;

    private final Sheet sheet;
    private final FormHead head;
    private final Rubric rubric;
    private final FormWords words;
    private final FormColumns columns;
    private final List<FormFault> faults = new ArrayList<>();
    private final Map<String, Integer> rows = new HashMap<>();

    private FormReader(Sheet sheet, FormHead head, Rubric rubric) {
        this.sheet = sheet;
        this.head = head;
        this.rubric = rubric;
        this.words = new FormWords(head.language());
        this.columns = FormColumns.of(rubric);
    }

    /**
     * What was read.
     *
     * @param rating {@code null} if there is a fault
     * @param faults in the order of the sheet
     */
    public record Read(FormHead head, @Nullable Rating rating, List<FormFault> faults) {

        public Read {
            faults = List.copyOf(faults);
        }
    }

    /** Finds the rubric that a form was made of, and refuses a form that does not fit. */
    @FunctionalInterface
    public interface Rubrics {
        Rubric of(FormHead head);
    }

    /**
     * @throws InputException if the file is no form, holds what no form holds, or its rubric is not the one at hand
     */
    public static Read read(Path file, Rubrics rubrics) {
        if (!file.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
            throw new InputException(
                    "this kind of file cannot be read", file.toString(), "save the form as XLSX, without macros");
        }
        try {
            if (!Files.isRegularFile(file)) {
                throw new NoSuchFileException(file.toString());
            }
            WorkbookGuard.check(file);
            try (InputStream in = Files.newInputStream(file);
                    XSSFWorkbook book = new XSSFWorkbook(in)) {
                FormHead head = head(book, file);
                return new FormReader(book.getSheetAt(0), head, rubrics.of(head)).run();
            }
        } catch (NoSuchFileException e) {
            throw new InputException("there is no such file", file.toString(), "check the path", e);
        } catch (IOException | OpenXML4JRuntimeException | IllegalArgumentException | IllegalStateException e) {
            throw unreadable(file, e);
        } catch (RuntimeException e) {
            if (e instanceof InputException) {
                throw e;
            }
            // the library has its own for each kind of broken part
            throw unreadable(file, e);
        }
    }

    private static InputException unreadable(Path file, Exception e) {
        return new InputException(
                "cannot be read as a workbook: " + e.getMessage(),
                file.toString(),
                "save the form as XLSX again, or make a new one (sideport rubric form)",
                e);
    }

    private static FormHead head(XSSFWorkbook book, Path file) {
        Sheet about = book.getSheet(FormHead.SHEET);
        Map<String, String> values = new HashMap<>();
        if (about != null) {
            for (Row row : about) {
                Cell key = row.getCell(0);
                Cell value = row.getCell(1);
                if (key != null
                        && value != null
                        && key.getCellType() == CellType.STRING
                        && value.getCellType() == CellType.STRING) {
                    values.put(key.getStringCellValue(), value.getStringCellValue());
                }
            }
        }
        if (!FormHead.FORMAT.equals(values.get("format"))
                || !values.keySet()
                        .containsAll(List.of("rubric", "rubric_version", "rubric_sha256", "case", "assessor"))
                || book.getSheetIndex(FormHead.SHEET) == 0) {
            throw new InputException(
                    "this is no marking form: its hidden sheet is missing or incomplete",
                    file.toString(),
                    "fill in a form that was made with: sideport rubric form");
        }
        if (!String.valueOf(FormHead.VERSION).equals(values.get("version"))) {
            throw new InputException(
                    "the form is of another version of the program",
                    file.toString(),
                    "make a new form with this one and copy the marks over");
        }
        return new FormHead(
                get(values, "rubric"),
                get(values, "rubric_version"),
                get(values, "rubric_sha256"),
                get(values, "case"),
                get(values, "assessor"),
                "true".equals(values.get("self")),
                values.getOrDefault("language", "en"));
    }

    private static String get(Map<String, String> values, String key) {
        return values.getOrDefault(key, "");
    }

    private Read run() {
        for (Row row : sheet) {
            String id = idOf(row);
            if (!id.isEmpty() && rows.put(id, row.getRowNum()) != null) {
                fault(row, FormColumns.ITEM, "\"" + id + "\" is there twice", "delete one of the two rows");
            }
        }
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            Integer at = rows.get(item.id());
            if (at == null) {
                faults.add(new FormFault(
                        sheet.getSheetName() + "!A1",
                        "the row of \"" + item.title() + "\" is missing",
                        "take a fresh form, and leave its rows as they are"));
            } else {
                ItemScore score = score(sheet.getRow(at), item);
                if (score != null) {
                    scores.add(score);
                }
            }
        }
        String overall = free(FormColumns.OVERALL);
        List<String> actions = new ArrayList<>();
        for (int i = 1; i <= Rating.MOST_ACTIONS; i++) {
            String action = free(FormColumns.ACTION + i);
            if (!action.isEmpty()) {
                actions.add(action);
            }
        }
        if (faults.isEmpty() && scores.isEmpty() && overall.isEmpty() && actions.isEmpty()) {
            faults.add(new FormFault(
                    place(rows.values().stream().min(Comparator.naturalOrder()).orElse(0), columns.mark()),
                    "nothing is filled in",
                    "mark at least one item"));
        }
        faults.sort(Comparator.comparingInt(FormReader::rowOf));
        Rating rating = faults.isEmpty()
                ? new Rating(
                        rubric.id(),
                        rubric.version(),
                        head.assessor(),
                        head.self(),
                        false,
                        scores,
                        overall,
                        Collections.unmodifiableList(actions))
                : null;
        return new Read(head, rating, faults);
    }

    private static int rowOf(FormFault fault) {
        return new CellReference(fault.cell().substring(fault.cell().lastIndexOf('!') + 1)).getRow();
    }

    private static String idOf(Row row) {
        Cell cell = row.getCell(FormColumns.ID);
        return cell != null && cell.getCellType() == CellType.STRING
                ? cell.getStringCellValue().strip()
                : "";
    }

    private @Nullable ItemScore score(Row row, Rubric.Item item) {
        int before = faults.size();
        Double mark = number(row, item);
        NotApplicable reason = reason(row, item);
        String comment = text(row, columns.comment());
        if (faults.size() > before) {
            return null;
        }
        if (mark != null && reason != null) {
            fault(row, columns.reason(), "there is a mark and a reason for having none", "empty one of the two cells");
            return null;
        }
        if (reason != null) {
            return new ItemScore.Excused(item.id(), reason, comment);
        }
        if (mark == null) {
            if (!comment.isEmpty()) {
                fault(
                        row,
                        columns.comment(),
                        "there is a comment, and neither a mark nor a reason for having none",
                        "mark the item, or choose a reason");
            }
            return null;
        }
        return item.kind().isNumber()
                ? new ItemScore.Marked(item.id(), item.band(mark).points(), mark, comment, List.of())
                : new ItemScore.Marked(item.id(), mark.intValue(), comment);
    }

    private @Nullable Double number(Row row, Rubric.Item item) {
        int column = columns.mark();
        String possible = item.kind().isNumber()
                ? "write a number from " + plain(item.bands().get(0).from()) + " on"
                : "write one of " + rubric.pointsOf(item);
        Cell cell = row.getCell(column);
        if (cell == null || cell.getCellType() == CellType.BLANK) {
            return null;
        }
        if (isFormula(row, column)) {
            return null;
        }
        double value;
        if (cell.getCellType() == CellType.NUMERIC) {
            value = cell.getNumericCellValue();
        } else {
            String text = cell.getCellType() == CellType.STRING
                    ? cell.getStringCellValue().strip()
                    : "an error or a yes-or-no value";
            if (text.isEmpty()) {
                return null;
            }
            try {
                value = text.matches("-?[0-9]{1,9}([.,][0-9]{1,6})?")
                        ? Double.parseDouble(text.replace(',', '.'))
                        : Double.NaN;
            } catch (NumberFormatException e) {
                value = Double.NaN;
            }
            if (Double.isNaN(value)) {
                fault(row, column, "\"" + shortened(text) + "\" is no mark of \"" + item.title() + "\"", possible);
                return null;
            }
        }
        double given = value;
        boolean fits = item.kind().isNumber()
                ? item.takes(given)
                : rubric.pointsOf(item).stream().anyMatch(p -> p == given);
        if (!fits) {
            fault(row, column, "\"" + item.title() + "\" cannot be " + plain(value), possible);
            return null;
        }
        return value;
    }

    private @Nullable NotApplicable reason(Row row, Rubric.Item item) {
        if (item.notApplicable().isEmpty()) {
            return null;
        }
        String text = text(row, columns.reason());
        if (text.isEmpty()) {
            return null;
        }
        List<String> possible = new ArrayList<>();
        for (NotApplicable reason : FormWriter.reasons(item)) {
            if (words.reason(reason).equalsIgnoreCase(text) || reason.id().equals(text)) {
                return reason;
            }
            possible.add(words.reason(reason));
        }
        fault(
                row,
                columns.reason(),
                "\"" + shortened(text) + "\" is no reason to leave \"" + item.title() + "\" unmarked",
                "write one of: " + String.join(", ", possible));
        return null;
    }

    private String free(String key) {
        Integer at = rows.get(key);
        return at == null ? "" : text(sheet.getRow(at), FormColumns.FIRST_LEVEL);
    }

    private String text(Row row, int column) {
        Cell cell = row.getCell(column);
        if (cell == null || isFormula(row, column)) {
            return "";
        }
        String text =
                switch (cell.getCellType()) {
                    case STRING -> cell.getStringCellValue().strip();
                    case NUMERIC -> plain(cell.getNumericCellValue());
                    case BOOLEAN -> cell.getBooleanCellValue() ? "yes" : "no";
                    case ERROR -> {
                        fault(row, column, "the cell holds an error", "write the text itself");
                        yield "";
                    }
                    default -> "";
                };
        if (text.length() > LONGEST) {
            fault(row, column, "the text has " + text.length() + " characters", "write " + LONGEST + " at most");
            return "";
        }
        return text;
    }

    private boolean isFormula(Row row, int column) {
        Cell cell = row.getCell(column);
        if (cell == null || cell.getCellType() != CellType.FORMULA) {
            return false;
        }
        fault(row, column, "the cell holds a formula", "write what it comes to, not how");
        return true;
    }

    private void fault(Row row, int column, String what, String remedy) {
        faults.add(new FormFault(place(row.getRowNum(), column), what, remedy));
    }

    private String place(int row, int column) {
        return sheet.getSheetName() + "!" + new CellReference(row, column).formatAsString(false);
    }

    private static String plain(double value) {
        return Double.isFinite(value)
                ? new java.math.BigDecimal(value, new java.math.MathContext(15))
                        .stripTrailingZeros()
                        .toPlainString()
                : String.valueOf(value);
    }

    private static String shortened(String text) {
        return text.length() > 60 ? text.substring(0, 59) + "…" : text;
    }
}
