package org.sideport.stats.segments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.segments.SegmentMatching.BoundaryDeviations;

class SegmentsTest {

    private static final FrameRate PAL = new FrameRate(25, 1);

    /** One letter a frame of 40 ms; a dot is background. */
    static SegmentSequence frames(String letters) {
        List<Segment> segments = new ArrayList<>();
        for (int i = 0, start = 0; i < letters.length(); i++) {
            if (i + 1 == letters.length() || letters.charAt(i + 1) != letters.charAt(i)) {
                if (letters.charAt(i) != '.') {
                    segments.add(new Segment(letters.substring(i, i + 1), start * 40_000L, (i + 1) * 40_000L));
                }
                start = i + 1;
            }
        }
        return new SegmentSequence(segments);
    }

    static Stream<List<String>> oracle() throws IOException {
        try (var in = SegmentsTest.class.getResourceAsStream("frames.csv")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                            .lines()
                            .filter(line -> !line.startsWith("#"))
                            .map(line -> List.of(line.split(",")))
                            .toList()
                            .stream();
        }
    }

    /**
     * Kappa by R's psych, the segmental scores by a program on frames written from the paper
     * (src/test/oracle/segments/segments.R). The first row is the example of AAAABBBBCC found as AAABBBBBCC: accuracy .9,
     * overlaps .75, .8 and 1, edit score 100, F1 1; kappa by hand: expected .4·.3 + .4·.5 + .2·.2 = .36, (.9 − .36)/.64.
     */
    @ParameterizedTest
    @MethodSource("oracle")
    void agreementOfFramesIsThatOfR(List<String> row) {
        SegmentSequence reference = frames(row.get(0));
        SegmentSequence found = frames(row.get(1));
        TaggerAgreement agreement =
                TaggerAgreement.of(reference, found, Background.CATEGORY, PAL).orElseThrow();
        for (LabelConfusion confusion : List.of(agreement.time(), agreement.frames())) {
            assertThat(confusion.accuracy().orElseThrow()).isCloseTo(number(row.get(2)), within(1e-12));
            assertThat(confusion.kappa().orElseThrow()).isCloseTo(number(row.get(3)), within(1e-12));
            double[] iou = Arrays.stream(row.get(4).split(" "))
                    .mapToDouble(SegmentsTest::number)
                    .toArray();
            for (int i = 0; i < 3; i++) {
                assertThat(confusion.intersectionOverUnion("ABC".substring(i, i + 1)))
                        .isCloseTo(iou[i], within(1e-12));
            }
        }
        assertThat(agreement.frames().total()).isEqualTo(row.get(0).length());
        assertThat(agreement.time().total()).isEqualTo(row.get(0).length() * 40_000L);
        assertThat(agreement.editScore()).isCloseTo(number(row.get(5)), within(1e-9));
        for (int k = 0; k < 3; k++) {
            assertThat(agreement.f1().get(k))
                    .isEqualTo(new SegmentalScore(
                            List.of(10, 25, 50).get(k),
                            Integer.parseInt(row.get(6 + 3 * k)),
                            Integer.parseInt(row.get(7 + 3 * k)),
                            Integer.parseInt(row.get(8 + 3 * k))));
        }
    }

    private static double number(String text) {
        return Double.parseDouble(text);
    }

    @Test
    void theExampleOfTenFramesHasOneShiftedBoundary() {
        TaggerAgreement agreement = TaggerAgreement.of(
                        frames("AAAABBBBCC"), frames("AAABBBBBCC"), Background.CATEGORY, null)
                .orElseThrow();
        assertThat(agreement.frames()).isNull();
        assertThat(agreement.matching().missed()).isEmpty();
        assertThat(agreement.matching().extra()).isEmpty();
        assertThat(agreement.matching().pairs()).hasSize(3);
        // boundaries 0, A|B, B|C and the end: one of four a frame early; 95 % at 2.85 of 0 0 0 40 000 by type 7
        same(agreement.boundaries(), new BoundaryDeviations(4, -10_000, 0, 0.85 * 40_000, 40_000));
        assertThat(agreement.f1().get(2).f1()).isEqualTo(1);
    }

    /** Worked on paper: the long B is found in two parts, of which the greater is its partner; C is found as D. */
    @Test
    void segmentsWithoutPartnerAreMissedOrExtra() {
        SegmentSequence reference = frames("AABBBBBBBBCC");
        SegmentSequence found = frames("AABBABBBBBDD");
        SegmentMatching matching = SegmentMatching.of(reference, found);
        assertThat(matching.pairs()).hasSize(2);
        assertThat(matching.pairs().get(1).found()).isEqualTo(new Segment("B", 200_000, 400_000));
        assertThat(matching.missed()).containsExactly(new Segment("C", 400_000, 480_000));
        assertThat(matching.extra())
                .containsExactly(
                        new Segment("B", 80_000, 160_000),
                        new Segment("A", 160_000, 200_000),
                        new Segment("D", 400_000, 480_000));
        // A: 0, 0 and end 0; B: start 3 frames late, end 0
        same(matching.boundaries(), new BoundaryDeviations(4, 30_000, 0, 0.85 * 120_000, 120_000));
        SegmentMatching back = SegmentMatching.of(found, reference);
        assertThat(back.missed()).isEqualTo(matching.extra());
        assertThat(back.extra()).isEqualTo(matching.missed());
        assertThat(SegmentMatching.of(frames("AA"), frames("BB")).boundaries()).isNull();
    }

    /** A greedy choice of the first or the greatest overlap would lose: 3 + 3 frames beat 4. */
    @Test
    void partnersAreChosenForTheGreatestCommonTime() {
        SegmentSequence reference = frames("AAA.AAAAAAA");
        SegmentSequence found = frames("AAAAAAAA.AA");
        SegmentMatching matching = SegmentMatching.of(reference, found);
        assertThat(matching.pairs()).hasSize(2);
        assertThat(matching.pairs().get(0).reference()).isEqualTo(new Segment("A", 0, 120_000));
        assertThat(matching.pairs().get(1).found()).isEqualTo(new Segment("A", 360_000, 440_000));
        SegmentMatching greater = SegmentMatching.of(frames("A.AAAAA.A"), frames("AAAAAAAAA"));
        assertThat(greater.pairs())
                .singleElement()
                .satisfies(p -> assertThat(p.reference().lengthUs()).isEqualTo(200_000));
        assertThat(greater.missed()).hasSize(2);
    }

    /** 4 of 6 labelled frames agree; 4 more are idle for both: 8 of 10 with them, 4 of 6 without. */
    @Test
    void commonIdleTimeCountsOnlyIfAsked() {
        SegmentSequence a = frames("AAA....BBB");
        SegmentSequence b = frames("AA......BB");
        LabelConfusion with = LabelConfusion.ofTime(a, b, Background.CATEGORY);
        LabelConfusion without = LabelConfusion.ofTime(a, b, Background.LEFT_OUT_IF_BOTH);
        assertThat(with.accuracy().orElseThrow()).isEqualTo(0.8);
        assertThat(without.accuracy().orElseThrow()).isCloseTo(4.0 / 6, within(1e-15));
        // chance with: .3·.2 + .3·.2 + .4·.6 = .36; without: 3·2/36 + 3·2/36 + 0 = 1/3
        assertThat(with.kappa().orElseThrow()).isCloseTo(0.44 / 0.64, within(1e-14));
        assertThat(without.kappa().orElseThrow()).isCloseTo(0.5, within(1e-14));
        assertThat(with.intersectionOverUnion(LabelConfusion.NO_LABEL)).isCloseTo(4.0 / 6, within(1e-15));
        assertThat(without.intersectionOverUnion(LabelConfusion.NO_LABEL)).isZero();
        assertThat(with.intersectionOverUnion("unheard of")).isNull();
        assertThat(LabelConfusion.ofTime(frames("A"), frames("A"), Background.CATEGORY)
                        .intersectionOverUnion(LabelConfusion.NO_LABEL))
                .isNull();
    }

    /** At 30000/1001 frames a second frame i is shown at i · 33 366.67 µs: frames 0, 1, 2 begin before 100 000 µs. */
    @Test
    void framesOfABrokenRateAreCountedExactly() {
        FrameRate ntsc = new FrameRate(30_000, 1_001);
        assertThat(ntsc.framesFrom(0, 100_000)).isEqualTo(3);
        assertThat(ntsc.framesFrom(0, 33_366)).isEqualTo(1);
        assertThat(ntsc.framesFrom(33_366, 33_367)).isEqualTo(1);
        assertThat(ntsc.framesFrom(33_367, 66_733)).isZero();
        assertThat(ntsc.framesFrom(1, 33_366)).isZero();
        // 1 001 s hold 30 000 frames; a day and a half of it 3 884 115.88 of them
        assertThat(ntsc.framesFrom(0, 1_001_000_000L)).isEqualTo(30_000);
        assertThat(ntsc.framesFrom(0, 129_600_000_000L)).isEqualTo(3_884_116);
        assertThat(PAL.framesFrom(0, 1_000_000)).isEqualTo(25);
        assertThatThrownBy(() -> new FrameRate(0, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FrameRate(25, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FrameRate(1_000_001, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new FrameRate(1, 1_000_001)).isInstanceOf(IllegalArgumentException.class);
        assertThat(new FrameRate(1_000_000, 1_000_000).framesFrom(0, 5_000_001)).isEqualTo(6);
    }

    @Test
    void nothingMarkedIsRefused() {
        SegmentSequence empty = new SegmentSequence(List.of());
        assertThat(reason(TaggerAgreement.of(empty, frames("A"), Background.CATEGORY, PAL)))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(TaggerAgreement.of(frames("A"), empty, Background.CATEGORY, PAL)))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(SegmentalScore.edit(empty, empty))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(
                        LabelConfusion.ofTime(empty, empty, Background.CATEGORY).accuracy()))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(SegmentalScore.of(empty, empty, 50).f1()).isEqualTo(1);
        assertThat(SegmentalScore.edit(empty, frames("AB")).orElseThrow()).isZero();
    }

    @Test
    void oneLabelThroughoutHasNoKappa() {
        LabelConfusion same = LabelConfusion.ofTime(frames("AAA"), frames("AAA"), Background.CATEGORY);
        assertThat(reason(same.kappa())).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(same.accuracy().orElseThrow()).isEqualTo(1);
        LabelConfusion never = LabelConfusion.ofTime(frames("AAA"), frames("BBB"), Background.CATEGORY);
        assertThat(never.kappa().orElseThrow()).isZero();
    }

    /** Lea et al.: of two segments found on one true segment the second is a false positive. */
    @Test
    void overSegmentationIsPunished() {
        SegmentalScore score = SegmentalScore.of(frames("AAAAAA"), frames("AAA.AA"), 25);
        assertThat(score).isEqualTo(new SegmentalScore(25, 1, 1, 0));
        assertThat(score.f1()).isCloseTo(2.0 / 3, within(1e-15));
        assertThat(SegmentalScore.edit(frames("AAAAAA"), frames("AAABAA")).orElseThrow())
                .isCloseTo(100.0 / 3, within(1e-12));
        // overlap exactly half counts
        assertThat(SegmentalScore.of(frames("AAAA"), frames("AA.."), 50).truePositives())
                .isEqualTo(1);
        assertThat(SegmentalScore.of(frames("AAAA"), frames("AA.."), 51).truePositives())
                .isZero();
        assertThat(SegmentalScore.of(frames("AAAA"), frames("AAAA"), 100).truePositives())
                .isEqualTo(1);
        assertThatThrownBy(() -> SegmentalScore.of(frames("A"), frames("A"), 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> SegmentalScore.of(frames("A"), frames("A"), 101))
                .isInstanceOf(IllegalArgumentException.class);
        assertThat(SegmentalScore.of(frames("AA"), frames("AA"), 1).f1()).isEqualTo(1);
    }

    @Test
    void touchingNeighboursCountTwiceButAreOneStretch() {
        SegmentSequence two = SegmentSequence.of(List.of(new Segment("A", 40, 80), new Segment("A", 0, 40)));
        assertThat(two.size()).isEqualTo(2);
        assertThat(two.merged().segments()).containsExactly(new Segment("A", 0, 80));
        SegmentSequence apart = SegmentSequence.of(List.of(new Segment("A", 0, 40), new Segment("A", 41, 80)));
        assertThat(apart.merged()).isEqualTo(apart);
        SegmentSequence other = SegmentSequence.of(List.of(new Segment("A", 0, 40), new Segment("B", 40, 80)));
        assertThat(other.merged()).isEqualTo(other);
        assertThat(other.without(Set.of("A")).labels()).containsExactly("B");
        assertThat(SegmentalScore.edit(two, SegmentSequence.of(List.of(new Segment("A", 0, 80))))
                        .orElseThrow())
                .isEqualTo(100);
        assertThat(SegmentMatching.of(two, two).pairs()).hasSize(1);
        assertThatThrownBy(() -> SegmentSequence.of(List.of(new Segment("A", 0, 40), new Segment("B", 39, 80))))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Segment("A", 5, 5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Segment("", 5, 6)).isInstanceOf(IllegalArgumentException.class);
    }

    /** Three recordings: the times add up; with fewer there are no limits but a warning. */
    @Test
    void kappaOfSeveralRecordingsAddsTheirTimes() {
        List<LabelConfusion> three = List.of(
                LabelConfusion.ofTime(frames("AAAABBBBCC"), frames("AAABBBBBCC"), Background.CATEGORY),
                LabelConfusion.ofTime(frames("BBAA"), frames("BAAA"), Background.CATEGORY),
                LabelConfusion.ofTime(frames("DDDDAA"), frames("DDDDDA"), Background.CATEGORY));
        Estimate kappa =
                PooledAgreement.kappa(three, new Bootstrap(500, 1, 0.95)).orElseThrow();
        // of 20 frames A 8|7, B 6|6, C 2|2, D 4|5 and 17 agreed: (.85 − (56 + 36 + 4 + 20)/400) / (1 − .29)
        assertThat(kappa.value()).isCloseTo(0.56 / 0.71, within(1e-12));
        assertThat(kappa.n()).isEqualTo(3);
        assertThat(kappa.warnings()).isEmpty();
        // the recordings alone have kappas .84375, .5 and .571: any mix lies between their extremes
        assertThat(kappa.limits().lower()).isBetween(0.3, kappa.value());
        assertThat(kappa.limits().upper()).isBetween(kappa.value(), 0.95);
        Estimate two = PooledAgreement.kappa(three.subList(0, 2), new Bootstrap(500, 1, 0.95))
                .orElseThrow();
        assertThat(two.limits()).isNull();
        assertThat(two.warnings()).singleElement().asString().contains("2 recordings are too few");
        assertThat(reason(PooledAgreement.kappa(
                        List.of(LabelConfusion.ofTime(frames("A"), frames("A"), Background.CATEGORY)),
                        new Bootstrap(500, 1, 0.95))))
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThatThrownBy(() -> new LabelConfusion(List.of("A"), new long[2][2]))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static void same(BoundaryDeviations found, BoundaryDeviations expected) {
        assertThat(found.n()).isEqualTo(expected.n());
        assertThat(found.meanUs()).isCloseTo(expected.meanUs(), within(1e-6));
        assertThat(found.medianAbsoluteUs()).isCloseTo(expected.medianAbsoluteUs(), within(1e-6));
        assertThat(found.p95AbsoluteUs()).isCloseTo(expected.p95AbsoluteUs(), within(1e-6));
        assertThat(found.maxAbsoluteUs()).isCloseTo(expected.maxAbsoluteUs(), within(1e-6));
    }

    static Refusal.Reason reason(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<?>) outcome).refusal().reason();
    }
}
