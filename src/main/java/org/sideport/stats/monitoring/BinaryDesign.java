package org.sideport.stats.monitoring;

import org.jspecify.annotations.Nullable;

/** A chart of failures that adds a weight per case; its parameters are to be fixed before looking at the cases. */
public sealed interface BinaryDesign permits SprtDesign, TabularDesign, LlrDesign, LearningCurveDesign {

    /** How near to a limit counts as at it: room for the rounding of a sum of weights. */
    double TOLERANCE = 1e-9;

    /**
     * What a case adds to the statistic.
     *
     * @param risk the expected probability of failure of this case; designs without risk adjustment take
     *     {@link #acceptableRate()} here
     */
    double weight(boolean failure, double risk);

    /** The failure rate for which the chart is not meant to alarm, and the risk of a case without one. */
    double acceptableRate();

    /** The failure rate that the chart is meant to tell from {@link #acceptableRate()}. */
    double otherRate();

    /** The rate at which {@link #upperSignal()} is a wrong verdict. */
    default double falseSignalRate() {
        return acceptableRate();
    }

    /** The signal at the upper limit. */
    SignalKind upperSignal();

    double upperLimit();

    /** {@code null} where the statistic is held at 0 from below instead. */
    default @Nullable Double lowerLimit() {
        return null;
    }

    /** Whether the risk of each case may be used. */
    default boolean adjustsRisk() {
        return false;
    }
}
