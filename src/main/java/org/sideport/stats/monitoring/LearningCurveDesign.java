package org.sideport.stats.monitoring;

/**
 * The learning-curve CUSUM (Biau & Porcher 2010, Statistics in Medicine 29:1900; the form for yes/no outcomes as in Biau
 * et al. 2008): it starts from "not competent" and gathers evidence for competence. S = max(0, S + W), a success adds
 * ln((1 − pa)/(1 − pi)) above 0, a failure ln(pa/pi) below 0, and S ≥ h shows competence.
 *
 * @param pa adequate failure rate
 * @param pi inadequate failure rate, above pa
 * @param h the limit, in units of log likelihood
 */
public record LearningCurveDesign(double pa, double pi, double h) implements BinaryDesign {

    public LearningCurveDesign {
        Check.rate("the adequate rate", pa);
        Check.rate("the inadequate rate", pi);
        Check.ordered(pa, pi);
        Check.positive("h", h);
    }

    /** The fewest cases to the signal: all of them successes. */
    public int fewestCases() {
        return (int) Math.ceil(h / weight(false, pa) - TOLERANCE);
    }

    /** The ordinary CUSUM that watches over competence once it is shown: from pa to pi, with this limit. */
    public LlrDesign watch(double limit) {
        return new LlrDesign(pi * (1 - pa) / (pa * (1 - pi)), limit, pa);
    }

    @Override
    public double weight(boolean failure, double risk) {
        return failure ? Math.log(pa / pi) : Math.log1p(-pa) - Math.log1p(-pi);
    }

    @Override
    public double acceptableRate() {
        return pa;
    }

    @Override
    public double otherRate() {
        return pi;
    }

    /** Competence signalled at the inadequate rate is the wrong verdict. */
    @Override
    public double falseSignalRate() {
        return pi;
    }

    @Override
    public SignalKind upperSignal() {
        return SignalKind.ACCEPTED;
    }

    @Override
    public double upperLimit() {
        return h;
    }
}
