package org.sideport.stats.monitoring;

/** A chart as a Markov chain that is followed case by case from its start. */
interface RunChain {

    /** Goes on by one case and returns the probability that the first signal is at this case. */
    double step();

    /** The probability that there was no signal so far, summed afresh so that no rounding builds up. */
    double alive();

    /** The probability that was cut off so far because it is too small to matter. */
    default double lost() {
        return 0;
    }

    /** How it is computed, for the reader. */
    String method();
}
