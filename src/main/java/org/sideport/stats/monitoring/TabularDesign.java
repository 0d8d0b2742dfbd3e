package org.sideport.stats.monitoring;

/**
 * The one-sided tabular CUSUM of failures: C = max(0, C + X − k), a signal at C ≥ h (Page 1954, Biometrika 41:100). It
 * knows no risk of the case.
 *
 * @param k the reference value, between the acceptable and the unacceptable rate
 * @param h the limit, in failures
 * @param p0 acceptable failure rate
 * @param p1 unacceptable failure rate
 */
public record TabularDesign(double k, double h, double p0, double p1) implements BinaryDesign {

    public TabularDesign {
        Check.rate("k", k);
        Check.positive("h", h);
        Check.rate("p0", p0);
        Check.rate("p1", p1);
        Check.ordered(p0, p1);
    }

    /** Whether k lies where it belongs: not below the acceptable and not above the unacceptable rate. */
    public boolean isCentred() {
        return k >= p0 && k <= p1;
    }

    @Override
    public double weight(boolean failure, double risk) {
        return (failure ? 1 : 0) - k;
    }

    @Override
    public double acceptableRate() {
        return p0;
    }

    @Override
    public double otherRate() {
        return p1;
    }

    @Override
    public SignalKind upperSignal() {
        return SignalKind.ALARM;
    }

    @Override
    public double upperLimit() {
        return h;
    }
}
