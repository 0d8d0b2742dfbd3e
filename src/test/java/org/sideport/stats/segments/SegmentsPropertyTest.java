package org.sideport.stats.segments;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.sideport.stats.Outcome;

class SegmentsPropertyTest {

    private static final Map<String, String> RENAMED = Map.of("A", "zeta", "B", "alpha", "C", "mu");

    @Provide
    Arbitrary<SegmentSequence> sequences() {
        record Piece(String label, int gap, int length) {}
        return Combinators.combine(
                        Arbitraries.of("A", "B", "C"),
                        Arbitraries.integers().between(0, 3),
                        Arbitraries.integers().between(1, 9))
                .as(Piece::new)
                .list()
                .ofMinSize(1)
                .ofMaxSize(12)
                .map(pieces -> {
                    List<Segment> segments = new ArrayList<>();
                    long now = 0;
                    for (Piece piece : pieces) {
                        now += piece.gap();
                        segments.add(new Segment(piece.label(), now, now + piece.length()));
                        now += piece.length();
                    }
                    return new SegmentSequence(segments);
                });
    }

    private static SegmentSequence change(SegmentSequence from, long shift, boolean rename) {
        return new SegmentSequence(from.segments().stream()
                .map(s -> new Segment(
                        rename ? RENAMED.get(s.label()) : s.label(), s.startUs() + shift, s.endUs() + shift))
                .toList());
    }

    @Property(tries = 300)
    void measuresStayWithinTheirBounds(
            @ForAll("sequences") SegmentSequence a,
            @ForAll("sequences") SegmentSequence b,
            @ForAll Background background) {
        TaggerAgreement agreement = TaggerAgreement.of(a, b, background, null).orElseThrow();
        assertThat(agreement.time().accuracy().orElseThrow()).isBetween(0.0, 1.0);
        if (agreement.time().kappa() instanceof Outcome.Found<Double> kappa) {
            assertThat(kappa.value()).isBetween(-1.0, 1.0);
        }
        for (String label : List.of("A", "B", "C")) {
            Double iou = agreement.time().intersectionOverUnion(label);
            if (iou != null) {
                assertThat(iou).isBetween(0.0, 1.0);
            }
        }
        assertThat(agreement.editScore()).isBetween(0.0, 100.0);
        double before = 1;
        for (SegmentalScore score : agreement.f1()) {
            assertThat(score.f1()).isBetween(0.0, before);
            before = score.f1();
            assertThat(score.truePositives() + score.falseNegatives())
                    .isEqualTo(a.merged().size());
            assertThat(score.truePositives() + score.falsePositives())
                    .isEqualTo(b.merged().size());
        }
        SegmentMatching matching = agreement.matching();
        assertThat(matching.pairs().size() + matching.missed().size())
                .isEqualTo(a.merged().size());
        assertThat(matching.pairs().size() + matching.extra().size())
                .isEqualTo(b.merged().size());
        assertThat(matching.pairs()).allSatisfy(pair -> {
            assertThat(pair.reference().label()).isEqualTo(pair.found().label());
            assertThat(pair.reference().overlapUs(pair.found())).isPositive();
        });
    }

    @Property(tries = 300)
    void exchangingTheTaggersChangesNothing(
            @ForAll("sequences") SegmentSequence a,
            @ForAll("sequences") SegmentSequence b,
            @ForAll Background background) {
        LabelConfusion there = LabelConfusion.ofTime(a, b, background);
        LabelConfusion back = LabelConfusion.ofTime(b, a, background);
        assertThat(back.accuracy()).isEqualTo(there.accuracy());
        assertThat(back.total()).isEqualTo(there.total());
        compareKappa(there, back);
        for (String label : List.of("A", "B", "C")) {
            assertThat(back.intersectionOverUnion(label)).isEqualTo(there.intersectionOverUnion(label));
        }
        assertThat(SegmentalScore.edit(b, a)).isEqualTo(SegmentalScore.edit(a, b));
        // above one half no segment can have two partners
        assertThat(SegmentalScore.of(b, a, 51).f1())
                .isEqualTo(SegmentalScore.of(a, b, 51).f1());
        assertThat(common(SegmentMatching.of(b, a))).isEqualTo(common(SegmentMatching.of(a, b)));
    }

    @Property(tries = 300)
    void namesOfLabelsAndStartOfTheClockDoNotMatter(
            @ForAll("sequences") SegmentSequence a, @ForAll("sequences") SegmentSequence b) {
        TaggerAgreement plain =
                TaggerAgreement.of(a, b, Background.CATEGORY, null).orElseThrow();
        TaggerAgreement renamed = TaggerAgreement.of(
                        change(a, 1_000, true), change(b, 1_000, true), Background.CATEGORY, null)
                .orElseThrow();
        compareKappa(plain.time(), renamed.time());
        assertThat(renamed.editScore()).isEqualTo(plain.editScore());
        assertThat(renamed.f1()).isEqualTo(plain.f1());
        assertThat(renamed.boundaries()).isEqualTo(plain.boundaries());
    }

    @Property(tries = 300)
    void theEditScoreIsFullIfAndOnlyIfTheOrderIsTheSame(
            @ForAll("sequences") SegmentSequence a, @ForAll("sequences") SegmentSequence b) {
        assertThat(SegmentalScore.edit(a, b).orElseThrow() == 100)
                .isEqualTo(a.merged().labels().equals(b.merged().labels()));
        assertThat(SegmentalScore.edit(a, change(a, 500, false)).orElseThrow()).isEqualTo(100);
    }

    @Property(tries = 200)
    void aTaggerAgreesWithHimself(@ForAll("sequences") SegmentSequence a) {
        TaggerAgreement self =
                TaggerAgreement.of(a, a, Background.CATEGORY, null).orElseThrow();
        assertThat(self.time().accuracy().orElseThrow()).isEqualTo(1);
        assertThat(self.f1()).allSatisfy(score -> assertThat(score.f1()).isEqualTo(1));
        assertThat(self.matching().missed()).isEmpty();
        assertThat(self.matching().extra()).isEmpty();
        assertThat(self.boundaries().maxAbsoluteUs()).isZero();
    }

    private static long common(SegmentMatching matching) {
        return matching.pairs().stream()
                .mapToLong(p -> p.reference().overlapUs(p.found()))
                .sum();
    }

    private static void compareKappa(LabelConfusion one, LabelConfusion other) {
        if (one.kappa() instanceof Outcome.Found<Double> kappa) {
            assertThat(other.kappa().orElseThrow()).isCloseTo(kappa.value(), within(1e-12));
        } else {
            assertThat(other.kappa()).isEqualTo(one.kappa());
        }
    }
}
