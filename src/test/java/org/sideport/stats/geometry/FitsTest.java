package org.sideport.stats.geometry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Published: Gander, Golub & Strebel 1994, BIT 34:558 (four decimals). Figures marked R are by other algorithms on the same
 * points, src/test/oracle/geometry/fits.R.
 */
class FitsTest {

    private static final List<Point> GANDER_CIRCLE = points(1, 7, 2, 6, 5, 8, 7, 7, 9, 5, 3, 7);
    private static final List<Point> GANDER_ELLIPSE = points(1, 7, 2, 6, 5, 8, 7, 7, 9, 5, 3, 7, 6, 2, 8, 4);
    /** Marked along an edge, in pixels. */
    private static final List<Point> EDGE = points(
            612, 402, 590, 461, 545, 503, 487, 518, 429, 500, 386, 458, 371, 399, 388, 342, 430, 301, 488, 288, 547,
            303, 592, 345);

    static List<Point> points(double... xy) {
        return IntStream.range(0, xy.length / 2)
                .mapToObj(i -> new Point(xy[2 * i], xy[2 * i + 1]))
                .toList();
    }

    @Test
    void theAlgebraicCircleOfThePaper() {
        Circle circle = CircleFit.algebraic(GANDER_CIRCLE).orElseThrow();
        assertThat(circle.centreX()).isCloseTo(5.3794, within(5e-5));
        assertThat(circle.centreY()).isCloseTo(7.2532, within(5e-5));
        assertThat(circle.radius()).isCloseTo(3.0370, within(5e-5));
        // R
        assertThat(circle.centreX()).isCloseTo(5.37941331725, within(1e-10));
        assertThat(circle.radius()).isCloseTo(3.03704145827, within(1e-10));
        // through three points there is one circle: (0,0), (2,0), (0,2)
        Circle exact = CircleFit.algebraic(points(0, 0, 2, 0, 0, 2)).orElseThrow();
        assertThat(exact.centre().distance(new Point(1, 1))).isCloseTo(0, within(1e-12));
        assertThat(exact.radius()).isCloseTo(Math.sqrt(2), within(1e-12));
    }

    @Test
    void theGeometricCircleOfThePaper() {
        CircleFit fit = CircleFit.geometric(GANDER_CIRCLE, null).orElseThrow();
        assertThat(fit.circle().centreX()).isCloseTo(4.7398, within(5e-5));
        assertThat(fit.circle().centreY()).isCloseTo(2.9835, within(5e-5));
        assertThat(fit.circle().radius()).isCloseTo(4.7142, within(5e-5));
        PointScatter scatter = fit.scatter();
        assertThat(scatter.points()).isEqualTo(6);
        assertThat(scatter.degreesOfFreedom()).isEqualTo(3);
        // R: sum of squares 1.22759907818; the paper's residual norm is 1.1080
        assertThat(scatter.rms()).isCloseTo(Math.sqrt(1.22759907818 / 3), within(1e-9));
        assertThat(Math.sqrt(3) * scatter.rms()).isCloseTo(1.1080, within(5e-5));
        assertThat(scatter.clickSd()).isEqualTo(scatter.rms());
        assertThat(scatter.estimated()).isTrue();
        assertThat(scatter.warnings()).singleElement().asString().contains("Only 6 points");
    }

    /** R: root of the diagonal of the inverse of JᵀJ. */
    @Test
    void standardErrorsOfACircleFollowFromTheErrorOfAClick() {
        CircleFit unit = CircleFit.geometric(GANDER_CIRCLE, 1.0).orElseThrow();
        assertThat(Math.sqrt(unit.covariance()[0][0])).isCloseTo(0.746604089531, within(1e-6));
        assertThat(Math.sqrt(unit.covariance()[1][1])).isCloseTo(2.41198023609, within(1e-6));
        assertThat(Math.sqrt(unit.covariance()[2][2])).isCloseTo(1.91393406433, within(1e-6));
        assertThat(unit.scatter().estimated()).isFalse();
        assertThat(unit.scatter().warnings()).isEmpty();
        CircleFit edge = CircleFit.geometric(EDGE, 2.0).orElseThrow();
        assertThat(edge.circle().centreX()).isCloseTo(489.704644339, within(1e-5));
        assertThat(edge.circle().centreY()).isCloseTo(402.057453753, within(1e-5));
        assertThat(edge.circle().radius()).isCloseTo(116.885714153, within(1e-5));
        assertThat(Math.sqrt(edge.covariance()[0][0])).isCloseTo(2 * 0.406927752311, within(1e-6));
        assertThat(Math.sqrt(edge.covariance()[2][2])).isCloseTo(2 * 0.288697445542, within(1e-6));
        assertThat(edge.scatter().rms()).isCloseTo(Math.sqrt(56.4432760429 / 9), within(1e-7));
        assertThat(edge.scatter().warnings()).isEmpty();
    }

    /** 56.44 over 1² on 9 degrees of freedom is beyond any chance (the 99th percentile of chi-squared is 21.67, tables). */
    @Test
    void pointsFartherFromTheLineThanClicksExplainAreWarnedOf() {
        assertThat(CircleFit.geometric(EDGE, 1.0).orElseThrow().scatter().warnings())
                .singleElement()
                .asString()
                .contains("another shape");
        // 56.44 / 1.62² = 21.51 is just within
        assertThat(CircleFit.geometric(EDGE, 1.62).orElseThrow().scatter().warnings())
                .isEmpty();
        assertThat(CircleFit.geometric(EDGE, 1.60).orElseThrow().scatter().warnings())
                .hasSize(1);
    }

    /** R by Fitzgibbon's original problem. */
    @Test
    void theDirectEllipseIsThatOfTheOriginalProblem() {
        check(
                EllipseFit.direct(GANDER_ELLIPSE).orElseThrow(),
                new Ellipse(5.06387771946, 5.06975270419, 3.77566371471, 2.64233399895, 2.7554726157),
                1e-9);
        check(
                EllipseFit.direct(EDGE).orElseThrow(),
                new Ellipse(489.73719226, 402.077181078, 119.417099538, 114.413340719, 0.0781721775753),
                1e-7);
    }

    /** Section 5 of the paper; its residual norm is 1.1719. */
    @Test
    void theGeometricEllipseOfThePaper() {
        EllipseFit fit = EllipseFit.geometric(GANDER_ELLIPSE, null).orElseThrow();
        check(fit.ellipse(), new Ellipse(2.6996, 3.8160, 6.5187, 3.0319, 0.3596), 6e-5);
        assertThat(fit.scatter().degreesOfFreedom()).isEqualTo(3);
        assertThat(Math.sqrt(3) * fit.scatter().rms()).isCloseTo(1.1719, within(5e-5));
    }

    /** R by Nelder and Mead's method, hence fewer digits. */
    @Test
    void theGeometricEllipseOfAnEdge() {
        EllipseFit fit = EllipseFit.geometric(EDGE, null).orElseThrow();
        check(
                fit.ellipse(),
                new Ellipse(489.734597082, 402.05838284, 119.400773755, 114.415306489, 0.0724877233009),
                1e-4);
        assertThat(fit.scatter().rms()).isCloseTo(Math.sqrt(19.5312788347 / 7), within(1e-7));
        assertThat(fit.scatter().warnings()).isEmpty();
    }

    /**
     * n marks evenly round a circle with error s: variance of the radius s²/n, of either coordinate of the centre 2 s²/n,
     * of the amplitude of an oval 2 s²/n, since 1, cos t, sin t, cos 2t and sin 2t are orthogonal on them.
     */
    @Test
    void uncertaintiesOfAnEvenlyMarkedCircleAreThoseOfFourierCoefficients() {
        List<Point> round = onEllipse(new Ellipse(300, 200, 100, 100, 0), 12, 0);
        CircleFit circle = CircleFit.geometric(round, 1.5).orElseThrow();
        assertThat(circle.covariance()[0][0]).isCloseTo(2 * 2.25 / 12, within(1e-9));
        assertThat(circle.covariance()[1][1]).isCloseTo(2 * 2.25 / 12, within(1e-9));
        assertThat(circle.covariance()[2][2]).isCloseTo(2.25 / 12, within(1e-9));
        EllipseFit ellipse = EllipseFit.geometric(round, 1.5).orElseThrow();
        check(
                ellipse.ellipse(),
                new Ellipse(300, 200, 100, 100, ellipse.ellipse().angle()),
                1e-6);
        assertThat(ellipse.covariance()[0][0]).isCloseTo(2 * 2.25 / 12, within(1e-4));
        assertThat(ellipse.covariance()[1][1]).isCloseTo(2 * 2.25 / 12, within(1e-4));
        OpeningMeasures measures = OpeningMeasures.of(ellipse, null, 0.95);
        assertThat(measures.equivalentDiameter().se()).isCloseTo(2 * 1.5 / Math.sqrt(12), within(1e-6));
        assertThat(measures.axisRatio().se()).isCloseTo(2 * 1.5 * Math.sqrt(2.0 / 12) / 100, within(1e-6));
        Estimate ratio = measures.axisRatio();
        assertThat(ratio.limits().upper()).isEqualTo(1);
    }

    /** Refitting 600 sets of marks with an error of 1 px gives the standard errors that one fit states, within 10 %. */
    @Test
    void statedUncertaintiesAreThoseOfRepeatedMarking() {
        Ellipse truth = new Ellipse(480, 390, 130, 110, 0.6);
        List<Point> exact = onEllipse(truth, 14, 0.2);
        EllipseFit stated = EllipseFit.geometric(exact, 1.0).orElseThrow();
        Random random = new Random(20);
        int runs = 600;
        double[][] found = new double[6][runs];
        for (int run = 0; run < runs; run++) {
            List<Point> marked = exact.stream()
                    .map(p -> new Point(p.x() + random.nextGaussian(), p.y() + random.nextGaussian()))
                    .toList();
            Ellipse e = EllipseFit.geometric(marked, 1.0).orElseThrow().ellipse();
            double[] all = {
                e.centreX(), e.centreY(), Math.log(e.semiMajor()), Math.log(e.semiMinor()), e.angle(), e.circularity()
            };
            for (int k = 0; k < 6; k++) {
                found[k][run] = all[k];
            }
        }
        for (int k = 0; k < 5; k++) {
            double sd = Math.sqrt(stated.covariance()[k][k]);
            assertThat(sd(found[k])).as("parameter " + k).isCloseTo(sd, within(0.1 * sd));
        }
        OpeningMeasures measures = OpeningMeasures.of(stated, null, 0.95);
        double se = measures.circularity().se();
        assertThat(sd(found[5])).isCloseTo(se, within(0.1 * se));
        assertThat(measures.axisRatio().warnings()).isEmpty();
    }

    private static double sd(double[] x) {
        double mean = java.util.Arrays.stream(x).average().orElseThrow();
        return Math.sqrt(
                java.util.Arrays.stream(x).map(v -> (v - mean) * (v - mean)).sum() / (x.length - 1));
    }

    @Test
    void tooFewPointsAreRefused() {
        List<Point> two = points(0, 0, 1, 1);
        assertThat(reason(CircleFit.geometric(two, 1.0))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(CircleFit.algebraic(two))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(CircleFit.geometric(points(0, 0, 1, 1, 0, 0, 1, 1), 1.0)))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(CircleFit.geometric(List.of(), 1.0))).isEqualTo(Refusal.Reason.TOO_FEW);
        List<Point> four = points(0, 0, 1, 0, 1, 1, 0, 1);
        assertThat(reason(EllipseFit.geometric(four, 1.0))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(EllipseFit.direct(four))).isEqualTo(Refusal.Reason.TOO_FEW);
    }

    @Test
    void pointsOnALineAreRefused() {
        List<Point> line = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            line.add(new Point(100 + 3 * i, 50 - 2 * i));
        }
        assertThat(reason(CircleFit.geometric(line, 1.0))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(reason(CircleFit.algebraic(line))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(reason(EllipseFit.geometric(line, 1.0))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(reason(EllipseFit.direct(line))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        // a zigzag about a line: the best circle is the line
        List<Point> zigzag = IntStream.range(0, 10)
                .mapToObj(i -> new Point(i * 100.0, i % 2 * 0.1))
                .toList();
        assertThat(reason(CircleFit.geometric(zigzag, 1.0))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
    }

    @Test
    void aParabolaIsNoEllipse() {
        List<Point> parabola =
                IntStream.rangeClosed(-5, 5).mapToObj(i -> new Point(i, i * i)).toList();
        assertThat(reason(EllipseFit.geometric(parabola, 0.1))).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
    }

    /** As many points as parameters fit exactly: without the error of a click nothing tells the uncertainty. */
    @Test
    void exactFitsNeedTheErrorOfAClick() {
        List<Point> three = points(0, 0, 2, 0, 0, 2);
        assertThat(reason(CircleFit.geometric(three, null))).isEqualTo(Refusal.Reason.TOO_FEW);
        CircleFit fit = CircleFit.geometric(three, 0.1).orElseThrow();
        assertThat(fit.circle().radius()).isCloseTo(Math.sqrt(2), within(1e-9));
        assertThat(fit.scatter().rms()).isNull();
        assertThat(fit.scatter().degreesOfFreedom()).isZero();
        List<Point> five = onEllipse(new Ellipse(0, 0, 3, 2, 0.5), 5, 0);
        assertThat(reason(EllipseFit.geometric(five, null))).isEqualTo(Refusal.Reason.TOO_FEW);
        check(EllipseFit.geometric(five, 0.1).orElseThrow().ellipse(), new Ellipse(0, 0, 3, 2, 0.5), 1e-8);
    }

    @Test
    void theErrorOfAClickMayBeNone() {
        CircleFit fit = CircleFit.geometric(EDGE, 0.0).orElseThrow();
        assertThat(fit.covariance()[2][2]).isZero();
        assertThat(fit.scatter().warnings()).isEmpty();
    }

    @Test
    void placesAndShapesAreChecked() {
        assertThatThrownBy(() -> new Point(Double.NaN, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Point(0, Double.POSITIVE_INFINITY)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Circle(0, 0, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Ellipse(0, 0, 1, 2, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Ellipse(0, 0, 1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    }

    /** Points with equal steps of the parameter. */
    static List<Point> onEllipse(Ellipse e, int n, double first) {
        double cos = Math.cos(e.angle());
        double sin = Math.sin(e.angle());
        return IntStream.range(0, n)
                .mapToObj(i -> {
                    double t = first + 2 * Math.PI * i / n;
                    double u = e.semiMajor() * Math.cos(t);
                    double v = e.semiMinor() * Math.sin(t);
                    return new Point(e.centreX() + cos * u - sin * v, e.centreY() + sin * u + cos * v);
                })
                .toList();
    }

    static void check(Ellipse found, Ellipse expected, double tolerance) {
        assertThat(found.centreX()).isCloseTo(expected.centreX(), within(tolerance));
        assertThat(found.centreY()).isCloseTo(expected.centreY(), within(tolerance));
        assertThat(found.semiMajor()).isCloseTo(expected.semiMajor(), within(tolerance));
        assertThat(found.semiMinor()).isCloseTo(expected.semiMinor(), within(tolerance));
        double turn = Math.abs(found.angle() - expected.angle());
        assertThat(Math.min(turn, Math.PI - turn)).isCloseTo(0, within(tolerance));
    }

    static Refusal.Reason reason(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        Refusal refusal = ((Outcome.Refused<?>) outcome).refusal();
        assertThat(refusal.why()).isNotBlank();
        assertThat(refusal.remedy()).isNotBlank();
        return refusal.reason();
    }
}
