package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;

/**
 * A CUSUM with two weights without a common unit, exactly: the value of the statistic is known from the numbers of either
 * step since it was last at 0, so these two counts are the state. No grid, no rounding of the weights. Paths away from 0
 * that hold less than 1e-18 of the probability are cut off and counted as lost.
 */
final class StepCountChain implements RunChain {

    private static final double CUT = 1e-18;

    private final double large;
    private final double small;
    private final double chanceLarge;
    private final boolean largeIsUp;
    private final double limit;
    private final int width;
    private double atZero = 1;
    private double lost;
    // rows.get(r)[q]: r large steps since 0, q small ones beyond the fewest that keep the value in reach
    private List<double[]> rows = new ArrayList<>();

    /**
     * @param up what an upward step adds, above 0
     * @param down what the other step takes off, above 0
     */
    StepCountChain(double up, double down, double limit, double chanceUp) {
        largeIsUp = up >= down;
        large = Math.max(up, down);
        small = Math.min(up, down);
        chanceLarge = largeIsUp ? chanceUp : 1 - chanceUp;
        this.limit = limit - BinaryDesign.TOLERANCE;
        width = (int) Math.ceil(limit / small) + 3;
    }

    /** The number of small steps at column 0 of a row: the value there is just out of reach, at or beyond an end. */
    private int offset(int row) {
        double reach = largeIsUp ? row * large - limit : row * large;
        return Math.max(0, (int) Math.floor(reach / small) - 1);
    }

    private double value(int row, int smalls) {
        return largeIsUp ? row * large - smalls * small : smalls * small - row * large;
    }

    @Override
    public double step() {
        List<double[]> next = new ArrayList<>(rows.size() + 1);
        double[] tally = new double[2];
        move(next, 0, 0, atZero, tally);
        for (int row = 0; row < rows.size(); row++) {
            double[] cells = rows.get(row);
            int offset = offset(row);
            for (int q = 0; q < cells.length; q++) {
                double mass = cells[q];
                if (mass > CUT) {
                    move(next, row, offset + q, mass, tally);
                } else {
                    lost += mass;
                }
            }
        }
        while (!next.isEmpty() && isEmpty(next.get(next.size() - 1))) {
            next.remove(next.size() - 1);
        }
        rows = next;
        atZero = tally[0];
        return tally[1];
    }

    private void move(List<double[]> next, int row, int smalls, double mass, double[] tally) {
        put(next, row + 1, smalls, mass * chanceLarge, tally);
        put(next, row, smalls + 1, mass * (1 - chanceLarge), tally);
    }

    private void put(List<double[]> next, int row, int smalls, double mass, double[] tally) {
        double value = value(row, smalls);
        if (value <= BinaryDesign.TOLERANCE) {
            tally[0] += mass;
        } else if (value >= limit) {
            tally[1] += mass;
        } else {
            while (next.size() <= row) {
                next.add(new double[width]);
            }
            next.get(row)[smalls - offset(row)] += mass;
        }
    }

    private static boolean isEmpty(double[] cells) {
        for (double cell : cells) {
            if (cell != 0) {
                return false;
            }
        }
        return true;
    }

    @Override
    public double alive() {
        double sum = atZero;
        for (double[] cells : rows) {
            for (double cell : cells) {
                sum += cell;
            }
        }
        return sum;
    }

    @Override
    public double lost() {
        return lost;
    }

    @Override
    public String method() {
        return "exact Markov chain of the counts of either weight since 0";
    }
}
