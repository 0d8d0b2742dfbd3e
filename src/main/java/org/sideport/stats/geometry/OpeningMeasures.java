package org.sideport.stats.geometry;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleBiFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/**
 * Size and shape of an opening from a fitted circle or ellipse. Errors of marking reach the measures through the fit's
 * covariance to first order; an uncertain scale adds its relative variance to lengths (four times to areas) and nothing to
 * ratios. Limits are normal, or Student's where the error of marking is estimated from the scatter: with the fit's degrees
 * of freedom, or more as far as other sources of error with known size share in it (Welch and Satterthwaite's formula, JCGM
 * 100:2008, G.4.1). What one looks at through the cornea is enlarged, so that all lengths are apparent ones.
 *
 * <p>Lengths are in millimetres if there is a calibration, else in the unit of the points.
 */
public final class OpeningMeasures {

    private static final double STEP = 1e-5;

    /** Relative change of a measure by the logarithms of both semi-axes. */
    private record Slope(double byLong, double byShort) {}

    private final double scale;
    private final double relativeScaleSd;
    private final double estimatedScaleVariance;
    private final int scaleFreedom;
    private final double level;
    private final PointScatter scatter;
    private final double logA;
    private final double logB;
    private final double[][] logCovariance;
    private final Point centre;
    private final double[][] centreCovariance;

    private OpeningMeasures(
            @Nullable Calibration calibration,
            double level,
            PointScatter scatter,
            double logA,
            double logB,
            double[][] logCovariance,
            Point centre,
            double[][] covariance) {
        this.scale = calibration == null ? 1 : calibration.mmPerPx();
        this.relativeScaleSd = calibration == null ? 0 : calibration.relativeSd();
        this.estimatedScaleVariance = calibration == null ? 0 : calibration.estimatedRelativeVariance();
        this.scaleFreedom = calibration == null ? 0 : calibration.freedom();
        this.level = level;
        this.scatter = scatter;
        this.logA = logA;
        this.logB = logB;
        this.logCovariance = logCovariance;
        this.centre = centre;
        this.centreCovariance = covariance;
    }

    /** @param level nominal coverage of the limits, for instance 0.95 */
    public static OpeningMeasures of(CircleFit fit, @Nullable Calibration calibration, double level) {
        double radius = fit.circle().radius();
        double variance = fit.covariance()[2][2] / (radius * radius);
        return new OpeningMeasures(
                calibration,
                level,
                fit.scatter(),
                Math.log(radius),
                Math.log(radius),
                new double[][] {{variance, variance}, {variance, variance}},
                fit.circle().centre(),
                fit.covariance());
    }

    /** @param level nominal coverage of the limits, for instance 0.95 */
    public static OpeningMeasures of(EllipseFit fit, @Nullable Calibration calibration, double level) {
        double[][] c = fit.covariance();
        return new OpeningMeasures(
                calibration,
                level,
                fit.scatter(),
                Math.log(fit.ellipse().semiMajor()),
                Math.log(fit.ellipse().semiMinor()),
                new double[][] {{c[2][2], c[2][3]}, {c[3][2], c[3][3]}},
                fit.ellipse().centre(),
                c);
    }

    /** Diameter of the circle with the same area. */
    public Estimate equivalentDiameter() {
        return estimate("equivalent diameter", 1, (a, b) -> 2 * Math.sqrt(a * b));
    }

    public Estimate longDiameter() {
        return estimate("longer diameter", 1, (a, b) -> 2 * a);
    }

    public Estimate shortDiameter() {
        return estimate("shorter diameter", 1, (a, b) -> 2 * b);
    }

    public Estimate area() {
        return estimate("area", 2, (a, b) -> Math.PI * a * b);
    }

    public Estimate perimeter() {
        return estimate("perimeter, exact", 1, Ellipse::perimeter);
    }

    /** {@code 4 π A / P²}. */
    public Estimate circularity() {
        return estimate("4 pi A / P^2", 0, (a, b) -> {
            double perimeter = Ellipse.perimeter(a, b);
            return 4 * Math.PI * Math.PI * a * b / (perimeter * perimeter);
        });
    }

    /** Shorter over longer axis. */
    public Estimate axisRatio() {
        Estimate ratio = estimate("shorter over longer axis", 0, (a, b) -> b / a);
        return ratio.se() != null && ratio.value() < 1 && 1 - ratio.value() < 2 * ratio.se()
                ? ratio.withWarnings(List.of("The opening cannot be told from a circle with these points, and errors of"
                        + " marking make a round opening look a little oval."))
                : ratio;
    }

    /**
     * Distance of the fitted centre from another, for instance that of the pupil or the lens.
     *
     * @param reference in the unit of the points
     * @param referenceSd standard uncertainty of either of its coordinates
     */
    public Estimate decentration(Point reference, double referenceSd) {
        double dx = centre.x() - reference.x();
        double dy = centre.y() - reference.y();
        double distance = Math.hypot(dx, dy);
        // along the line between both centres; at no distance along the worse of the axes
        double ux = distance > 0 ? dx / distance : centreCovariance[0][0] >= centreCovariance[1][1] ? 1 : 0;
        double uy = distance > 0 ? dy / distance : 1 - ux;
        double marking = ux * ux * centreCovariance[0][0]
                + 2 * ux * uy * centreCovariance[0][1]
                + uy * uy * centreCovariance[1][1];
        double variance = marking + referenceSd * referenceSd + distance * distance * relativeScaleSd * relativeScaleSd;
        double se = scale * Math.sqrt(variance);
        List<String> warnings = new ArrayList<>();
        if (distance * scale < 2 * se) {
            warnings.add("The distance is within its own uncertainty, which makes it come out too large.");
        }
        double factor = factor(variance, marking, distance * distance * estimatedScaleVariance);
        return estimate("distance of centres", scale * distance, se, factor, Double.POSITIVE_INFINITY, warnings);
    }

    private Estimate estimate(String method, int power, ToDoubleBiFunction<Double, Double> measure) {
        double a = Math.exp(logA);
        double b = Math.exp(logB);
        double value = measure.applyAsDouble(a, b);
        Slope slope = new Slope(
                slope(
                        value,
                        measure.applyAsDouble(a * Math.exp(STEP), b),
                        measure.applyAsDouble(a * Math.exp(-STEP), b)),
                slope(
                        value,
                        measure.applyAsDouble(a, b * Math.exp(STEP)),
                        measure.applyAsDouble(a, b * Math.exp(-STEP))));
        double variance = slope.byLong * slope.byLong * logCovariance[0][0]
                + 2 * slope.byLong * slope.byShort * logCovariance[0][1]
                + slope.byShort * slope.byShort * logCovariance[1][1];
        double marking = Math.max(0, variance);
        double relative = Math.hypot(Math.sqrt(marking), power * relativeScaleSd);
        double factor = factor(relative * relative, marking, power * power * estimatedScaleVariance);
        double scaled = value * Math.pow(scale, power);
        return estimate(
                method, scaled, scaled * relative, factor, power == 0 ? 1 : Double.POSITIVE_INFINITY, List.of());
    }

    private static double slope(double value, double above, double below) {
        return (above - below) / (2 * STEP * value);
    }

    /**
     * @param factor how many standard errors the limits lie from the value
     * @param most what the measure cannot exceed
     */
    private Estimate estimate(
            String method, double value, double se, double factor, double most, List<String> warnings) {
        double half = se * factor;
        return new Estimate(
                value,
                se,
                new Interval(Math.max(0, value - half), Math.min(most, value + half), level),
                scatter.points(),
                method,
                warnings);
    }

    private double factor(double variance, double marking, double scaling) {
        return new Coverage(level, variance)
                .estimated(marking, scatter.estimated() ? scatter.degreesOfFreedom() : 0)
                .estimated(scaling, scaleFreedom)
                .factor();
    }
}
