package org.sideport.model;

import java.util.concurrent.CancellationException;

/** How long work tells how far it is and learns that it is no longer wanted. Called from the working thread. */
public interface Progress {

    Progress NONE = (fraction, message) -> {};

    /**
     * @param fraction done so far, 0 to 1, or a negative number where that is unknown
     * @param message what is being done now, for people
     */
    void report(double fraction, String message);

    default boolean isCancelled() {
        return false;
    }

    /**
     * Ends the work where it stands.
     *
     * @throws CancellationException if {@link #isCancelled()}
     */
    default void check() {
        if (isCancelled()) {
            throw new CancellationException("cancelled");
        }
    }

    /** The part of this progress between two fractions, for one step of several. */
    default Progress part(double from, double to) {
        Progress whole = this;
        return new Progress() {
            @Override
            public void report(double fraction, String message) {
                whole.report(fraction < 0 ? from : from + (to - from) * fraction, message);
            }

            @Override
            public boolean isCancelled() {
                return whole.isCancelled();
            }
        };
    }
}
