package org.sideport.stats.geometry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;

class PointMeasuresTest {

    /** A triangle of sides 3, 4 and 5; two ends with a click error of 1 each give √2 along the line. */
    @Test
    void aDistanceCarriesTheErrorsOfBothEndsAndOfTheScale() {
        Estimate px = new PointMeasures(1, 0, null, 0.95)
                .distance(new Point(10, 10), new Point(13, 14))
                .orElseThrow();
        assertThat(px.value()).isCloseTo(5, within(1e-12));
        assertThat(px.se()).isCloseTo(Math.sqrt(2), within(1e-6));
        // 5 px at 0.02 mm/px, 3.6 % scale: √((0.02·√2)² + (0.1·0.036)²)
        Estimate mm = new PointMeasures(1, 0, new Calibration(0.02, 0.02 * 0.036), 0.95)
                .distance(new Point(10, 10), new Point(13, 14))
                .orElseThrow();
        assertThat(mm.value()).isCloseTo(0.1, within(1e-12));
        assertThat(mm.se()).isCloseTo(Math.hypot(0.02 * Math.sqrt(2), 0.1 * 0.036), within(1e-6));
    }

    /** atan2(4, 3) = 53.1301 degrees, the classical triangle. */
    @Test
    void anAngleIsThatAtTheSecondPointWhicheverWayRound() {
        PointMeasures measures = new PointMeasures(0.5, 0, null, 0.95);
        Point right = new Point(30, 0);
        Point corner = new Point(0, 0);
        Point up = new Point(30, 40);
        assertThat(measures.angle(right, corner, up).orElseThrow().value()).isCloseTo(53.1301, within(1e-4));
        assertThat(measures.angle(up, corner, right).orElseThrow().value()).isCloseTo(53.1301, within(1e-4));
        // marks far from the corner fix the angle; errors of the arms' ends alone: hypot(1/30, 1/50)/2 radians at least
        assertThat(measures.angle(right, corner, up).orElseThrow().se())
                .isGreaterThan(Math.toDegrees(0.5 * Math.hypot(1 / 30.0, 1 / 50.0)));
    }

    /** Polygons of Wolfram-table knowledge: the square's index is π/4, the regular hexagon's π/(2√3) = 0.9069. */
    @Test
    void aPolygonsCircularityIsThatOfTheTextbook() {
        PointMeasures measures = new PointMeasures(0.2, 0, null, 0.95);
        List<Point> square = List.of(new Point(0, 0), new Point(8, 0), new Point(8, 8), new Point(0, 8));
        assertThat(measures.polygonCircularity(square).orElseThrow().value()).isCloseTo(Math.PI / 4, within(1e-9));
        assertThat(measures.polygonDiameter(square).orElseThrow().value())
                .isCloseTo(2 * Math.sqrt(64 / Math.PI), within(1e-9));
        List<Point> hexagon = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            hexagon.add(new Point(100 + 50 * Math.cos(i * Math.PI / 3), 100 + 50 * Math.sin(i * Math.PI / 3)));
        }
        assertThat(measures.polygonCircularity(hexagon).orElseThrow().value()).isCloseTo(0.9069, within(5e-5));
    }

    /** The stated error against the scatter of many drawings, which does not come from our formula. */
    @Test
    void theStatedErrorIsWhatManyDrawingsScatterBy() {
        Random random = new Random(7);
        List<Point> truth = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            truth.add(new Point(300 + 80 * Math.cos(i * Math.PI / 6), 200 + 80 * Math.sin(i * Math.PI / 6)));
        }
        PointMeasures measures = new PointMeasures(1.5, 0, null, 0.95);
        double sum = 0;
        double squares = 0;
        int draws = 4000;
        for (int k = 0; k < draws; k++) {
            List<Point> clicked = truth.stream()
                    .map(p -> new Point(p.x() + 1.5 * random.nextGaussian(), p.y() + 1.5 * random.nextGaussian()))
                    .toList();
            double d = measures.polygonDiameter(clicked).orElseThrow().value();
            sum += d;
            squares += d * d;
        }
        double mean = sum / draws;
        double sd = Math.sqrt(squares / draws - mean * mean);
        // the standard error of a standard deviation of 4000 values is 1.1 %
        assertThat(measures.polygonDiameter(truth).orElseThrow().se()).isCloseTo(sd, within(0.05 * sd));
    }

    @Test
    void whatHasNoLengthIsRefused() {
        PointMeasures measures = new PointMeasures(1, 0, null, 0.95);
        Point p = new Point(3, 3);
        assertThat(measures.distance(p, p)).isInstanceOf(Outcome.Refused.class);
        assertThat(measures.angle(p, p, new Point(4, 4))).isInstanceOf(Outcome.Refused.class);
        assertThat(measures.polygonDiameter(List.of(p, p, new Point(4, 4)))).isInstanceOf(Outcome.Refused.class);
    }
}
