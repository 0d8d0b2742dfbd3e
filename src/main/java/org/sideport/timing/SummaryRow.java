package org.sideport.timing;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Distribution;

/**
 * One phase over several cases.
 *
 * @param group value of the grouping column, or empty for all cases
 * @param phase id of the phase or step, or {@link #OPERATING}
 * @param activeUs distribution of the active time in microseconds over the cases whose time is known and sure;
 *     {@code null} if there is none
 * @param unsure cases left out because a cut of the recording lies in their time
 */
public record SummaryRow(
        String group, String phase, @Nullable Distribution activeUs, int unsure) {

    /** Cases in the distribution. */
    public int n() {
        return activeUs == null ? 0 : activeUs.n();
    }

    /** Stands for the whole case, first tag to last tag. */
    public static final String OPERATING = "operating_time";
}
