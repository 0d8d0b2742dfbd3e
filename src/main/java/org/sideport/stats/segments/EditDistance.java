package org.sideport.stats.segments;

import java.util.List;

/** Levenshtein 1966, Soviet Physics Doklady 10:707: fewest insertions, deletions and replacements. */
final class EditDistance {

    private EditDistance() {}

    static int of(List<String> from, List<String> to) {
        int[] row = new int[to.size() + 1];
        for (int j = 0; j < row.length; j++) {
            row[j] = j;
        }
        for (int i = 1; i <= from.size(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j < row.length; j++) {
                int replaced = diagonal + (from.get(i - 1).equals(to.get(j - 1)) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[to.size()];
    }
}
