package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.OpeningMeasures;
import org.sideport.stats.geometry.Point;
import org.sideport.stats.geometry.PointMeasures;

/**
 * Sizes on a still, each with the uncertainty that clicking and scale bring together. All lengths are apparent ones: the
 * cornea enlarges what lies behind it and shifts it to the side where one looks at an angle; neither is corrected.
 *
 * @param values in the order in which they are shown
 * @param method for the reader of a report
 * @param warnings sentences for people
 */
public record StillMeasures(List<MeasuredValue> values, String method, List<String> warnings) {

    /** Taken for the error of a click where the points cannot tell, square pixels; from memory. */
    public static final double USUAL_CLICK_PX = 2;

    private static final double LEVEL = 0.95;
    private static final String APPARENT =
            "; ± is one standard uncertainty, limits are 95 %; apparent size: the cornea's magnification and parallax"
                    + " are not corrected";

    public StillMeasures {
        values = List.copyOf(values);
        warnings = List.copyOf(warnings);
    }

    /** The ellipse through points; with five, which it always fits, their error is taken as usual. */
    public static Outcome<EllipseFit> fit(List<Point> points) {
        return EllipseFit.geometric(
                points,
                points.stream().distinct().count() <= MeasuredShape.RHEXIS.fewestPoints()
                        ? (Double) USUAL_CLICK_PX
                        : null);
    }

    /** What the outlined limbus says about the still. */
    public static Outcome<StillMeasures> ofLimbus(List<Point> points, WhiteToWhite width) {
        return LimbusScale.of(points, width).map(scale -> {
            OpeningMeasures measures = OpeningMeasures.of(scale.fit(), null, LEVEL);
            double half = scale.calibration().sd() * 1.959964;
            List<MeasuredValue> values = List.of(
                    new MeasuredValue(
                            "scale",
                            "mm/px",
                            scale.calibration().mmPerPx(),
                            scale.calibration().sd(),
                            Math.max(0, scale.calibration().mmPerPx() - half),
                            scale.calibration().mmPerPx() + half),
                    value("limbus_width", "px", estimateOfWidth(scale, measures)),
                    value("axis_ratio", "", measures.axisRatio()));
            return new StillMeasures(
                    values,
                    ellipseText(scale.fit()) + "; " + scale.text() + "; holds on this frame only",
                    scale.fit().scatter().warnings());
        });
    }

    private static Estimate estimateOfWidth(LimbusScale scale, OpeningMeasures measures) {
        Estimate longer = measures.longDiameter();
        return longer.value() == scale.widthPx() ? longer : measures.equivalentDiameter();
    }

    /**
     * @param shape what was marked, not the limbus
     * @param points in order, square pixels
     * @param limbus of the same still; {@code null} if it was not outlined, which only an angle can do without
     * @param pupil of the same still, to tell how far an opening lies from its centre; {@code null} if not outlined
     */
    public static Outcome<StillMeasures> of(
            MeasuredShape shape, List<Point> points, @Nullable LimbusScale limbus, @Nullable EllipseFit pupil) {
        return switch (shape) {
            case LIMBUS -> throw new IllegalArgumentException("a limbus gives the scale");
            case ANGLE -> angle(points, limbus);
            case DISTANCE -> limbus == null ? noScale() : distance(points, limbus);
            case PUPIL -> limbus == null ? noScale() : opening(shape, points, limbus, null);
            case RHEXIS -> limbus == null ? noScale() : opening(shape, points, limbus, pupil);
        };
    }

    private static Outcome<StillMeasures> noScale() {
        return Outcome.refused(
                Refusal.Reason.NOT_IDENTIFIED,
                "this frame has no scale",
                "outline the limbus on this very frame first; the scale of another frame does not hold once zoom or"
                        + " focus has changed");
    }

    private static double click(@Nullable LimbusScale limbus) {
        return limbus == null ? USUAL_CLICK_PX : limbus.fit().scatter().clickSd();
    }

    static int freedom(EllipseFit fit) {
        return fit.scatter().estimated() ? fit.scatter().degreesOfFreedom() : 0;
    }

    private static String clickText(@Nullable LimbusScale limbus) {
        return String.format(
                Locale.ROOT,
                limbus == null ? "error of a click taken as %.1f px" : "error of a click %.1f px, from the limbus",
                click(limbus));
    }

    private static Outcome<StillMeasures> angle(List<Point> points, @Nullable LimbusScale limbus) {
        return new PointMeasures(click(limbus), limbus == null ? 0 : freedom(limbus.fit()), null, LEVEL)
                .angle(points.get(0), points.get(1), points.get(2))
                .map(found -> new StillMeasures(
                        List.of(value("angle", "degrees", found)),
                        "angle at the second point; " + clickText(limbus) + APPARENT,
                        List.of()));
    }

    private static Outcome<StillMeasures> distance(List<Point> points, LimbusScale limbus) {
        return new PointMeasures(click(limbus), freedom(limbus.fit()), limbus.calibration(), LEVEL)
                .distance(points.get(0), points.get(1))
                .map(found -> new StillMeasures(
                        List.of(value("distance", "mm", found)),
                        "straight distance in the picture's plane; " + clickText(limbus) + "; " + limbus.text()
                                + APPARENT,
                        limbus.fit().scatter().warnings()));
    }

    private static Outcome<StillMeasures> opening(
            MeasuredShape shape, List<Point> points, LimbusScale limbus, @Nullable EllipseFit pupil) {
        return fit(points).flatMap(fit -> {
            PointMeasures sides = new PointMeasures(fit.scatter().clickSd(), freedom(fit), limbus.calibration(), LEVEL);
            return sides.polygonDiameter(points)
                    .flatMap(polygon -> sides.polygonCircularity(points)
                            .map(round -> opening(shape, fit, polygon, round, limbus, pupil)));
        });
    }

    private static StillMeasures opening(
            MeasuredShape shape,
            EllipseFit fit,
            Estimate polygonDiameter,
            Estimate polygonCircularity,
            LimbusScale limbus,
            @Nullable EllipseFit pupil) {
        OpeningMeasures measures = OpeningMeasures.of(fit, limbus.calibration(), LEVEL);
        List<MeasuredValue> values = new ArrayList<>();
        List<String> warnings = new ArrayList<>(fit.scatter().warnings());
        values.add(value("apparent_diameter", "mm", measures.equivalentDiameter()));
        values.add(value("longer_diameter", "mm", measures.longDiameter()));
        values.add(value("shorter_diameter", "mm", measures.shortDiameter()));
        values.add(value("area", "mm2", measures.area()));
        values.add(value("circularity_4pi_area_by_perimeter2", "", measures.circularity()));
        Estimate ratio = measures.axisRatio();
        warnings.addAll(ratio.warnings());
        values.add(value("axis_ratio_short_by_long", "", ratio));
        values.add(value("polygon_diameter", "mm", polygonDiameter));
        values.add(value("polygon_circularity_4pi_area_by_perimeter2", "", polygonCircularity));
        Estimate fromLimbus = measures.decentration(limbus.ellipse().centre(), limbus.centreSdPx());
        values.add(value("decentration_from_limbus", "mm", fromLimbus));
        if (pupil != null) {
            double sd = Math.sqrt(Math.max(pupil.covariance()[0][0], pupil.covariance()[1][1]));
            values.add(value(
                    "decentration_from_pupil",
                    "mm",
                    measures.decentration(pupil.ellipse().centre(), sd)));
        }
        return new StillMeasures(
                values,
                shape.id() + ": " + ellipseText(fit)
                        + ", diameter of the circle with its area; polygon through the same points, whose straight"
                        + " sides cut corners and make it small; " + limbus.text()
                        + APPARENT,
                warnings);
    }

    private static String ellipseText(EllipseFit fit) {
        return String.format(
                Locale.ROOT,
                "ellipse of least squared distances through %d points (Gander, Golub and Strebel 1994), error of a"
                        + " click %.1f px %s",
                fit.scatter().points(),
                fit.scatter().clickSd(),
                fit.scatter().estimated() ? "from their scatter" : "taken as usual");
    }

    private static MeasuredValue value(String name, String unit, Estimate estimate) {
        Interval limits = estimate.limits();
        return new MeasuredValue(
                name,
                unit,
                estimate.value(),
                estimate.se(),
                limits == null ? null : (Double) limits.lower(),
                limits == null ? null : (Double) limits.upper());
    }
}
