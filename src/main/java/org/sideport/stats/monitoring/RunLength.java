package org.sideport.stats.monitoring;

import java.util.Arrays;

/**
 * The distribution of a chart's run length N, the number of cases until its first signal, at one constant rate from the
 * chart's start on. The chain is followed case by case until the probability of a signal at the next case, given none yet,
 * has settled to ten digits; from there on N is geometric.
 */
public final class RunLength {

    private static final double SETTLED = 1e-11;
    private static final int MOST_CASES = 400_000;
    private static final double NOTHING = 1e-16;

    private final String method;
    private final double[] survival;
    private final double hazard;
    private final double error;

    private RunLength(String method, double[] survival, double hazard, double error) {
        this.method = method;
        this.survival = survival;
        this.hazard = hazard;
        this.error = error;
    }

    static RunLength of(RunChain chain) {
        return of(chain, SETTLED);
    }

    /** @param settled relative change of the hazard that counts as none */
    static RunLength of(RunChain chain, double settled) {
        double[] survival = new double[256];
        survival[0] = 1;
        double alive = 1;
        double reference = 0;
        double hazard = 0;
        int since = 0;
        int cases = 0;
        while (cases < MOST_CASES && alive > NOTHING) {
            double signal = chain.step();
            hazard = signal / alive;
            alive = chain.alive();
            cases++;
            if (cases == survival.length) {
                survival = Arrays.copyOf(survival, 2 * survival.length);
            }
            survival[cases] = alive;
            if (hazard > 0 && Math.abs(hazard - reference) <= settled * hazard) {
                since++;
            } else {
                reference = hazard;
                since = 0;
            }
            if (since >= 100 + cases / 5) {
                break;
            }
        }
        double[] kept = Arrays.copyOf(survival, cases + 1);
        boolean stopped = cases >= MOST_CASES;
        // What was cut off could at most have lived on as long as the rest does.
        double error = alive > NOTHING
                ? (chain.lost() + (stopped ? alive : 10 * settled)) / Math.max(hazard, Double.MIN_NORMAL)
                : chain.lost() * cases;
        return new RunLength(chain.method(), kept, hazard, error);
    }

    RunLength withError(double more, String otherMethod) {
        return new RunLength(otherMethod, survival, hazard, error + more);
    }

    /** The average run length. */
    public double arl() {
        double sum = 0;
        for (int n = survival.length - 2; n >= 0; n--) {
            sum += survival[n];
        }
        return sum + tail();
    }

    /** The standard deviation of the run length. */
    public double sd() {
        double mean = arl();
        int last = survival.length - 1;
        double second = 0;
        for (int n = last - 1; n >= 0; n--) {
            second += (2.0 * n + 1) * survival[n];
        }
        if (survival[last] > NOTHING) {
            second += survival[last] * ((2.0 * last + 1) / hazard + 2 * (1 - hazard) / (hazard * hazard));
        }
        return Math.sqrt(Math.max(0, second - mean * mean));
    }

    /** The smallest n with P(N ≤ n) ≥ 0.5. */
    public long median() {
        return quantile(0.5);
    }

    /**
     * The smallest n with P(N ≤ n) ≥ p.
     *
     * @param p between 0 and 1, exclusive
     */
    public long quantile(double p) {
        if (!(p > 0 && p < 1)) {
            throw new IllegalArgumentException("quantile " + p);
        }
        for (int n = 1; n < survival.length; n++) {
            if (survival[n] <= 1 - p) {
                return n;
            }
        }
        int last = survival.length - 1;
        return last + (long) Math.ceil(Math.log((1 - p) / survival[last]) / Math.log1p(-hazard));
    }

    /**
     * The probability of a signal within the first n cases.
     *
     * @param n 0 or more
     */
    public double signalWithin(long n) {
        int last = survival.length - 1;
        if (n <= last) {
            return 1 - survival[(int) n];
        }
        return survival[last] == 0 ? 1 : 1 - survival[last] * Math.pow(1 - hazard, n - last);
    }

    /** A bound on the error of the average run length that the method makes, in cases. */
    public double error() {
        return error;
    }

    /** How it was computed. */
    public String method() {
        return method;
    }

    private double tail() {
        double alive = survival[survival.length - 1];
        return alive > NOTHING ? alive / hazard : 0;
    }
}
