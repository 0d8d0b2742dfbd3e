package org.sideport.timing;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Tagging;

/**
 * A tagging CSV as read.
 *
 * @param kind what its rows are
 * @param entries one for each case and annotator, in order of first appearance
 */
public record TagTable(Kind kind, List<Entry> entries) {

    public enum Kind {
        PHASES,
        EVENTS
    }

    /**
     * @param annotator {@code null} if the file does not say
     * @param line of its first row, from 1, the header included
     * @param lines line of each span or event, in the order of {@code tagging}
     * @param groups values of the other columns in its first row, by column name
     */
    public record Entry(
            String caseCode,
            @Nullable String annotator,
            int line,
            Tagging tagging,
            List<Integer> lines,
            Map<String, String> groups) {
        public Entry {
            lines = List.copyOf(lines);
            groups = Map.copyOf(groups);
        }
    }

    public TagTable {
        entries = List.copyOf(entries);
    }
}
