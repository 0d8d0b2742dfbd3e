package org.sideport.stats.variance;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.sideport.stats.data.Factor;

/** The factor whose levels are the combinations of other factors' levels that occur: an interaction, or a nested factor. */
public final class Crossing {

    private Crossing() {}

    /**
     * Combinations that do not occur get no level, so that memory is linear in the observations.
     *
     * @param factors at least one, of equal length
     * @return named {@code a:b:c}, levels {@code A1:B2:C1} in the order of first appearance; a single factor as it is
     * @throws IllegalArgumentException if there is none, or the lengths differ
     */
    public static Factor of(List<Factor> factors) {
        if (factors.isEmpty()) {
            throw new IllegalArgumentException("a crossing needs at least one factor");
        }
        Factor crossed = factors.get(0);
        for (Factor next : factors.subList(1, factors.size())) {
            crossed = pair(crossed, next);
        }
        return crossed;
    }

    private static Factor pair(Factor a, Factor b) {
        int n = a.codes().length;
        if (b.codes().length != n) {
            throw new IllegalArgumentException(a.name() + " has " + n + " codes, " + b.name() + " " + b.codes().length);
        }
        Map<Long, Integer> seen = new HashMap<>();
        List<String> levels = new ArrayList<>();
        int[] codes = new int[n];
        for (int i = 0; i < n; i++) {
            long key = (long) a.codes()[i] * b.size() + b.codes()[i];
            Integer code = seen.get(key);
            if (code == null) {
                code = levels.size();
                seen.put(key, code);
                levels.add(a.levels().get(a.codes()[i]) + ":" + b.levels().get(b.codes()[i]));
            }
            codes[i] = code;
        }
        return new Factor(List.of(a, b).stream().map(Factor::name).collect(Collectors.joining(":")), levels, codes);
    }
}
