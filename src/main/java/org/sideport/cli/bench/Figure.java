package org.sideport.cli.bench;

import org.jspecify.annotations.Nullable;

/**
 * One figure of how fast recordings are read.
 *
 * @param key of {@code --json}
 * @param what is measured, for people
 * @param ours for people
 * @param reference for people
 * @param value {@code null} if it was not measured
 * @param unit after the value; empty for ratios
 * @param wish what the value should be, for people; empty if nothing
 */
record Figure(
        String key,
        String what,
        String ours,
        String reference,
        @Nullable Double value,
        String unit,
        String wish) {}
