package org.sideport.cli.console;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** Columns of text, aligned. */
public final class TextTable {

    private final List<String[]> rows = new ArrayList<>();
    private final boolean[] right;

    /** @param headers a leading {@code >} aligns the column to the right */
    public TextTable(String... headers) {
        right = new boolean[headers.length];
        String[] names = new String[headers.length];
        for (int i = 0; i < headers.length; i++) {
            right[i] = headers[i].startsWith(">");
            names[i] = right[i] ? headers[i].substring(1) : headers[i];
        }
        rows.add(names);
    }

    public void row(String... cells) {
        rows.add(cells);
    }

    public void print(Consumer<String> out) {
        int[] widths = new int[right.length];
        for (String[] row : rows) {
            for (int i = 0; i < row.length; i++) {
                widths[i] = Math.max(widths[i], row[i].codePointCount(0, row[i].length()));
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < row.length; i++) {
                String pad = " ".repeat(widths[i] - row[i].codePointCount(0, row[i].length()));
                line.append(i == 0 ? "" : "  ").append(right[i] ? pad + row[i] : row[i] + pad);
            }
            out.accept(line.toString().stripTrailing());
        }
    }
}
