package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.TextTable;

/**
 * What a command says: the same figures for machines and for people, and one plain sentence with the caution that
 * applies.
 *
 * @param json snake_case keys; the printer adds {@code sentence} and {@code warnings}
 * @param lines for people
 * @param warnings sentences
 * @param sentence what the figures mean, and the caution
 */
record Answer(Map<String, @Nullable Object> json, List<String> lines, List<String> warnings, String sentence) {

    Answer {
        lines = List.copyOf(lines);
        warnings = List.copyOf(warnings);
    }

    /** The lines of a table. */
    static List<String> lines(TextTable table) {
        List<String> lines = new ArrayList<>();
        table.print(lines::add);
        return lines;
    }
}
