package org.sideport.stats.data;

import java.util.List;
import java.util.Optional;

/**
 * Observations in long form.
 *
 * @param factors each as long as {@code values}, with distinct names
 * @param values finite; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record LongData(List<Factor> factors, double[] values) {

    public LongData {
        factors = List.copyOf(factors);
        for (Factor factor : factors) {
            if (factor.codes().length != values.length) {
                throw new IllegalArgumentException(
                        factor.name() + " has " + factor.codes().length + " codes for " + values.length + " values");
            }
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("not a finite value: " + value);
            }
        }
    }

    public int size() {
        return values.length;
    }

    public Optional<Factor> find(String name) {
        return factors.stream().filter(f -> f.name().equals(name)).findFirst();
    }

    /**
     * @throws IllegalArgumentException if there is no such factor
     */
    public Factor factor(String name) {
        return find(name).orElseThrow(() -> new IllegalArgumentException("no factor " + name));
    }
}
