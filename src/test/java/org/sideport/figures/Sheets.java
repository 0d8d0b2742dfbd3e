package org.sideport.figures;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.ss.usermodel.WorkbookFactory;

/** A workbook read back, by sheet and heading; of a formula what was kept with it. */
final class Sheets {

    private final Map<String, List<Map<String, Object>>> sheets = new HashMap<>();

    Sheets(Path file) throws IOException {
        try (Workbook book = WorkbookFactory.create(file.toFile(), null, true)) {
            for (Sheet sheet : book) {
                List<String> heads = new ArrayList<>();
                List<Map<String, Object>> rows = new ArrayList<>();
                for (Row row : sheet) {
                    Map<String, Object> cells = new HashMap<>();
                    for (Cell cell : row) {
                        Object value = value(cell);
                        if (rows.isEmpty() && heads.size() == cell.getColumnIndex()) {
                            heads.add(String.valueOf(value));
                        }
                        int column = cell.getColumnIndex();
                        cells.put(column < heads.size() ? heads.get(column) : "column " + column, value);
                    }
                    rows.add(cells);
                }
                sheets.put(sheet.getSheetName(), rows);
            }
        }
    }

    private static Object value(Cell cell) {
        CellType type = cell.getCellType() == CellType.FORMULA ? cell.getCachedFormulaResultType() : cell.getCellType();
        return switch (type) {
            case NUMERIC -> cell.getNumericCellValue();
            case STRING -> cell.getRichStringCellValue().getString();
            default -> "";
        };
    }

    /** The one row in which cells have these values: heading, value, heading, value ... */
    Map<String, Object> row(String sheet, Object... with) {
        List<Map<String, Object>> found = rows(sheet, with);
        if (found.size() != 1) {
            throw new AssertionError(found.size() + " rows of " + sheet + " with " + List.of(with));
        }
        return found.get(0);
    }

    List<Map<String, Object>> rows(String sheet, Object... with) {
        return sheets.get(sheet).stream()
                .filter(row -> {
                    for (int i = 0; i < with.length; i += 2) {
                        if (!with[i + 1].equals(row.get(with[i].toString()))) {
                            return false;
                        }
                    }
                    return true;
                })
                .toList();
    }

    /** NaN where the cell is blank or holds words. */
    double number(String heading, String sheet, Object... with) {
        return row(sheet, with).get(heading) instanceof Double value ? value : Double.NaN;
    }
}
