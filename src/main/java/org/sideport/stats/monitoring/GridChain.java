package org.sideport.stats.monitoring;

import java.util.Arrays;

/**
 * A chart whose weight differs from case to case, on a grid (after Brook & Evans 1972, Biometrika 59:539): a value between
 * two grid points is shared among them in proportion, which keeps its mean. The error falls with the grid's width; whoever
 * uses it compares two widths.
 */
final class GridChain {

    private final double floor;
    private final boolean reflecting;
    private final double width;
    private double[] mass;
    private double[] next;
    private double low;

    /**
     * @param floor 0 for a CUSUM that is held there, or the lower limit that ends the test
     * @param cells number of grid cells from floor to limit
     */
    GridChain(double floor, double limit, boolean reflecting, int cells) {
        this.floor = floor;
        this.reflecting = reflecting;
        this.width = (limit - floor) / cells;
        this.mass = new double[cells];
        this.next = new double[cells];
        double start = -floor / width;
        int cell = (int) Math.floor(start);
        mass[cell] = 1 - (start - cell);
        if (start > cell) {
            mass[cell + 1] = start - cell;
        }
    }

    /**
     * Goes on by one case.
     *
     * @param weights the weights that the case may add
     * @param chances of each
     * @return the probability of reaching the upper limit now
     */
    double step(double[] weights, double[] chances) {
        Arrays.fill(next, 0);
        low = 0;
        double high = 0;
        int cells = mass.length;
        for (int w = 0; w < weights.length; w++) {
            double shift = weights[w] / width;
            int whole = (int) Math.floor(shift);
            double part = shift - whole;
            if (part > 1 - 1e-9 || part < 1e-9) {
                whole = (int) Math.rint(shift);
                part = 0;
            }
            for (int state = 0; state < cells; state++) {
                double here = mass[state] * chances[w];
                if (here != 0) {
                    high += put(state + whole, here * (1 - part)) + put(state + whole + 1, here * part);
                }
            }
        }
        double[] swap = mass;
        mass = next;
        next = swap;
        return high;
    }

    double alive() {
        return Arrays.stream(mass).sum();
    }

    /** The probability of having reached the lower limit at the last step. */
    double reachedLow() {
        return low;
    }

    private double put(int state, double here) {
        if (here == 0) {
            return 0;
        }
        if (state >= mass.length) {
            return here;
        }
        if (state > 0) {
            next[state] += here;
        } else if (reflecting) {
            next[0] += here;
        } else {
            low += here;
        }
        return 0;
    }
}
