package org.sideport.stats.geometry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

class FitsPropertyTest {

    private static List<Point> moved(List<Point> points, double turn, double factor, double dx, double dy) {
        double cos = Math.cos(turn);
        double sin = Math.sin(turn);
        return points.stream()
                .map(p ->
                        new Point(dx + factor * (cos * p.x() - sin * p.y()), dy + factor * (sin * p.x() + cos * p.y())))
                .toList();
    }

    private static List<Point> noisy(Ellipse e, long seed) {
        Random random = new Random(seed);
        return FitsTest.onEllipse(e, 12, 0.1).stream()
                .map(p -> new Point(p.x() + 0.02 * random.nextGaussian(), p.y() + 0.02 * random.nextGaussian()))
                .toList();
    }

    @Property(tries = 100)
    void fitsMoveTurnAndGrowWithTheirPoints(
            @ForAll @IntRange(min = 0, max = 100_000) int seed,
            @ForAll @DoubleRange(min = -3, max = 3) double turn,
            @ForAll @DoubleRange(min = 0.01, max = 1000) double factor,
            @ForAll @DoubleRange(min = -1e4, max = 1e4) double dx,
            @ForAll @DoubleRange(min = -1e4, max = 1e4) double dy) {
        List<Point> points = noisy(new Ellipse(1, -2, 3, 2, 0.7), seed);
        List<Point> there = moved(points, turn, factor, dx, dy);
        double size = 1e-6 * Math.max(factor, 1e-4 * Math.hypot(dx, dy));
        CircleFit circle = CircleFit.geometric(points, null).orElseThrow();
        CircleFit circleThere = CircleFit.geometric(there, null).orElseThrow();
        Point centre =
                moved(List.of(circle.circle().centre()), turn, factor, dx, dy).get(0);
        assertThat(circleThere.circle().centre().distance(centre)).isCloseTo(0, within(size));
        assertThat(circleThere.circle().radius())
                .isCloseTo(factor * circle.circle().radius(), within(size));
        assertThat(circleThere.covariance()[2][2])
                .isCloseTo(factor * factor * circle.covariance()[2][2], within(size * factor));
        check(
                EllipseFit.direct(points).orElseThrow(),
                EllipseFit.direct(there).orElseThrow(),
                turn,
                factor,
                dx,
                dy,
                size);
        EllipseFit ellipse = EllipseFit.geometric(points, null).orElseThrow();
        EllipseFit ellipseThere = EllipseFit.geometric(there, null).orElseThrow();
        check(ellipse.ellipse(), ellipseThere.ellipse(), turn, factor, dx, dy, size);
        assertThat(ellipseThere.covariance()[2][2]).isCloseTo(ellipse.covariance()[2][2], within(1e-6));
        assertThat(ellipseThere.ellipse().circularity())
                .isCloseTo(ellipse.ellipse().circularity(), within(1e-6));
    }

    private static void check(
            Ellipse here, Ellipse there, double turn, double factor, double dx, double dy, double size) {
        Point centre = moved(List.of(here.centre()), turn, factor, dx, dy).get(0);
        assertThat(there.centre().distance(centre)).isCloseTo(0, within(size));
        assertThat(there.semiMajor()).isCloseTo(factor * here.semiMajor(), within(size));
        assertThat(there.semiMinor()).isCloseTo(factor * here.semiMinor(), within(size));
        double angle = Math.IEEEremainder(there.angle() - here.angle() - turn, Math.PI);
        assertThat(angle).isCloseTo(0, within(1e-5));
    }

    @Property(tries = 100)
    void aCircleComesOutAsItWentIn(
            @ForAll @DoubleRange(min = -2000, max = 2000) double x,
            @ForAll @DoubleRange(min = -2000, max = 2000) double y,
            @ForAll @DoubleRange(min = 1, max = 1000) double r,
            @ForAll @IntRange(min = 4, max = 40) int n) {
        List<Point> points = FitsTest.onEllipse(new Ellipse(x, y, r, r, 0), n, 0.3);
        Circle circle = CircleFit.geometric(points, null).orElseThrow().circle();
        assertThat(circle.centre().distance(new Point(x, y))).isCloseTo(0, within(1e-8 * (r + 1000)));
        assertThat(circle.radius()).isCloseTo(r, within(1e-8 * (r + 1000)));
        if (n > 5) {
            Ellipse ellipse = EllipseFit.geometric(points, null).orElseThrow().ellipse();
            assertThat(ellipse.semiMajor()).isCloseTo(r, within(1e-6 * (r + 1000)));
            assertThat(ellipse.axisRatio()).isCloseTo(1, within(1e-5));
        }
    }

    @Property(tries = 100)
    void anEllipseComesOutAsItWentIn(
            @ForAll @DoubleRange(min = 0.2, max = 0.95) double ratio,
            @ForAll @DoubleRange(min = 0, max = 3.1) double angle,
            @ForAll @IntRange(min = 6, max = 30) int n) {
        Ellipse truth = new Ellipse(500, 400, 200, 200 * ratio, angle);
        List<Point> points = FitsTest.onEllipse(truth, n, 0.3);
        FitsTest.check(EllipseFit.direct(points).orElseThrow(), truth, 1e-5);
        FitsTest.check(EllipseFit.geometric(points, null).orElseThrow().ellipse(), truth, 1e-6);
    }

    /** No place on the ellipse is nearer than the foot, and the line to it stands square on the edge. */
    @Property(tries = 300)
    void theFootIsTheNearestPlace(
            @ForAll @DoubleRange(min = 0.05, max = 20) double a,
            @ForAll @DoubleRange(min = 0.05, max = 20) double b,
            @ForAll @DoubleRange(min = -30, max = 30) double x,
            @ForAll @DoubleRange(min = -30, max = 30) double y) {
        for (double[] p : new double[][] {{x, y}, {x, 0}, {0, y}, {0, 0}, {x / 50, y / 50}}) {
            double[] foot = EllipseDistance.foot(a, b, p[0], p[1]);
            assertThat(Math.hypot(foot[0] / a, foot[1] / b)).isCloseTo(1, within(1e-9));
            double distance = Math.hypot(p[0] - foot[0], p[1] - foot[1]);
            for (int k = 0; k < 360; k++) {
                double t = Math.toRadians(k);
                assertThat(Math.hypot(p[0] - a * Math.cos(t), p[1] - b * Math.sin(t)))
                        .isGreaterThanOrEqualTo(distance - 1e-9 * (1 + a + b));
            }
        }
    }

    @Property(tries = 200)
    void circularityIsAtMostThatOfACircle(
            @ForAll @DoubleRange(min = 0.01, max = 1) double ratio,
            @ForAll @DoubleRange(min = 0.1, max = 100) double a) {
        Ellipse e = new Ellipse(0, 0, a, a * ratio, 0);
        assertThat(e.circularity()).isBetween(0.0, 1 + 1e-15);
        // the exact perimeter lies between those of the circles with the mean and the root mean square semi-axis
        assertThat(e.perimeter())
                .isBetween(
                        Math.PI * a * (1 + ratio) * (1 - 1e-14),
                        Math.PI * a * Math.sqrt(2 * (1 + ratio * ratio)) * (1 + 1e-14));
    }
}
