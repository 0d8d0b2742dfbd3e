package org.sideport.workflow;

import java.util.List;
import java.util.Locale;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Calibration;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.OpeningMeasures;
import org.sideport.stats.geometry.Point;

/**
 * The scale of one still, from its outlined limbus. White-to-white distances are measured across, where the cornea is
 * widest, so that the limbus's longer diameter has that length; of a limbus that these points cannot tell from a circle,
 * the diameter of the circle with its area, since errors of marking alone make one diameter longer.
 *
 * @param widthPx that diameter, square pixels
 * @param widthSdPx its standard uncertainty from marking
 */
public record LimbusScale(
        EllipseFit fit, WhiteToWhite width, double widthPx, double widthSdPx, Calibration calibration) {

    private static final double LEVEL = 0.95;
    /**
     * Standard errors by which the axis ratio must fall short of 1. The difference of the axes of a true circle is that of
     * two errors at right angles, whose length exceeds 3.5 standard errors in one of 460 (exp(−3.5²/2)).
     */
    private static final double SURELY_OVAL = 3.5;
    /** Below this share a difference in size is no change of zoom worth a word. */
    private static final double SAME_ZOOM = 0.01;

    /**
     * @param points on the limbus, square pixels
     * @return refused if they do not fix an ellipse
     */
    public static Outcome<LimbusScale> of(List<Point> points, WhiteToWhite width) {
        return StillMeasures.fit(points).map(fit -> {
            OpeningMeasures measures = OpeningMeasures.of(fit, null, LEVEL);
            Estimate ratio = measures.axisRatio();
            Double ratioSe = ratio.se();
            boolean oval = ratioSe != null && 1 - ratio.value() > SURELY_OVAL * ratioSe;
            Estimate used = oval ? measures.longDiameter() : measures.equivalentDiameter();
            Double se = used.se();
            double sd = se == null ? 0 : se;
            return new LimbusScale(
                    fit,
                    width,
                    used.value(),
                    sd,
                    Calibration.ofKnownLength(width.mm(), width.sdMm(), used.value(), sd, StillMeasures.freedom(fit)));
        });
    }

    public Ellipse ellipse() {
        return fit.ellipse();
    }

    /** Standard uncertainty of either coordinate of the centre, along the worse axis; square pixels. */
    public double centreSdPx() {
        return Math.sqrt(Math.max(fit.covariance()[0][0], fit.covariance()[1][1]));
    }

    /** Whether the limbus of another still is of another size than these points can explain. */
    public boolean hasOtherZoomThan(LimbusScale other) {
        double difference = Math.abs(widthPx - other.widthPx);
        return difference > 2 * Math.hypot(widthSdPx, other.widthSdPx) && difference > SAME_ZOOM * widthPx;
    }

    /** For the reader of a report. */
    public String text() {
        return String.format(
                Locale.ROOT,
                "scale from the limbus on the same frame, %.1f ± %.1f px for %.2f ± %.2f mm (%s)",
                widthPx,
                widthSdPx,
                width.mm(),
                width.sdMm(),
                width.own()
                        ? "this eye's own white-to-white distance"
                        : "mean and spread of horizontal white-to-white, Rüfer et al. 2005, Cornea 24:259");
    }
}
