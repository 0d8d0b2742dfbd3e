package org.sideport.stats.geometry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

class ShapesTest {

    /**
     * An opening of 5.5 by 4.9 mm: area 21.1665, perimeter 16.3499 by Ramanujan's formula, 4πA/P² .99501, axis ratio .8909,
     * equivalent diameter 5.1913 (by hand from the formulas); the exact perimeter by numerical integration in R
     * (src/test/oracle/geometry/fits.R).
     */
    @Test
    void measuresOfASlightlyOvalOpening() {
        Ellipse opening = new Ellipse(0, 0, 2.75, 2.45, 0);
        assertThat(opening.area()).isCloseTo(21.1665, within(5e-5));
        assertThat(opening.perimeterRamanujan()).isCloseTo(16.3499, within(5e-5));
        assertThat(opening.perimeter()).isCloseTo(16.3498780585, within(1e-9));
        assertThat(opening.circularity()).isCloseTo(0.99501, within(5e-6));
        assertThat(opening.axisRatio()).isCloseTo(0.8909, within(5e-5));
        assertThat(opening.equivalentDiameter()).isCloseTo(5.1913, within(5e-5));
    }

    /** R: integrate; the flattest tends to four times the axis. A circle of radius 2 measures 4π. */
    @ParameterizedTest
    @CsvSource({"5, 1, 21.0100445397, 1e-9", "1, 0.001, 4.0000155881, 1e-8", "2, 2, 12.566370614359172, 1e-13"})
    void theExactPerimeter(double a, double b, double expected, double tolerance) {
        assertThat(new Ellipse(0, 0, a, b, 0).perimeter()).isCloseTo(expected, within(tolerance));
        assertThat(Ellipse.perimeter(b, a)).isEqualTo(new Ellipse(0, 0, a, b, 0).perimeter());
    }

    /** Ramanujan's second formula at axes 5 to 1 is short by a few parts in 10⁶. */
    @Test
    void ramanujansPerimeterOfAFlatEllipseIsAlittleShort() {
        double short_ = 1 - new Ellipse(0, 0, 5, 1, 0).perimeterRamanujan() / 21.0100445397;
        assertThat(short_).isBetween(1e-7, 1e-5);
        assertThat(new Ellipse(0, 0, 2, 2, 0).perimeterRamanujan()).isCloseTo(4 * Math.PI, within(1e-14));
        assertThat(new Ellipse(0, 0, 2, 2, 0).circularity()).isCloseTo(1, within(1e-14));
    }

    @Test
    void anglesComeOutBetweenNoneAndHalfATurn() {
        assertThat(Ellipse.of(0, 0, 2, 1, -0.1).angle()).isCloseTo(Math.PI - 0.1, within(1e-15));
        assertThat(Ellipse.of(0, 0, 2, 1, 4).angle()).isCloseTo(4 - Math.PI, within(1e-15));
        assertThat(Ellipse.of(0, 0, 1, 2, 0.1)).isEqualTo(new Ellipse(0, 0, 2, 1, 0.1 + Math.PI / 2));
        assertThat(Ellipse.of(0, 0, 2, 1, -1e-20).angle()).isZero();
        assertThat(Ellipse.of(0, 0, 1, 1, 0.5).angle()).isEqualTo(0.5);
    }

    /** π/4 = .7854 for a square, π√3/6 = .9069 for a regular hexagon. */
    @Test
    void circularityOfRegularPolygons() {
        Polygon square =
                Polygon.of(FitsTest.points(10, 10, 10, 14, 14, 14, 14, 10)).orElseThrow();
        assertThat(square).isEqualTo(new Polygon(4, 16, 16));
        assertThat(square.circularity()).isCloseTo(0.7854, within(5e-5));
        Polygon hexagon = Polygon.of(FitsTest.onEllipse(new Ellipse(1e6, -1e6, 3, 3, 0.1), 6, 0))
                .orElseThrow();
        assertThat(hexagon.circularity()).isCloseTo(0.9069, within(5e-5));
        assertThat(hexagon.perimeter()).isCloseTo(18, within(1e-8));
        assertThat(hexagon.area()).isCloseTo(1.5 * Math.sqrt(3) * 9, within(1e-8));
        // 3-4-5: area 6, perimeter 12
        assertThat(Polygon.of(FitsTest.points(0, 0, 3, 0, 0, 4)).orElseThrow()).isEqualTo(new Polygon(3, 6, 12));
        // an L of three unit squares is not convex and does not cross itself
        assertThat(Polygon.of(FitsTest.points(0, 0, 2, 0, 2, 1, 1, 1, 1, 2, 0, 2))
                        .orElseThrow())
                .isEqualTo(new Polygon(6, 3, 8));
    }

    @Test
    void polygonsWithoutAreaOrCrossingThemselvesAreRefused() {
        assertThat(FitsTest.reason(Polygon.of(FitsTest.points(0, 0, 1, 1)))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(FitsTest.reason(Polygon.of(FitsTest.points(0, 0, 1, 1, 0, 0))))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(FitsTest.reason(Polygon.of(FitsTest.points(0, 0, 1, 1, 2, 2))))
                .isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        // a bow tie, from each corner and either way round
        List<Point> tie = FitsTest.points(0, 0, 2, 2, 2, 0, 0, 3);
        for (int turn = 0; turn < 4; turn++) {
            int first = turn;
            List<Point> turned = IntStream.range(0, 4)
                    .mapToObj(i -> tie.get((first + i) % 4))
                    .toList();
            assertThat(FitsTest.reason(Polygon.of(turned))).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        }
        // the first side meets the third, or the last meets the second
        assertThat(why(tie)).contains("from point 1 to 2 crosses that from 3 to 4");
        assertThat(why(FitsTest.points(0, 3, 0, 0, 2, 2, 2, 0))).contains("from point 2 to 3 crosses that from 4 to 1");
        // the last side crosses the second of five
        assertThat(why(FitsTest.points(0, 0, 4, 0, 4, 4, 2, 6, 6, 2)))
                .contains("from point 2 to 3 crosses that from 5 to 1");
        // on a line but for rounding
        assertThat(FitsTest.reason(Polygon.of(
                        FitsTest.points(1e6 / 3, 1e6 / 7, 2e6 / 3, 2e6 / 7, 1e6, 3e6 / 7, 5e6 / 3, 5e6 / 7))))
                .isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        // narrow, but with an area: 1 by 0.00001
        assertThat(Polygon.of(FitsTest.points(0, 0, 1, 0, 1, 1e-5, 0, 1e-5))
                        .orElseThrow()
                        .area())
                .isCloseTo(1e-5, within(1e-18));
    }

    private static String why(List<Point> points) {
        return ((Outcome.Refused<Polygon>) Polygon.of(points)).refusal().why();
    }

    /** A corner that touches a side from within is no crossing. */
    @Test
    void touchingIsNoCrossing() {
        assertThat(Polygon.of(FitsTest.points(0, 0, 4, 0, 4, 4, 2, 0, 0, 4))
                        .orElseThrow()
                        .area())
                .isEqualTo(8);
    }

    /** 3 by 1 points on a grid turned by 30°: spreads by hand. */
    @Test
    void theFrameOfPoints() {
        double c = Math.cos(Math.toRadians(30));
        double s = 0.5;
        // corners (±3, ±1) about (10, 20): mean squares 9 along, 1 across
        List<Point> corners = FitsTest.points(
                10 + 3 * c - s,
                20 + 3 * s + c,
                10 + 3 * c + s,
                20 + 3 * s - c,
                10 - 3 * c - s,
                20 - 3 * s + c,
                10 - 3 * c + s,
                20 - 3 * s - c);
        Frame frame = Frame.of(corners);
        assertThat(frame.cx()).isCloseTo(10, within(1e-12));
        assertThat(frame.cy()).isCloseTo(20, within(1e-12));
        assertThat(frame.scale()).isCloseTo(Math.sqrt(10), within(1e-12));
        assertThat(frame.narrowness()).isCloseTo(1.0 / 3, within(1e-12));
        assertThat(frame.direction()).isCloseTo(Math.toRadians(30), within(1e-12));
        assertThat(frame.normalised(corners)[0][0]).isCloseTo((3 * c - s) / Math.sqrt(10), within(1e-12));
        assertThat(frame.normalised(corners)[0][1]).isCloseTo((3 * s + c) / Math.sqrt(10), within(1e-12));
        assertThat(Frame.of(FitsTest.points(1, 1, 1, 1)).narrowness()).isZero();
    }

    /** (p² − 1)² + ((p − 1)/10)² has its minimum 0 at 1 and a false one of about .04 near −1. */
    @Test
    void theBestOfSeveralStartsIsTaken() {
        Function<double[], LeastSquaresFit.Distances> model = p -> new LeastSquaresFit.Distances(
                new double[] {p[0] * p[0] - 1, (p[0] - 1) / 10}, new double[][] {{2 * p[0]}, {0.1}});
        double[] left = {-1.5};
        double[] right = {1.5};
        for (List<double[]> starts : List.of(List.of(left, right), List.of(right, left))) {
            LeastSquaresFit fit = LeastSquaresFit.of(model, starts);
            assertThat(fit.parameters()[0]).isCloseTo(1, within(1e-9));
            assertThat(fit.sumOfSquares()).isCloseTo(0, within(1e-15));
            assertThat(fit.inverse()[0][0]).isCloseTo(1 / 4.01, within(1e-9));
        }
        LeastSquaresFit worse = LeastSquaresFit.of(model, List.of(left));
        assertThat(worse.parameters()[0]).isCloseTo(-1, within(0.01));
        assertThat(worse.sumOfSquares()).isCloseTo(0.04, within(0.001));
        Function<double[], LeastSquaresFit.Distances> impossible = p -> {
            throw new IllegalArgumentException("out of range");
        };
        assertThat(LeastSquaresFit.of(impossible, List.of(left))).isNull();
    }

    /** Where distances do not depend on a parameter, it has no variance and spoils none of the others. */
    @Test
    void whatThePointsDoNotFixIsLeftOut() {
        LeastSquaresFit fit = LeastSquaresFit.of(
                p -> new LeastSquaresFit.Distances(
                        new double[] {p[0] - 3, 2 * (p[0] - 3)}, new double[][] {{1, 0}, {2, 0}}),
                List.of(new double[] {0, 7}));
        assertThat(fit.parameters()).containsExactly(3, 7);
        assertThat(fit.inverse()[0][0]).isCloseTo(0.2, within(1e-12));
        assertThat(fit.inverse()[1][1]).isZero();
    }

    /**
     * Rüfer et al. 2005, Cornea 24:259: white-to-white 11.71 ± 0.42 mm. Over 812 px that is 0.014421 mm/px; an opening of
     * 380 px measures 5.480 mm; taking the population's mean for the patient's own adds 3.6 %: ±0.18 mm at 5.0 and ±0.20 at
     * 5.5.
     */
    @Test
    void calibrationByWhiteToWhite() {
        Calibration calibration = Calibration.ofKnownLength(11.71, 0.42, 812, 0);
        assertThat(calibration.mmPerPx()).isCloseTo(0.014421, within(5e-7));
        assertThat(380 * calibration.mmPerPx()).isCloseTo(5.480, within(5e-4));
        assertThat(calibration.relativeSd()).isCloseTo(0.036, within(5e-4));
        assertThat(5.0 * calibration.relativeSd()).isCloseTo(0.18, within(5e-3));
        assertThat(5.5 * calibration.relativeSd()).isCloseTo(0.20, within(5e-3));
        // 3 % and 4 % make 5 %
        assertThat(Calibration.ofKnownLength(10, 0.3, 100, 4).relativeSd()).isCloseTo(0.05, within(1e-15));
        for (double[] bad : new double[][] {{0, 0}, {-1, 0}, {1, -1}, {Double.POSITIVE_INFINITY, 0}, {1, Double.NaN}}) {
            assertThatThrownBy(() -> new Calibration(bad[0], bad[1])).isInstanceOf(IllegalArgumentException.class);
        }
        assertThatThrownBy(() -> new Calibration(1, Double.POSITIVE_INFINITY))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Calibration.ofKnownLength(10, 1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    /** Radius 190 px marked 12 times evenly: standard error of the diameter 2 s/√12; the scale's 3.6 % swamps it. */
    @Test
    void uncertaintyOfADiameterJoinsMarkingAndScale() {
        List<Point> edge = FitsTest.onEllipse(new Ellipse(400, 300, 190, 190, 0), 12, 0);
        CircleFit fit = CircleFit.geometric(edge, 5.77).orElseThrow();
        double px = 2 * 5.77 / Math.sqrt(12);
        Estimate plain = OpeningMeasures.of(fit, null, 0.95).equivalentDiameter();
        assertThat(plain.value()).isCloseTo(380, within(1e-9));
        assertThat(plain.se()).isCloseTo(px, within(1e-8));
        assertThat(plain.limits().lower()).isCloseTo(380 - 1.959964 * px, within(1e-5));
        assertThat(plain.limits().upper()).isCloseTo(380 + 1.959964 * px, within(1e-5));
        assertThat(plain.limits().level()).isEqualTo(0.95);
        assertThat(plain.n()).isEqualTo(12);
        Calibration calibration = Calibration.ofKnownLength(11.71, 0.42, 812, 0);
        OpeningMeasures measures = OpeningMeasures.of(fit, calibration, 0.95);
        Estimate diameter = measures.equivalentDiameter();
        assertThat(diameter.value()).isCloseTo(5.480, within(5e-4));
        double relative = Math.hypot(px / 380, 0.42 / 11.71);
        assertThat(diameter.se()).isCloseTo(diameter.value() * relative, within(1e-9));
        assertThat(measures.longDiameter().value()).isCloseTo(diameter.value(), within(1e-12));
        Estimate area = measures.area();
        assertThat(area.value()).isCloseTo(Math.PI * 5.48 * 5.48 / 4, within(0.005));
        assertThat(area.se()).isCloseTo(2 * area.value() * relative, within(1e-6));
        Estimate perimeter = measures.perimeter();
        assertThat(perimeter.value()).isCloseTo(Math.PI * diameter.value(), within(1e-9));
        assertThat(perimeter.se()).isCloseTo(perimeter.value() * relative, within(1e-6));
        assertThat(measures.circularity().value()).isCloseTo(1, within(1e-12));
        assertThat(measures.axisRatio().warnings()).isEmpty();
    }

    /** Student's t at 9 degrees of freedom, 97.5 %: 2.262 (tables). */
    @Test
    void limitsFromScatterUseStudentsT() {
        Ellipse oval = new Ellipse(400, 300, 190, 170, 0.3);
        List<Point> marked = IntStream.range(0, 14)
                .mapToObj(i -> {
                    Point p = FitsTest.onEllipse(oval, 14, 0).get(i);
                    return new Point(p.x() + (i % 3 - 1), p.y() + (i % 5 - 2) * 0.5);
                })
                .toList();
        EllipseFit fit = EllipseFit.geometric(marked, null).orElseThrow();
        Estimate diameter = OpeningMeasures.of(fit, null, 0.95).shortDiameter();
        assertThat((diameter.limits().upper() - diameter.value()) / diameter.se())
                .isCloseTo(2.262, within(5e-4));
        assertThat(diameter.value()).isCloseTo(2 * fit.ellipse().semiMinor(), within(1e-9));
        assertThat(diameter.se()).isCloseTo(diameter.value() * Math.sqrt(fit.covariance()[3][3]), within(1e-7));
        Estimate longer = OpeningMeasures.of(fit, null, 0.95).longDiameter();
        assertThat(longer.se()).isCloseTo(longer.value() * Math.sqrt(fit.covariance()[2][2]), within(1e-7));
    }

    /** An oval of 100 by 99 px marked 12 times with an error of 1 px: error of the ratio .008, difference from 1 .01. */
    @Test
    void aSlightOvalCannotBeToldFromACircle() {
        List<Point> edge = FitsTest.onEllipse(new Ellipse(0, 0, 100, 99, 0), 12, 0);
        Estimate ratio = OpeningMeasures.of(EllipseFit.geometric(edge, 1.0).orElseThrow(), null, 0.95)
                .axisRatio();
        assertThat(ratio.value()).isCloseTo(0.99, within(1e-9));
        assertThat(ratio.warnings()).singleElement().asString().contains("cannot be told from a circle");
        assertThat(OpeningMeasures.of(EllipseFit.geometric(edge, 0.3).orElseThrow(), null, 0.95)
                        .axisRatio()
                        .warnings())
                .isEmpty();
    }

    /**
     * Centre of 12 even marks with error s: 2 s²/12 along any direction; the other centre is known to 2 px. 30 and 40 px
     * apart make 50.
     */
    @Test
    void decentrationAddsTheErrorsOfBothCentresAlongTheirLine() {
        List<Point> edge = FitsTest.onEllipse(new Ellipse(400, 300, 190, 190, 0), 12, 0);
        CircleFit fit = CircleFit.geometric(edge, 3.0).orElseThrow();
        Estimate px = OpeningMeasures.of(fit, null, 0.95).decentration(new Point(370, 260), 2);
        assertThat(px.value()).isCloseTo(50, within(1e-9));
        assertThat(px.se()).isCloseTo(Math.sqrt(2 * 9 / 12.0 + 4), within(1e-9));
        assertThat(px.warnings()).isEmpty();
        Calibration calibration = new Calibration(0.01, 0.0005);
        Estimate mm = OpeningMeasures.of(fit, calibration, 0.95).decentration(new Point(370, 260), 2);
        assertThat(mm.value()).isCloseTo(0.5, within(1e-11));
        assertThat(mm.se()).isCloseTo(0.01 * Math.sqrt(2 * 9 / 12.0 + 4 + 50 * 50 * 0.0025), within(1e-9));
        Estimate near = OpeningMeasures.of(fit, calibration, 0.95).decentration(new Point(401, 300), 2);
        assertThat(near.limits().lower()).isZero();
        assertThat(near.warnings()).singleElement().asString().contains("too large");
        Estimate none =
                OpeningMeasures.of(fit, null, 0.95).decentration(fit.circle().centre(), 2);
        assertThat(none.value()).isZero();
        assertThat(none.se()).isCloseTo(Math.sqrt(2 * 9 / 12.0 + 4), within(1e-9));
    }

    /** An arc fixes its centre worse along its axis than across; the direction of the other centre decides. */
    @Test
    void decentrationUsesTheUncertaintyInItsDirection() {
        List<Point> arc = IntStream.rangeClosed(-3, 3)
                .mapToObj(i -> new Point(100 * Math.cos(i * 0.2), 100 * Math.sin(i * 0.2)))
                .toList();
        CircleFit fit = CircleFit.geometric(arc, 1.0).orElseThrow();
        OpeningMeasures measures = OpeningMeasures.of(fit, null, 0.95);
        Estimate along = measures.decentration(new Point(-50, 0), 0);
        Estimate across = measures.decentration(new Point(0, -50), 0);
        assertThat(along.se()).isCloseTo(Math.sqrt(fit.covariance()[0][0]), within(1e-6));
        assertThat(across.se()).isCloseTo(Math.sqrt(fit.covariance()[1][1]), within(1e-6));
        assertThat(along.se()).isGreaterThan(3 * across.se());
        Estimate none = measures.decentration(fit.circle().centre(), 0);
        assertThat(none.se()).isCloseTo(along.se(), within(1e-6));
        // turned by a half right angle the covariance of both coordinates matters
        List<Point> turned = arc.stream()
                .map(p -> new Point((p.x() - p.y()) / Math.sqrt(2), (p.x() + p.y()) / Math.sqrt(2)))
                .toList();
        OpeningMeasures oblique =
                OpeningMeasures.of(CircleFit.geometric(turned, 1.0).orElseThrow(), null, 0.95);
        assertThat(oblique.decentration(new Point(-50, -50), 0).se()).isCloseTo(along.se(), within(1e-6));
        assertThat(oblique.decentration(new Point(50, -50), 0).se()).isCloseTo(across.se(), within(1e-6));
    }
}
