package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;

/**
 * Run lengths of the charts that are held at 0 (tabular, log-likelihood-ratio and learning-curve CUSUM) until their signal.
 * With one risk for all cases they are exact; over a mix of risks a grid is used and its error stated. For the sequential
 * test see {@link SprtRunLength}.
 */
public final class BinaryRunLength {

    private static final int LARGEST_LATTICE = 20_000;
    private static final int CELLS = 600;

    private BinaryRunLength() {}

    /**
     * @param design not an {@link SprtDesign}
     * @param rate the true failure rate, 0 to 1 exclusive, the same for every case
     */
    public static RunLength of(BinaryDesign design, double rate) {
        return RunLength.of(chain(design, rate));
    }

    static RunChain chain(BinaryDesign design, double rate) {
        Check.rate("the true rate", rate);
        if (design.lowerLimit() != null) {
            throw new IllegalArgumentException("the sequential test has two limits; see SprtRunLength");
        }
        double failure = design.weight(true, design.acceptableRate());
        double success = design.weight(false, design.acceptableRate());
        double up = Math.max(failure, success);
        double down = -Math.min(failure, success);
        double chanceUp = failure > success ? rate : 1 - rate;
        double limit = design.upperLimit();
        int units = design instanceof TabularDesign tabular ? unitsPerCase(tabular.k()) : 0;
        if (units > 0 && limit * units <= LARGEST_LATTICE) {
            int upward = (int) Math.rint(up * units);
            return new LatticeChain(upward, units - upward, latticeLimit(limit, units), chanceUp);
        }
        return new StepCountChain(up, down, limit, chanceUp);
    }

    /**
     * With either weight rounded to a whole multiple of 1/scale, as many published tables are made (Brook & Evans 1972).
     * The rounding can move the result by several per cent when a weight is small against 1/scale; {@link
     * RunLength#error()} is the distance from the exact average run length. To recompute such a table, and for nothing else.
     *
     * @param scale units in 1, above 0, so that both weights are at least half a unit
     */
    public static RunLength onLattice(BinaryDesign design, double rate, int scale) {
        RunLength exact = of(design, rate);
        double failure = design.weight(true, design.acceptableRate());
        double success = design.weight(false, design.acceptableRate());
        int up = (int) Math.rint(Math.max(failure, success) * scale);
        int down = (int) Math.rint(-Math.min(failure, success) * scale);
        int limit = latticeLimit(design.upperLimit(), scale);
        if (up < 1 || down < 1 || limit > LARGEST_LATTICE) {
            throw new IllegalArgumentException("a lattice of 1/" + scale + " does not suit these weights");
        }
        RunLength rounded = RunLength.of(new LatticeChain(up, down, limit, failure > success ? rate : 1 - rate));
        return rounded.withError(
                Math.abs(rounded.arl() - exact.arl()),
                "Markov chain with the weights rounded to 1/" + scale + "; error from the exact one");
    }

    static int latticeLimit(double limit, int units) {
        return (int) Math.ceil((limit - BinaryDesign.TOLERANCE) * units);
    }

    /** The denominator of k as a fraction, if it is at most 1000; else 0. */
    static int unitsPerCase(double k) {
        for (int units = 1; units <= 1000; units++) {
            double count = k * units;
            if (Math.rint(count) >= 1 && Math.abs(count - Math.rint(count)) < 1e-10 * units) {
                return units;
            }
        }
        return 0;
    }

    /**
     * Over a mix of risks, cases in random order.
     *
     * @param oddsMultiplier what the odds of failure of every case are really multiplied by: 1 if the risks are right
     */
    public static RunLength of(LlrDesign design, RiskMix mix, double oddsMultiplier) {
        RunLength coarse = RunLength.of(new MixChain(design, mix, oddsMultiplier, CELLS / 2), 1e-8);
        RunLength fine = RunLength.of(new MixChain(design, mix, oddsMultiplier, CELLS), 1e-8);
        return fine.withError(
                Math.abs(fine.arl() - coarse.arl()),
                "Markov chain on a grid of " + CELLS + " cells; error from half as many");
    }

    static RunChain chain(LlrDesign design, RiskMix mix, double oddsMultiplier) {
        return new MixChain(design, mix, oddsMultiplier, CELLS);
    }

    /**
     * The probability of a signal within these very cases in this order, each with its own risk.
     *
     * @param oddsMultiplier what the odds of failure of every case are really multiplied by
     */
    public static double signalWithin(LlrDesign design, List<Double> risks, double oddsMultiplier) {
        GridChain chain = new GridChain(0, design.h(), true, 2 * CELLS);
        double sum = 0;
        for (double risk : risks) {
            double chance = multiplied(risk, oddsMultiplier);
            sum += chain.step(
                    new double[] {design.weight(true, risk), design.weight(false, risk)},
                    new double[] {chance, 1 - chance});
        }
        return sum;
    }

    static double multiplied(double risk, double oddsMultiplier) {
        return oddsMultiplier * risk / (1 - risk + oddsMultiplier * risk);
    }

    /** Weights and chances of a mix, for a grid. */
    static List<double[]> kernel(BinaryDesign design, RiskMix mix, double oddsMultiplier) {
        int n = mix.risks().size();
        double[] weights = new double[2 * n];
        double[] chances = new double[2 * n];
        for (int i = 0; i < n; i++) {
            double risk = mix.risks().get(i);
            double chance = multiplied(risk, oddsMultiplier);
            weights[2 * i] = design.weight(true, risk);
            chances[2 * i] = chance * mix.shares().get(i);
            weights[2 * i + 1] = design.weight(false, risk);
            chances[2 * i + 1] = (1 - chance) * mix.shares().get(i);
        }
        List<double[]> kernel = new ArrayList<>();
        kernel.add(weights);
        kernel.add(chances);
        return kernel;
    }

    private static final class MixChain implements RunChain {

        private final GridChain grid;
        private final double[] weights;
        private final double[] chances;

        MixChain(LlrDesign design, RiskMix mix, double oddsMultiplier, int cells) {
            grid = new GridChain(0, design.h(), true, cells);
            List<double[]> kernel = kernel(design, mix, oddsMultiplier);
            weights = kernel.get(0);
            chances = kernel.get(1);
        }

        @Override
        public double step() {
            return grid.step(weights, chances);
        }

        @Override
        public double alive() {
            return grid.alive();
        }

        @Override
        public double lost() {
            return 0;
        }

        @Override
        public String method() {
            return "Markov chain on a grid";
        }
    }
}
