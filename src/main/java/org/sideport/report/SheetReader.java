package org.sideport.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.UnsupportedFileFormatException;
import org.apache.poi.openxml4j.exceptions.OpenXML4JRuntimeException;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.sideport.model.InputException;

/**
 * Reads a sheet as rows of text: CSV (UTF-8, with or without a byte order mark; comma, semicolon or tab) or the first
 * sheet of an XLSX workbook. Days come as ISO text, numbers with a full stop and without needless zeros; formulas as the
 * values that were saved with them.
 */
public final class SheetReader {

    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private SheetReader() {}

    /**
     * One row.
     *
     * @param number as the sheet counts its rows, from 1; of a CSV file the line on which it starts
     * @param cells trimmed, from the first column on
     */
    public record SheetRow(int number, List<String> cells) {

        public SheetRow {
            cells = List.copyOf(cells);
        }

        /** Empty beyond the last cell. */
        public String cell(int column) {
            return column < cells.size() ? cells.get(column) : "";
        }

        boolean isEmpty() {
            return cells.stream().allMatch(String::isEmpty);
        }
    }

    /**
     * All rows that hold anything.
     *
     * @throws InputException if the file cannot be read or is neither
     */
    public static List<SheetRow> read(Path file) {
        String name = file.toString().toLowerCase(Locale.ROOT);
        List<SheetRow> rows;
        try {
            if (!Files.exists(file)) {
                throw new NoSuchFileException(file.toString());
            }
            if (name.endsWith(".xls") || name.endsWith(".ods") || name.endsWith(".numbers")) {
                throw new InputException(
                        "this kind of sheet cannot be read", file.toString(), "save it as XLSX, or as CSV (UTF-8)");
            }
            rows = name.endsWith(".xlsx") ? workbook(file) : csv(file);
        } catch (NoSuchFileException e) {
            throw new InputException("no such file", file.toString(), "check the path", e);
        } catch (CharacterCodingException e) {
            throw new InputException("the text is not UTF-8", file.toString(), "save it as CSV (UTF-8)", e);
        } catch (IOException | UncheckedIOException | UnsupportedFileFormatException | OpenXML4JRuntimeException e) {
            throw new InputException(
                    "cannot be read as a sheet: " + e.getMessage(),
                    file.toString(),
                    "save it as XLSX, or as CSV (UTF-8)",
                    e);
        }
        return rows.stream().filter(row -> !row.isEmpty()).toList();
    }

    /** The name of a column as sheets show it: A to Z, AA and so on. */
    public static String columnName(int column) {
        StringBuilder name = new StringBuilder();
        for (int left = column + 1; left > 0; left = (left - 1) / 26) {
            name.insert(0, (char) ('A' + (left - 1) % 26));
        }
        return name.toString();
    }

    // ---- CSV

    private static List<SheetRow> csv(Path file) throws IOException {
        CSVFormat format = CSVFormat.RFC4180
                .builder()
                .setDelimiter(delimiter(file))
                .setIgnoreEmptyLines(false)
                .setTrim(true)
                .get();
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8);
                CSVParser parser = CSVParser.parse(reader, format)) {
            List<SheetRow> rows = new ArrayList<>();
            long line = 1;
            for (CSVRecord record : parser) {
                List<String> cells = new ArrayList<>();
                for (String cell : record) {
                    cells.add(cell.replace(BYTE_ORDER_MARK, "").strip());
                }
                rows.add(new SheetRow((int) line, cells));
                line = parser.getCurrentLineNumber() + 1;
            }
            return rows;
        }
    }

    /** That which is most frequent in the first line, outside quotation marks. */
    private static char delimiter(Path file) throws IOException {
        String head;
        try (BufferedReader reader = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            head = String.valueOf(reader.readLine());
        }
        String bare = head.replaceAll("\"[^\"]*\"", "");
        char best = ',';
        for (char candidate : new char[] {';', '\t'}) {
            if (count(bare, candidate) > count(bare, best)) {
                best = candidate;
            }
        }
        return best;
    }

    private static long count(String text, char wanted) {
        return text.chars().filter(c -> c == wanted).count();
    }

    // ---- XLSX

    private static List<SheetRow> workbook(Path file) throws IOException {
        try (var in = Files.newInputStream(file);
                XSSFWorkbook book = new XSSFWorkbook(in)) {
            if (book.getNumberOfSheets() == 0) {
                return List.of();
            }
            DataFormatter formatter = new DataFormatter(Locale.ROOT);
            Sheet sheet = book.getSheetAt(0);
            List<SheetRow> rows = new ArrayList<>();
            for (Row row : sheet) {
                List<String> cells = new ArrayList<>();
                for (int i = 0; i < row.getLastCellNum(); i++) {
                    Cell cell = row.getCell(i);
                    cells.add(cell == null ? "" : text(cell, formatter).strip());
                }
                rows.add(new SheetRow(row.getRowNum() + 1, cells));
            }
            return rows;
        }
    }

    private static String text(Cell cell, DataFormatter formatter) {
        CellType type = cell.getCellType() == CellType.FORMULA ? cell.getCachedFormulaResultType() : cell.getCellType();
        return switch (type) {
            case NUMERIC -> DateUtil.isCellDateFormatted(cell) ? day(cell) : number(cell.getNumericCellValue());
            case STRING -> cell.getStringCellValue();
            case BOOLEAN -> cell.getBooleanCellValue() ? "yes" : "no";
            case ERROR -> formatter.formatCellValue(cell);
            default -> "";
        };
    }

    private static String day(Cell cell) {
        var when = cell.getLocalDateTimeCellValue();
        return when.toLocalTime().toSecondOfDay() == 0 ? when.toLocalDate().toString() : when.toString();
    }

    private static String number(double value) {
        // a cell holds 15 digits; what is beyond them is noise of the binary number
        return new java.math.BigDecimal(value, new java.math.MathContext(15))
                .stripTrailingZeros()
                .toPlainString();
    }
}
