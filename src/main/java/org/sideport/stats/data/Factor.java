package org.sideport.stats.data;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A grouping of observations, for instance by rater.
 *
 * @param name as in the data, lower case
 * @param levels distinct, in the order of first appearance
 * @param codes for each observation the index of its level; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record Factor(String name, List<String> levels, int[] codes) {

    public Factor {
        levels = List.copyOf(levels);
        for (int code : codes) {
            if (code < 0 || code >= levels.size()) {
                throw new IllegalArgumentException(name + ": level " + code + " of " + levels.size());
            }
        }
    }

    /** @param labels one for each observation */
    public static Factor of(String name, List<String> labels) {
        Map<String, Integer> seen = new LinkedHashMap<>();
        int[] codes = new int[labels.size()];
        for (int i = 0; i < codes.length; i++) {
            Integer code = seen.putIfAbsent(labels.get(i), seen.size());
            codes[i] = code == null ? seen.size() - 1 : code;
        }
        return new Factor(name, new ArrayList<>(seen.keySet()), codes);
    }

    public int size() {
        return levels.size();
    }
}
