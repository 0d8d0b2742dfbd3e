package org.sideport.stats.monitoring;

/**
 * The sequential probability ratio test of a failure rate, drawn as a line (the "learning-curve CUSUM" of trainee
 * papers): each success adds −s, each failure 1 − s, with OR = p1 (1 − p0) / (p0 (1 − p1)) and s = ln((1 − p0)/(1 − p1))
 * / ln OR. The acceptable rate is accepted at or below −h0 = −ln((1 − α)/β) / ln OR, the unacceptable one at or above h1 =
 * ln((1 − β)/α) / ln OR (Wald 1947, Sequential Analysis, section 5.3; Williams et al. 1992, BMJ 304:1359). With a risk p
 * of its own a case has s = ln(1 − p + OR p) / ln OR, which is the same for p = p0.
 *
 * @param p0 acceptable failure rate
 * @param p1 unacceptable failure rate, above p0
 * @param alpha wished probability of an alarm at p0, below 0.5
 * @param beta wished probability of acceptance at p1, below 0.5
 */
public record SprtDesign(double p0, double p1, double alpha, double beta) implements BinaryDesign {

    public SprtDesign {
        Check.rate("p0", p0);
        Check.rate("p1", p1);
        Check.ordered(p0, p1);
        if (!(alpha > 0 && alpha < 0.5 && beta > 0 && beta < 0.5)) {
            throw new IllegalArgumentException(
                    "alpha " + alpha + " and beta " + beta + " have to lie between 0 and 0.5");
        }
    }

    public double oddsRatio() {
        return p1 * (1 - p0) / (p0 * (1 - p1));
    }

    /** What a success takes off, for a case of this risk. */
    public double s(double risk) {
        return Math.log1p(risk * (oddsRatio() - 1)) / Math.log(oddsRatio());
    }

    /** What a success takes off, without risk adjustment. */
    public double s() {
        return s(p0);
    }

    public double h0() {
        return Math.log((1 - alpha) / beta) / Math.log(oddsRatio());
    }

    public double h1() {
        return Math.log((1 - beta) / alpha) / Math.log(oddsRatio());
    }

    /** The fewest cases to acceptance: all of them successes. */
    public int fewestCasesToAccept() {
        return (int) Math.ceil(h0() / s() - TOLERANCE);
    }

    @Override
    public double weight(boolean failure, double risk) {
        return (failure ? 1 : 0) - s(risk);
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
        return h1();
    }

    @Override
    public Double lowerLimit() {
        return -h0();
    }

    @Override
    public boolean adjustsRisk() {
        return true;
    }
}
