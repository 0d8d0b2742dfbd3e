package org.sideport.stats.monitoring;

import java.util.Set;
import org.hipparchus.analysis.solvers.BrentSolver;

/**
 * Run lengths of charts of independent normal values whose mean is off the baseline's by a shift from the first case on, the
 * baseline being known.
 *
 * @param arl average run length
 * @param distribution of the run length; for the two-sided CUSUM an approximation that takes its sides as independent
 * @param method how the average was computed
 */
public record ValueRunLength(double arl, RunLength distribution, String method) {

    /** @param shift of the mean, in SD of a value, either sign */
    public static ValueRunLength of(CusumDesign design, double shift) {
        double fromZeroUp = oneSided(design, shift, 0).arl();
        double fromZeroDown = oneSided(design, -shift, 0).arl();
        double arl = fromZeroUp * fromZeroDown / (fromZeroUp + fromZeroDown);
        if (design.headStart() > 0) {
            // Lucas & Crosier 1982, appendix; Kemp 1961 without a head start
            double up = oneSided(design, shift, design.headStart()).arl();
            double down = oneSided(design, -shift, design.headStart()).arl();
            arl = (up * fromZeroDown + fromZeroUp * down - fromZeroUp * fromZeroDown) / (fromZeroUp + fromZeroDown);
        }
        TwoSides both = new TwoSides(
                new CusumChain(shift - design.k(), design.h(), design.headStart()),
                new CusumChain(-shift - design.k(), design.h(), design.headStart()));
        return new ValueRunLength(
                arl,
                RunLength.of(both, 1e-9),
                "integral equation of either side, joined after Kemp 1961 and Lucas & Crosier 1982");
    }

    /** The upper side of a CUSUM alone. */
    public static RunLength oneSided(CusumDesign design, double shift, double start) {
        return RunLength.of(new CusumChain(shift - design.k(), design.h(), start), 1e-9);
    }

    /** @param shift of the mean, in SD of a value, either sign */
    public static ValueRunLength of(EwmaDesign design, double shift) {
        return of(RunLength.of(new EwmaChain(design, shift), 1e-9));
    }

    /**
     * The individuals chart without its moving ranges, which make signals more frequent.
     *
     * @param rules those in force; an empty set means the 3 SD limits alone
     * @param shift of the mean, in SD of a value, either sign
     */
    public static ValueRunLength individuals(Set<RunRule> rules, double shift) {
        return of(RunLength.of(new RulesChain(rules.isEmpty() ? Set.of(RunRule.BEYOND_3_SD) : rules, shift)));
    }

    private static ValueRunLength of(RunLength run) {
        return new ValueRunLength(run.arl(), run, run.method());
    }

    /** The h of a two-sided CUSUM without a head start whose in-control average run length is this. */
    public static double cusumLimit(double k, double wished) {
        return solve(wished, 0.2, 20, h -> of(new CusumDesign(k, h, 0), 0).arl());
    }

    /** The width L of an EWMA whose in-control average run length is this. */
    public static double ewmaWidth(double lambda, boolean steady, double wished) {
        return solve(
                wished,
                0.5,
                6,
                width -> of(new EwmaDesign(lambda, width, steady), 0).arl());
    }

    private static double solve(double wished, double low, double high, java.util.function.DoubleUnaryOperator arl) {
        if (!(wished >= 2 && wished <= 1e6)) {
            throw new IllegalArgumentException("an average run length of " + wished + " cannot be met");
        }
        // A wide limit's run length is beyond count; the bracket grows from below instead.
        double from = low;
        double to = low;
        while (to < high && arl.applyAsDouble(to) < wished) {
            from = to;
            to = Math.min(high, to + 0.5);
        }
        return from == to
                ? low
                : new BrentSolver(1e-12, 1e-8)
                        .solve(100, x -> Math.log(arl.applyAsDouble(x)) - Math.log(wished), from, to);
    }

    private static final class TwoSides implements RunChain {

        private final CusumChain upper;
        private final CusumChain lower;

        TwoSides(CusumChain upper, CusumChain lower) {
            this.upper = upper;
            this.lower = lower;
        }

        @Override
        public double step() {
            double aliveUp = upper.alive();
            double aliveDown = lower.alive();
            double up = upper.step();
            double down = lower.step();
            return up * aliveDown + down * aliveUp - up * down;
        }

        @Override
        public double alive() {
            return upper.alive() * lower.alive();
        }

        @Override
        public double lost() {
            return 0;
        }

        @Override
        public String method() {
            return "both sides taken as independent";
        }
    }
}
