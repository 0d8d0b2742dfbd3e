package org.sideport.cli.stats;

import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.mixed.GrowthDesign;

/** From the scale of the model to the scale of people: logs become factors, a slope per case one per 10 cases. */
record MixedScale(GrowthDesign design) {

    static Interval limits(Estimate estimate) {
        Interval limits = estimate.limits();
        if (limits == null) {
            throw new IllegalArgumentException(estimate.method() + " has no limits");
        }
        return limits;
    }

    /** A value of the model as a value of the data: for logs the geometric mean. */
    double value(double modelled) {
        return design.logResponse() ? Math.exp(modelled) : modelled;
    }

    Interval value(Interval limits) {
        return new Interval(value(limits.lower()), value(limits.upper()), limits.level());
    }

    /** The slope for people: a share for logs (−0.08 is 8 % less), and per 10 cases on the linear scale. */
    double change(double slope) {
        double scaled = design.time() == GrowthDesign.Time.LINEAR ? 10 * slope : slope;
        return design.logResponse() ? Math.expm1(scaled) : scaled;
    }

    Interval change(Interval limits) {
        return new Interval(change(limits.lower()), change(limits.upper()), limits.level());
    }

    String changeUnit() {
        return design.time() == GrowthDesign.Time.LOG ? "per doubling" : "per 10 cases";
    }

    /** {@code −8.1 % (95 % −10.2 % to −5.9 %)} for logs, {@code 4.2 (95 % 3.1 to 5.3)} else. */
    String change(Estimate slope) {
        Interval limits = change(limits(slope));
        return number(change(slope.value())) + " (" + level(limits) + " % " + number(limits.lower()) + " to "
                + number(limits.upper()) + ")";
    }

    /** The same with its unit. */
    String effect(Estimate slope) {
        return change(slope) + " " + changeUnit();
    }

    String number(double change) {
        return design.logResponse() ? Figures.percent(change) : Figures.plain(change);
    }

    static String level(Interval limits) {
        return Figures.plain(100 * limits.level(), limits.level() * 100 % 1 == 0 ? 0 : 1);
    }
}
