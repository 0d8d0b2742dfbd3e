package org.sideport.timing;

import org.sideport.stats.Distribution;

/**
 * One phase over several cases.
 *
 * @param group value of the grouping column, or empty for all cases
 * @param phase id of the phase or step, or {@link #OPERATING}
 * @param activeUs distribution of the active time in microseconds over the cases that have the phase
 */
public record SummaryRow(String group, String phase, Distribution activeUs) {

    /** Stands for the whole case, first tag to last tag. */
    public static final String OPERATING = "operating_time";
}
