package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What a sequential test does at one true failure rate: how often it accepts, how often it alarms, and after how many
 * cases. Wald's limits promise α and β only up to the overshoot; these are the probabilities that really hold. With one
 * risk for all cases the number of failures is the state, so that they are exact.
 *
 * @param rate the true failure rate, 0 to 1 exclusive; over a mix of risks the expected one
 * @param accepts probability that the acceptable rate is accepted in the end
 * @param alarms probability that the test alarms in the end
 * @param cases expected number of cases to the decision
 * @param sd standard deviation of that number
 * @param median smallest number of cases within which the test decides with probability 0.5 or more
 * @param error a bound on the error of {@code cases}
 * @param acceptsWithin P(accepted within n) for n = 0, 1, 2 … until all is decided
 * @param alarmsWithin P(alarm within n), likewise
 */
public record SprtRunLength(
        double rate,
        double accepts,
        double alarms,
        double cases,
        double sd,
        long median,
        double error,
        List<Double> acceptsWithin,
        List<Double> alarmsWithin) {

    private static final double NOTHING = 1e-15;
    private static final int CELLS = 1200;

    public SprtRunLength {
        acceptsWithin = List.copyOf(acceptsWithin);
        alarmsWithin = List.copyOf(alarmsWithin);
    }

    public double acceptsWithin(int n) {
        return acceptsWithin.get(Math.min(n, acceptsWithin.size() - 1));
    }

    public double alarmsWithin(int n) {
        return alarmsWithin.get(Math.min(n, alarmsWithin.size() - 1));
    }

    /** @param rate the true failure rate, 0 to 1 exclusive, the same for every case */
    public static SprtRunLength of(SprtDesign design, double rate) {
        Check.rate("the true rate", rate);
        double s = design.s();
        double lower = -design.h0() + BinaryDesign.TOLERANCE;
        double upper = design.h1() - BinaryDesign.TOLERANCE;
        double[] failures = new double[16];
        failures[0] = 1;
        int most = 0;
        Tally tally = new Tally();
        double alive = 1;
        while (alive > NOTHING) {
            if (most + 2 > failures.length) {
                failures = Arrays.copyOf(failures, 2 * failures.length);
            }
            int n = tally.cases() + 1;
            double accepted = 0;
            double alarmed = 0;
            int highest = 0;
            alive = 0;
            for (int f = most + 1; f >= 0; f--) {
                double here = failures[f] * (1 - rate) + (f > 0 ? failures[f - 1] * rate : 0);
                double line = f - n * s;
                failures[f] = 0;
                if (line <= lower) {
                    accepted += here;
                } else if (line >= upper) {
                    alarmed += here;
                } else if (here > 0) {
                    failures[f] = here;
                    alive += here;
                    highest = Math.max(highest, f);
                }
            }
            most = highest;
            tally.add(accepted, alarmed);
        }
        return tally.result(rate, alive * tally.cases());
    }

    /**
     * Over a mix of risks, cases in random order, on a grid.
     *
     * @param oddsMultiplier what the odds of failure of every case are really multiplied by
     */
    public static SprtRunLength of(SprtDesign design, RiskMix mix, double oddsMultiplier) {
        Check.positive("the odds multiplier", oddsMultiplier);
        double rate = 0;
        for (int i = 0; i < mix.risks().size(); i++) {
            rate += mix.shares().get(i) * BinaryRunLength.multiplied(mix.risks().get(i), oddsMultiplier);
        }
        SprtRunLength coarse = onGrid(design, mix, oddsMultiplier, CELLS / 2, rate);
        SprtRunLength fine = onGrid(design, mix, oddsMultiplier, CELLS, rate);
        return new SprtRunLength(
                rate,
                fine.accepts,
                fine.alarms,
                fine.cases,
                fine.sd,
                fine.median,
                Math.abs(fine.cases - coarse.cases),
                fine.acceptsWithin,
                fine.alarmsWithin);
    }

    private static SprtRunLength onGrid(SprtDesign design, RiskMix mix, double oddsMultiplier, int cells, double rate) {
        GridChain grid = new GridChain(-design.h0(), design.h1(), false, cells);
        List<double[]> kernel = BinaryRunLength.kernel(design, mix, oddsMultiplier);
        Tally tally = new Tally();
        while (grid.alive() > 1e-10) {
            double alarmed = grid.step(kernel.get(0), kernel.get(1));
            tally.add(grid.reachedLow(), alarmed);
        }
        return tally.result(rate, 0);
    }

    /** Sums over the cases. */
    private static final class Tally {

        private final List<Double> accepts = new ArrayList<>(List.of(0.0));
        private final List<Double> alarms = new ArrayList<>(List.of(0.0));
        private double mean;
        private double square;
        private long median;

        int cases() {
            return accepts.size() - 1;
        }

        void add(double accepted, double alarmed) {
            double n = cases() + 1;
            mean += n * (accepted + alarmed);
            square += n * n * (accepted + alarmed);
            accepts.add(accepts.get(cases()) + accepted);
            alarms.add(alarms.get(alarms.size() - 1) + alarmed);
            if (median == 0 && accepts.get(cases()) + alarms.get(cases()) >= 0.5) {
                median = cases();
            }
        }

        SprtRunLength result(double rate, double error) {
            return new SprtRunLength(
                    rate,
                    accepts.get(cases()),
                    alarms.get(cases()),
                    mean,
                    Math.sqrt(Math.max(0, square - mean * mean)),
                    median,
                    error,
                    accepts,
                    alarms);
        }
    }
}
