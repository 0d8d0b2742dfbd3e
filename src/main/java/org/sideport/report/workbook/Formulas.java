package org.sideport.report.workbook;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.poi.ss.util.CellReference;
import org.jspecify.annotations.Nullable;

/** The formulas of a table, with the cells of a row put in for the names of its columns. */
final class Formulas<R> {

    private static final Pattern COLUMN = Pattern.compile("\\{([^{}]+)}");

    private final Map<String, String> letters = new HashMap<>();
    private final Cells cells;
    private final boolean any;

    Formulas(List<Column<R>> columns, Cells cells) {
        this.cells = cells;
        this.any = columns.stream().anyMatch(c -> c.formula() != null);
        for (int c = 0; c < columns.size(); c++) {
            letters.put(columns.get(c).header(), "$" + CellReference.convertNumToColString(c));
        }
    }

    boolean any() {
        return any;
    }

    /** @param row counted from 0 */
    @Nullable
    String of(Column<R> column, R of, int row) {
        String template = cells.formula(column, of);
        return template == null
                ? null
                : COLUMN.matcher(template).replaceAll(found -> Matcher.quoteReplacement(cell(found.group(1), row)));
    }

    private String cell(String header, int row) {
        String letter = letters.get(header);
        if (letter == null) {
            throw new IllegalArgumentException("no column " + header);
        }
        return letter + (row + 1);
    }
}
