package org.sideport.stats.monitoring;

/**
 * The log-likelihood-ratio CUSUM, plain or risk-adjusted (Steiner et al. 2000, Biostatistics 1:441, equations 2 and 3): S
 * = max(0, S + W), a success adds −ln(1 − p + R p), a failure ln R − ln(1 − p + R p), a signal at S ≥ h. R is the factor on
 * the odds of failure that is to be found: 2 for doubled odds, ½ for halved odds (a chart of improvement).
 *
 * @param oddsMultiplier R, above 0, not 1
 * @param h the limit, in units of log likelihood
 * @param p0 the acceptable failure rate, and the risk of each case where none is given
 */
public record LlrDesign(double oddsMultiplier, double h, double p0) implements BinaryDesign {

    public LlrDesign {
        Check.positive("the odds multiplier", oddsMultiplier);
        if (oddsMultiplier == 1) {
            throw new IllegalArgumentException("an odds multiplier of 1 is no change to look for");
        }
        Check.positive("h", h);
        Check.rate("p0", p0);
    }

    @Override
    public double weight(boolean failure, double risk) {
        return (failure ? Math.log(oddsMultiplier) : 0) - Math.log1p(risk * (oddsMultiplier - 1));
    }

    @Override
    public double acceptableRate() {
        return p0;
    }

    /** The rate after the odds are multiplied by R. */
    @Override
    public double otherRate() {
        return changed(p0);
    }

    double changed(double risk) {
        return oddsMultiplier * risk / (1 - risk + oddsMultiplier * risk);
    }

    @Override
    public SignalKind upperSignal() {
        return oddsMultiplier > 1 ? SignalKind.ALARM : SignalKind.IMPROVED;
    }

    @Override
    public double upperLimit() {
        return h;
    }

    @Override
    public boolean adjustsRisk() {
        return true;
    }
}
