package org.sideport.app.timeline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import javafx.scene.paint.Color;
import org.junit.jupiter.api.Test;

/** Where things lie, what is under the mouse and where a drag ends, worked out by hand on a scale of 10 ms a pixel. */
class GeometryTest {

    private static final Tint TINT = new Tint(Color.GRAY, Color.BLACK);
    /** 1000 pixels show 10 s: a pixel is 10 ms. */
    private static final TimeScale SCALE = TimeScale.whole(10_000_000, 1000);

    static Lane.Span span(String name, double start, double end) {
        return new Lane.Span(name, Math.round(start * 1e6), Math.round(end * 1e6), false, false, name, name, TINT, "");
    }

    private static Lane.Point point(String name, double at) {
        return new Lane.Point(name, Math.round(at * 1e6), Lane.Mark.MOMENT, name, "");
    }

    private static TimelineIndex index(Lane... lanes) {
        return new TimelineIndex(TimelineModel.of(10_000_000, List.of(lanes)), 20);
    }

    private static Lane.Spans spans(String id, boolean editable, Lane.Span... all) {
        return new Lane.Spans(id, id, editable, false, List.of(all));
    }

    // ---- stacking

    @Test
    void overlappingSpansAreStackedAndNeighboursAreNot() {
        SpanIndex index = new SpanIndex(List.of(span("a", 0, 4), span("b", 2, 6), span("c", 4, 5), span("d", 4.5, 7)));

        // a 0-4 row 0, b overlaps it: row 1, c starts where a ends: row 0, d overlaps b and c: row 2
        assertThat(List.of(index.row(0), index.row(1), index.row(2), index.row(3)))
                .containsExactly(0, 1, 0, 2);
        assertThat(index.rowCount()).isEqualTo(3);
    }

    @Test
    void noTwoOfAThousandSpansInOneRowOverlapUnlessThereAreTooMany() {
        Random random = new Random(7);
        List<Lane.Span> many = new ArrayList<>();
        double at = 0;
        for (int i = 0; i < 1000; i++) {
            at += random.nextDouble();
            many.add(span("s" + i, at, at + random.nextDouble() * 2)); // hardly ever five at once
        }
        SpanIndex index = new SpanIndex(many);
        for (int row = 0; row < SpanIndex.MOST_ROWS - 1; row++) {
            long reached = 0;
            for (int i = 0; i < index.size(); i++) {
                if (index.row(i) == row) {
                    assertThat(index.span(i).startUs()).isGreaterThanOrEqualTo(reached);
                    reached = index.span(i).endUs();
                }
            }
        }
    }

    @Test
    void theFirstVisibleSpanIsFoundAlsoBehindALongOne() {
        SpanIndex index = new SpanIndex(List.of(span("long", 0, 9), span("a", 1, 2), span("b", 8, 9)));

        assertThat(index.firstReaching(5_000_000)).isZero();
        assertThat(new SpanIndex(List.of(span("a", 1, 2), span("b", 8, 9))).firstReaching(5_000_000))
                .isEqualTo(1);
        assertThat(index.firstReaching(9_000_000)).isEqualTo(3);
    }

    @Test
    void lanesLieUnderOneAnotherWithTheirRows() {
        TimelineIndex index = index(
                spans("one", true, span("a", 0, 4), span("b", 2, 6)),
                new Lane.Points("two", "two", true, List.of(point("p", 1))));

        assertThat(index.layout().height(0)).isEqualTo(40); // two rows of 20
        assertThat(index.layout().top(1)).isEqualTo(43); // and a gap of 3
        assertThat(index.layout().laneAt(42)).isZero();
        assertThat(index.layout().laneAt(43)).isEqualTo(1);
        assertThat(index.layout().laneAt(-1)).isEqualTo(-1);
        assertThat(index.layout().rowAt(0, 19.9)).isZero();
        assertThat(index.layout().rowAt(0, 20)).isEqualTo(1);
    }

    // ---- pointing

    @Test
    void aBoundaryIsTakenHoldOfFivePixelsToEitherSide() {
        TimelineIndex index = index(spans("lane", true, span("a", 1, 4), span("b", 4, 6)));

        assertThat(HitTester.at(index, SCALE, 405, 10, true)).isEqualTo(new Hit.Boundary(0, 4_000_000));
        assertThat(HitTester.at(index, SCALE, 395, 10, true)).isEqualTo(new Hit.Boundary(0, 4_000_000));
        assertThat(HitTester.at(index, SCALE, 406, 10, true)).isInstanceOf(Hit.SpanHit.class);
        assertThat(HitTester.at(index, SCALE, 405, 10, false)).isEqualTo(new Hit.SpanHit(0, span("b", 4, 6)));
    }

    @Test
    void whatMayNotBeEditedHasNoBoundaries() {
        TimelineIndex index = index(spans("lane", false, span("a", 1, 4)));

        assertThat(HitTester.at(index, SCALE, 401, 10, true)).isEqualTo(new Hit.Free(0));
    }

    @Test
    void everyTargetIsAtLeastEightPixelsWide() {
        // 10 ms: one pixel at x = 500
        TimelineIndex index = index(
                spans("lane", false, span("thin", 5, 5.01)),
                new Lane.Points("points", "points", false, List.of(point("p", 5))));
        int hitSpan = 0;
        int hitPoint = 0;
        for (int x = 480; x < 520; x++) {
            hitSpan += HitTester.at(index, SCALE, x, 10, true) instanceof Hit.SpanHit ? 1 : 0;
            hitPoint += HitTester.at(index, SCALE, x, 30, true) instanceof Hit.PointHit ? 1 : 0;
        }
        assertThat(hitSpan).isGreaterThanOrEqualTo(8);
        assertThat(hitPoint).isGreaterThanOrEqualTo(8);
    }

    @Test
    void aWideSpanIsNotHitBesideItself() {
        TimelineIndex index = index(spans("lane", false, span("a", 1, 4)));

        assertThat(HitTester.at(index, SCALE, 403, 10, true)).isEqualTo(new Hit.Free(0));
        assertThat(HitTester.at(index, SCALE, 200, 200, true)).isEqualTo(new Hit.Outside());
    }

    @Test
    void theRowUnderTheMouseCounts() {
        TimelineIndex index = index(spans("lane", false, span("a", 0, 4), span("b", 2, 6)));

        assertThat(HitTester.at(index, SCALE, 300, 10, true)).isEqualTo(new Hit.SpanHit(0, span("a", 0, 4)));
        assertThat(HitTester.at(index, SCALE, 300, 30, true)).isEqualTo(new Hit.SpanHit(0, span("b", 2, 6)));
    }

    @Test
    void aRectangleFindsWhatLiesInItWhollyOrInPart() {
        TimelineIndex index = index(
                spans("one", true, span("a", 1, 4), span("b", 4, 6), span("c", 8, 9)),
                new Lane.Points("two", "two", true, List.of(point("p", 3), point("q", 7))));

        assertThat(index.keysIn(new Stretch(3_500_000, 8_000_000), 0, 1)).containsExactlyInAnyOrder("a", "b", "q");
        assertThat(index.keysIn(new Stretch(4_000_000, 8_000_000), 0, 0)).containsExactly("b");
        assertThat(index.keysIn(new Stretch(0, 10_000_000), 1, 1)).containsExactly("p", "q");
    }

    // ---- snapping

    private static final FrameGrid FRAMES = grid(250, 40_000);

    private static FrameGrid grid(int count, long length) {
        long[] starts = new long[count];
        for (int i = 0; i < count; i++) {
            starts[i] = i * length;
        }
        return new FrameGrid(starts);
    }

    private static final Stretch ANYWHERE = new Stretch(0, 10_000_000);

    private static TimelineModel marked(List<Long> cuts, List<Long> candidates) {
        return new TimelineModel(10_000_000, List.of(), List.of(), List.of(), List.of(), cuts, candidates);
    }

    @Test
    void aDragEndsOnTheNearestFrame() {
        // frames start every 40 ms: 2.03 s lies between 2.00 and 2.04, nearer to 2.04
        assertThat(Snapper.snap(2_030_000, 60_000, TimelineModel.EMPTY, List.of(), -1, FRAMES, ANYWHERE))
                .isEqualTo(new Snapper.Snap(2_040_000, Snapper.To.FRAME));
        assertThat(FRAMES.nearest(2_019_999)).isEqualTo(2_000_000);
    }

    @Test
    void cutsAndCandidatesNearbyDraw() {
        TimelineModel model = marked(List.of(2_080_000L), List.of(1_960_000L));

        assertThat(Snapper.snap(2_030_000, 60_000, model, List.of(), -1, FRAMES, ANYWHERE))
                .isEqualTo(new Snapper.Snap(2_080_000, Snapper.To.CUT));
        assertThat(Snapper.snap(2_010_000, 60_000, model, List.of(), -1, FRAMES, ANYWHERE))
                .isEqualTo(new Snapper.Snap(1_960_000, Snapper.To.CANDIDATE));
        // 70 ms away is too far
        assertThat(Snapper.snap(2_150_001, 60_000, model, List.of(), -1, FRAMES, ANYWHERE)
                        .to())
                .isEqualTo(Snapper.To.FRAME);
        // with the reach taken away only frames draw
        assertThat(Snapper.snap(2_070_000, -1, model, List.of(), -1, FRAMES, ANYWHERE)
                        .to())
                .isEqualTo(Snapper.To.FRAME);
    }

    @Test
    void aCandidateBetweenFramesEndsOnAFrame() {
        TimelineModel model = marked(List.of(), List.of(2_013_000L));

        assertThat(Snapper.snap(2_050_000, 60_000, model, List.of(), -1, FRAMES, ANYWHERE))
                .isEqualTo(new Snapper.Snap(2_000_000, Snapper.To.CANDIDATE));
    }

    @Test
    void theRoomIsNeverLeft() {
        Stretch room = new Stretch(2_000_001, 2_999_999);

        assertThat(Snapper.snap(0, 60_000, TimelineModel.EMPTY, List.of(), -1, FRAMES, room)
                        .us())
                .isEqualTo(2_040_000);
        assertThat(Snapper.snap(9_000_000, 60_000, TimelineModel.EMPTY, List.of(), -1, FRAMES, room)
                        .us())
                .isEqualTo(2_960_000);
    }

    @Test
    void framesOfChangingLengthAreFound() {
        FrameGrid grid = new FrameGrid(new long[] {0, 33_000, 100_000, 133_000});

        assertThat(grid.at(99_999)).isEqualTo(1);
        assertThat(grid.at(100_000)).isEqualTo(2);
        assertThat(grid.nearest(70_000)).isEqualTo(100_000);
        assertThat(grid.step(34_000, 1)).isEqualTo(100_000);
        assertThat(grid.step(0, -3)).isZero();
        assertThat(grid.at(999_999)).isEqualTo(3);
    }

    // ---- detail

    @Test
    void thePyramidFindsLeastAndGreatestOfAnyStretch() {
        Random random = new Random(11);
        float[] values = new float[1013];
        for (int i = 0; i < values.length; i++) {
            values[i] = i % 97 == 5 ? Float.NaN : random.nextFloat();
        }
        MinMaxPyramid pyramid = new MinMaxPyramid(values);
        for (int n = 0; n < 2000; n++) {
            int from = random.nextInt(values.length);
            int to = from + 1 + random.nextInt(values.length - from);
            float least = Float.NaN;
            float greatest = Float.NaN;
            for (int i = from; i < to; i++) {
                if (!Float.isNaN(values[i])) {
                    least = Float.isNaN(least) ? values[i] : Math.min(least, values[i]);
                    greatest = Float.isNaN(greatest) ? values[i] : Math.max(greatest, values[i]);
                }
            }
            assertThat(pyramid.min(from, to)).isEqualTo(least);
            assertThat(pyramid.max(from, to)).isEqualTo(greatest);
        }
        assertThat(pyramid.min(5, 6)).isNaN();
        assertThat(pyramid.max(7, 7)).isNaN();
    }

    @Test
    void aFilmstripAsksForTheSameMomentsWhilePanning() {
        // 10 ms a pixel, 60 pixels a picture: 600 ms, the next step is 1.024 s
        assertThat(FilmstripSlots.stepUs(10_000, 60)).isEqualTo(1_024_000);
        assertThat(FilmstripSlots.firstUs(2_500_000, 1_024_000)).isEqualTo(2_048_000);
        assertThat(FilmstripSlots.firstUs(2_600_000, 1_024_000)).isEqualTo(2_048_000);
        assertThat(FilmstripSlots.firstUs(-5, 1_024_000)).isZero();
    }

    @Test
    void wordsFitWhollyOrNotAtAll() {
        LabelFit fit = new LabelFit(text -> text.length() * 7.0);

        // 4 pixels at either side
        assertThat(fit.choose("Rhexis", "Rhex", 50)).isEqualTo("Rhexis");
        assertThat(fit.choose("Rhexis", "Rhex", 49.9)).isEqualTo("Rhex");
        assertThat(fit.choose("Rhexis", "Rhex", 36)).isEqualTo("Rhex");
        assertThat(fit.choose("Rhexis", "Rhex", 35.9)).isEmpty();
        assertThat(fit.choose("Rhexis", "Rhex", -3)).isEmpty();
    }

    @Test
    void timesOnTheRulerHaveTheDecimalsTheyNeed() {
        assertThat(Clock.text(83_240_000, 1_000_000)).isEqualTo("1:23");
        assertThat(Clock.text(3_723_240_000L, 60_000_000)).isEqualTo("1:02:03");
        assertThat(Clock.text(83_240_000, 100_000)).isEqualTo("1:23.2");
        assertThat(Clock.text(83_240_000, 20_000)).isEqualTo("1:23.24");
    }

    // ---- selection

    @Test
    void aMovedBlockStaysSelectedThoughItsKeyIsAnother() {
        TimelineIndex before = index(spans("lane", true, span("a", 1, 4), span("b", 4, 6)));
        Lane.Span moved = new Lane.Span("b'", 4_500_000, 6_000_000, false, false, "b", "b", TINT, "");
        TimelineIndex after = index(spans("lane", true, span("a", 1, 4), moved));

        assertThat(SelectionKeeper.carry(before, after, Set.of("b"))).containsExactly("b'");
        assertThat(SelectionKeeper.carry(before, after, Set.of("a"))).containsExactly("a");
        TimelineIndex without = index(spans("lane", true, span("a", 1, 4)));
        assertThat(SelectionKeeper.carry(before, without, Set.of("b"))).isEmpty();
    }
}
