package org.sideport.stats.casemix;

import java.util.List;

/**
 * Cases with what happened and what was known before.
 *
 * @param outcome 1 where the event happened, 0 where not; not to be changed
 * @param terms each as long as {@code outcome}; without the intercept
 */
@SuppressWarnings("ArrayRecordComponent")
public record CaseOutcomes(double[] outcome, List<Term> terms) {

    public CaseOutcomes {
        terms = List.copyOf(terms);
        check(outcome);
        for (Term term : terms) {
            if (term.values().length != outcome.length) {
                throw new IllegalArgumentException(
                        term.name() + " has " + term.values().length + " values for " + outcome.length + " cases");
            }
        }
    }

    static void check(double[] outcome) {
        for (double y : outcome) {
            if (y != 0 && y != 1) {
                throw new IllegalArgumentException("an outcome is 0 or 1, not " + y);
            }
        }
    }

    static int events(double[] outcome) {
        int events = 0;
        for (double y : outcome) {
            events += (int) y;
        }
        return events;
    }

    public int size() {
        return outcome.length;
    }

    public int events() {
        return events(outcome);
    }

    /** Rows of the design matrix transposed: the intercept, then the terms. */
    double[][] columns() {
        double[][] columns = new double[terms.size() + 1][];
        columns[0] = new double[size()];
        java.util.Arrays.fill(columns[0], 1);
        for (int j = 0; j < terms.size(); j++) {
            columns[j + 1] = terms.get(j).values();
        }
        return columns;
    }
}
