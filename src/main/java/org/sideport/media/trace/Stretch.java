package org.sideport.media.trace;

import java.util.ArrayList;
import java.util.List;

/** Moments in a row: {@code from} inclusive, {@code to} exclusive. */
record Stretch(int from, int to) {

    /** Runs of what is chosen that are long enough; gaps up to {@code bridge} moments inside a run do not end it. */
    static List<Stretch> of(boolean[] chosen, int least, int bridge) {
        List<Stretch> found = new ArrayList<>();
        int from = -1;
        int last = -1;
        for (int i = 0; i <= chosen.length; i++) {
            boolean here = i < chosen.length && chosen[i];
            if (here) {
                from = from < 0 ? i : from;
                last = i;
            } else if (from >= 0 && (i == chosen.length || i - last > bridge)) {
                if (last + 1 - from >= least) {
                    found.add(new Stretch(from, last + 1));
                }
                from = -1;
            }
        }
        return found;
    }

    int length() {
        return to - from;
    }

    double mean(float[] trace) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += trace[i];
        }
        return sum / length();
    }

    double greatest(float[] trace) {
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = from; i < to; i++) {
            greatest = Math.max(greatest, trace[i]);
        }
        return greatest;
    }
}
