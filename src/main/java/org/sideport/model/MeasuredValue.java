package org.sideport.model;

import org.jspecify.annotations.Nullable;

/**
 * A number that was measured on a still.
 *
 * @param name what it is, for instance {@code apparent_diameter}
 * @param unit {@code mm}, {@code mm2}, {@code degrees}, {@code px}, {@code mm/px}, or empty for a ratio
 * @param se standard uncertainty
 * @param lower lower 95 % limit
 * @param upper upper 95 % limit
 */
public record MeasuredValue(
        String name,
        String unit,
        double value,
        @Nullable Double se,
        @Nullable Double lower,
        @Nullable Double upper) {

    public MeasuredValue {
        if (name.isBlank() || !Double.isFinite(value)) {
            throw new IllegalArgumentException(name + " = " + value);
        }
    }
}
