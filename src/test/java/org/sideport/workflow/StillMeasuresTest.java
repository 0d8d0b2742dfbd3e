package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Point;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** On the still of D-001 whose limbus and rhexis are known from how it was drawn: D-001-truth.json, rhexis_still. */
class StillMeasuresTest {

    private double limbusMm;
    private double rhexisMm;
    private double mmPerPx;
    private Point limbusCentre;
    private Point rhexisCentre;
    private double rhexisPx;

    @BeforeEach
    void readTruth() throws IOException {
        JsonNode truth = JsonMapper.builder().build().readTree(Files.readString(Unit.DATA.resolve("D-001-truth.json")));
        limbusMm = truth.at("/limbus_diameter_mm").asDouble();
        rhexisMm = truth.at("/rhexis_diameter_mm").asDouble();
        JsonNode still = truth.get("rhexis_still");
        mmPerPx = still.get("mm_per_px_x").asDouble();
        limbusCentre = new Point(
                still.get("limbus_x").asDouble(), still.get("limbus_y").asDouble());
        rhexisCentre = new Point(
                still.get("centre_x").asDouble(), still.get("centre_y").asDouble());
        rhexisPx = still.get("diameter_px_x").asDouble();
    }

    private static List<Point> clicks(Point centre, double diameter, int n, double jitter, Random random) {
        List<Point> points = new ArrayList<>();
        double turn = random.nextDouble();
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * (i + turn) / n;
            points.add(new Point(
                    centre.x() + diameter / 2 * Math.cos(angle) + jitter * random.nextGaussian(),
                    centre.y() + diameter / 2 * Math.sin(angle) + jitter * random.nextGaussian()));
        }
        return points;
    }

    private LimbusScale limbus(Random random, double jitter, WhiteToWhite width) {
        return LimbusScale.of(clicks(limbusCentre, limbusMm / mmPerPx, 14, jitter, random), width)
                .orElseThrow();
    }

    private static MeasuredValue value(StillMeasures measures, String name) {
        return measures.values().stream()
                .filter(v -> v.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static boolean covers(MeasuredValue value, double truth) {
        return value.lower() <= truth && truth <= value.upper();
    }

    @Test
    void aRhexisClickedOnItsTrueOutlineHasItsTrueDiameter() {
        Random random = new Random(1);
        LimbusScale scale = limbus(random, 1.5, new WhiteToWhite(limbusMm, 0.05, true));
        StillMeasures found = StillMeasures.of(
                        MeasuredShape.RHEXIS, clicks(rhexisCentre, rhexisPx, 12, 1.5, random), scale, null)
                .orElseThrow();
        MeasuredValue diameter = value(found, "apparent_diameter");
        assertThat(diameter.value()).isCloseTo(rhexisMm, within(3 * diameter.se()));
        assertThat(diameter.se()).isBetween(0.01, 0.08);
        MeasuredValue off = value(found, "decentration_from_limbus");
        assertThat(off.value()).isCloseTo(mmPerPx * rhexisCentre.distance(limbusCentre), within(3 * off.se()));
        assertThat(value(found, "circularity_4pi_area_by_perimeter2").value()).isCloseTo(1, within(0.005));
        // a regular polygon of 12 sides: (π/12)/tan(π/12) = 0.97705, less what the jitter adds to its perimeter
        assertThat(value(found, "polygon_circularity_4pi_area_by_perimeter2").value())
                .isCloseTo(Math.PI / 12 / Math.tan(Math.PI / 12), within(0.02));
        assertThat(found.method()).contains("not corrected").contains("own white-to-white");
    }

    /** Many people clicking on the same still, the eye's own width read with an error of 0.05 mm. */
    @Test
    void limitsWithAKnownWidthHoldTheTruthAsOftenAsTheySay() {
        int runs = 1500;
        int[] held = new int[4];
        Random random = new Random(20260);
        for (int k = 0; k < runs; k++) {
            double jitter = 1 + random.nextDouble();
            WhiteToWhite read = new WhiteToWhite(limbusMm + 0.05 * random.nextGaussian(), 0.05, true);
            LimbusScale scale = limbus(random, jitter, read);
            StillMeasures found = StillMeasures.of(
                            MeasuredShape.RHEXIS, clicks(rhexisCentre, rhexisPx, 12, jitter, random), scale, null)
                    .orElseThrow();
            held[0] += covers(value(found, "apparent_diameter"), rhexisMm) ? 1 : 0;
            held[1] += covers(value(found, "decentration_from_limbus"), mmPerPx * rhexisCentre.distance(limbusCentre))
                    ? 1
                    : 0;
            Point tip = new Point(rhexisCentre.x() + 60, rhexisCentre.y() - 25);
            StillMeasures far = StillMeasures.of(
                            MeasuredShape.DISTANCE,
                            List.of(jittered(rhexisCentre, jitter, random), jittered(tip, jitter, random)),
                            scale,
                            null)
                    .orElseThrow();
            held[2] += covers(value(far, "distance"), mmPerPx * 65) ? 1 : 0; // √(60² + 25²) = 65
            StillMeasures corner = StillMeasures.of(
                            MeasuredShape.ANGLE,
                            List.of(
                                    jittered(new Point(tip.x(), rhexisCentre.y()), jitter, random),
                                    jittered(rhexisCentre, jitter, random),
                                    jittered(tip, jitter, random)),
                            scale,
                            null)
                    .orElseThrow();
            held[3] += covers(value(corner, "angle"), Math.toDegrees(Math.atan2(25, 60))) ? 1 : 0;
        }
        String[] names = {"diameter", "decentration", "distance", "angle"};
        for (int i = 0; i < names.length; i++) {
            double share = held[i] / (double) runs;
            System.out.printf(
                    "coverage of nominal 95 %% limits, known width, %s: %.3f (n = %d)%n", names[i], share, runs);
            // standard error of a share of 0.95 in 1500: 0.0056
            assertThat(share).as(names[i]).isBetween(0.933, 0.967);
        }
    }

    /** Eyes of people, whose corneas differ as those of Rüfer et al. 2005 did, each measured with their mean. */
    @Test
    void limitsWithTheMeanOfPeopleHoldTheTruthAsOftenAsTheySay() {
        int runs = 1500;
        int held = 0;
        Random random = new Random(77);
        for (int k = 0; k < runs; k++) {
            double width = 11.71 + 0.42 * random.nextGaussian();
            double trueMmPerPx = width / (limbusMm / mmPerPx);
            LimbusScale scale = limbus(random, 1.5, WhiteToWhite.POPULATION);
            StillMeasures found = StillMeasures.of(
                            MeasuredShape.RHEXIS, clicks(rhexisCentre, rhexisPx, 12, 1.5, random), scale, null)
                    .orElseThrow();
            held += covers(value(found, "apparent_diameter"), rhexisPx * trueMmPerPx) ? 1 : 0;
        }
        double share = held / (double) runs;
        System.out.printf("coverage of nominal 95 %% limits, mean of people, diameter: %.3f (n = %d)%n", share, runs);
        assertThat(share).isBetween(0.933, 0.967);
    }

    private static Point jittered(Point p, double jitter, Random random) {
        return new Point(p.x() + jitter * random.nextGaussian(), p.y() + jitter * random.nextGaussian());
    }

    /**
     * Worked by hand: 11.71 mm over 812 px is 0.014421 mm/px, so that 380 px are 5.480 mm, uncertain by the 3.6 % of
     * 0.42/11.71: 0.197 mm.
     */
    @Test
    void theScaleIsWhiteToWhiteOverTheLimbusAndItsSpreadStaysInTheResult() {
        Random none = new Random(3);
        LimbusScale scale = LimbusScale.of(clicks(new Point(960, 540), 812, 16, 0.01, none), WhiteToWhite.POPULATION)
                .orElseThrow();
        assertThat(scale.calibration().mmPerPx()).isCloseTo(0.014421, within(1e-6));
        MeasuredValue diameter = value(
                StillMeasures.of(MeasuredShape.RHEXIS, clicks(new Point(950, 545), 380, 16, 0.01, none), scale, null)
                        .orElseThrow(),
                "apparent_diameter");
        assertThat(diameter.value()).isCloseTo(5.480, within(1e-3));
        assertThat(diameter.se()).isCloseTo(5.480 * 0.42 / 11.71, within(1e-3));
    }

    /** An upright cornea is wider than high; 11.71 mm is its width. */
    @Test
    void ofAnOvalLimbusTheLongerDiameterHasTheWidth() {
        List<Point> oval = new ArrayList<>();
        Random random = new Random(5);
        for (int i = 0; i < 16; i++) {
            double angle = 2 * Math.PI * i / 16;
            oval.add(jittered(new Point(500 + 400 * Math.cos(angle), 400 + 360 * Math.sin(angle)), 0.5, random));
        }
        LimbusScale scale = LimbusScale.of(oval, WhiteToWhite.POPULATION).orElseThrow();
        assertThat(scale.widthPx()).isCloseTo(800, within(2.0));
    }

    @Test
    void lengthsNeedAScaleOfTheSameFrameAndAnglesDoNot() {
        List<MarkedPoints> all = List.of(
                new MarkedPoints("1", MeasuredShape.LIMBUS, clicks(limbusCentre, 370, 10, 1, new Random(1))),
                new MarkedPoints("1", MeasuredShape.RHEXIS, clicks(rhexisCentre, 160, 10, 1, new Random(2))),
                new MarkedPoints("2", MeasuredShape.RHEXIS, clicks(rhexisCentre, 190, 10, 1, new Random(3))),
                new MarkedPoints("2", MeasuredShape.ANGLE, List.of(new Point(0, 9), new Point(0, 0), new Point(9, 0))));
        List<MarkedPoints.Result> results = MarkedPoints.measure(all, WhiteToWhite.POPULATION);
        assertThat(results.get(1).outcome()).isInstanceOf(Outcome.Found.class);
        assertThat(results.get(2).outcome())
                .isInstanceOfSatisfying(
                        Outcome.Refused.class,
                        refused -> assertThat(refused.refusal().remedy()).contains("on this very frame"));
        assertThat(value(((Outcome.Found<StillMeasures>) results.get(3).outcome()).value(), "angle")
                        .value())
                .isCloseTo(90, within(1e-6));
    }

    @Test
    void anotherZoomIsSeenByTheLimbus() {
        LimbusScale one = limbus(new Random(1), 1.5, WhiteToWhite.POPULATION);
        assertThat(one.hasOtherZoomThan(limbus(new Random(2), 1.5, WhiteToWhite.POPULATION)))
                .isFalse();
        LimbusScale closer = LimbusScale.of(
                        clicks(limbusCentre, 1.1 * limbusMm / mmPerPx, 14, 1.5, new Random(3)), WhiteToWhite.POPULATION)
                .orElseThrow();
        assertThat(one.hasOtherZoomThan(closer)).isTrue();
    }

    @Test
    void fiveClicksFitAnEllipseWithAnErrorTakenAsUsual() {
        LimbusScale scale = LimbusScale.of(clicks(limbusCentre, 370, 5, 1, new Random(4)), WhiteToWhite.POPULATION)
                .orElseThrow();
        assertThat(scale.fit().scatter().estimated()).isFalse();
        assertThat(scale.fit().scatter().clickSd()).isEqualTo(StillMeasures.USUAL_CLICK_PX);
    }
}
