package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Predicate;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.trace.DrawnOperation.Part;
import org.sideport.media.trace.DrawnOperation.Placed;
import org.sideport.media.trace.DrawnOperation.Show;
import org.sideport.media.trace.DrawnOperation.Style;
import org.sideport.model.Progress;

/**
 * How much of what was drawn is found again, and how much is found that was not drawn. The truth is the plan of the
 * drawing. The least values asserted are what was reached on these recordings, rounded down; they say how well the rules
 * fit drawings, and nothing about real operations.
 */
class RecordingFindingsTest {

    /** A stretch counts as found if it and the truth share at least half of what either covers. */
    private static final double OVERLAP = 0.5;

    private static final double CUT_WITHIN = 0.4;
    private static final double BOUNDARY_WITHIN = 2.5;

    @TempDir
    static Path folder;

    /** The rules were set on recordings like these: another number of the same kind is all that is new. */
    private static final List<Measured> EASY = new ArrayList<>();

    /** Slow work, slight loss of focus, more noise, small jumps: never looked at when the rules were set. */
    private static final List<Measured> HARD = new ArrayList<>();

    private record Measured(DrawnOperation drawn, Traces traces, List<Finding> findings, List<Proposal> proposals) {}

    private record Span(double start, double end) {
        double overlap(Span other) {
            double shared = Math.min(end, other.end) - Math.max(start, other.start);
            return Math.max(0, shared) / (Math.max(end, other.end) - Math.min(start, other.start));
        }

        double distance(double time) {
            return Math.max(0, Math.max(start - time, time - end));
        }
    }

    private record Score(int truth, int found, int hits) {

        static final Score NOTHING = new Score(0, 0, 0);

        double recall() {
            return truth == 0 ? 1 : (double) hits / truth;
        }

        double precision() {
            return found == 0 ? 1 : (double) hits / found;
        }

        Score plus(Score other) {
            return new Score(truth + other.truth, found + other.found, hits + other.hits);
        }

        @Override
        public String toString() {
            return String.format(
                    java.util.Locale.ROOT,
                    "%d drawn, %d found, %d of them right: recall %.2f, precision %.2f",
                    truth,
                    found,
                    hits,
                    recall(),
                    precision());
        }
    }

    @BeforeAll
    static void drawAndMeasure() throws IOException {
        double[] noises = {2, 5};
        for (int i = 0; i < noises.length; i++) {
            EASY.add(measure("easy" + i, new Style(noises[i], 1, 3, 0), 40 + i));
        }
        HARD.add(measure("hard0", new Style(4, 0.3, 1, 22), 71));
        HARD.add(measure("hard1", new Style(6, 0.4, 1, 10), 72));
    }

    private static Measured measure(String name, Style style, long seed) throws IOException {
        DrawnOperation drawn =
                DrawnOperation.write(folder.resolve(name + ".mp4"), plan(new Random(seed)), style, 900 + seed);
        Traces traces = TraceComputer.compute(List.of(drawn.file()), 5, Progress.NONE);
        return new Measured(drawn, traces, Findings.of(traces), Proposals.of(traces));
    }

    /** Drape, then work and rest in turn with one mishap each, then drape. */
    private static List<Part> plan(Random random) {
        List<Show> mishaps = new ArrayList<>(
                List.of(Show.BLACK, Show.GREY, Show.BLUE, Show.FROZEN, Show.BLURRED, Show.ACTIVE, Show.IDLE));
        java.util.Collections.shuffle(mishaps, random);
        List<Part> plan = new ArrayList<>();
        plan.add(Part.of(Show.DRAPE, 4 + random.nextInt(4)));
        boolean active = true;
        for (Show mishap : mishaps) {
            double light = random.nextInt(3) == 0 ? 0.65 : 1;
            plan.add(Part.of(active ? Show.ACTIVE : Show.IDLE, 7 + random.nextInt(5))
                    .dimmed(light));
            if (mishap == Show.ACTIVE) {
                plan.add(Part.of(active ? Show.ACTIVE : Show.IDLE, 7).afterCut());
            } else if (mishap == Show.IDLE) {
                plan.add(Part.of(active ? Show.ACTIVE : Show.IDLE, 6).afterHole(2));
            } else {
                plan.add(Part.of(mishap, 3 + random.nextInt(2)));
            }
            active = !active;
        }
        plan.add(Part.of(Show.ACTIVE, 7));
        plan.add(Part.of(Show.DRAPE, 4 + random.nextInt(3)));
        return plan;
    }

    @Test
    void stillAndEmptyStretchesAreFoundAndNoOthers() {
        for (List<Measured> set : List.of(EASY, HARD)) {
            assertReached(stretches(set, FindingKind.BLACK, p -> p.part().show() == Show.BLACK), 1, 1);
            assertReached(
                    stretches(
                            set,
                            FindingKind.NO_SIGNAL,
                            p -> p.part().show() == Show.GREY || p.part().show() == Show.BLUE),
                    1,
                    1);
            assertReached(stretches(set, FindingKind.FROZEN, p -> p.part().show() == Show.FROZEN), 1, 1);
        }
    }

    @Test
    void lossOfFocusIsFound() {
        assertReached(stretches(EASY, FindingKind.OUT_OF_FOCUS, p -> p.part().show() == Show.BLURRED), 1, 1);
        assertReached(stretches(HARD, FindingKind.OUT_OF_FOCUS, p -> p.part().show() == Show.BLURRED), 0.5, 1);
    }

    @Test
    void jumpsOfTheSceneAreFoundToTheMoment() {
        assertReached(cuts(EASY, FindingKind.JUMP_CUT, p -> p.part().cutBefore(), CUT_WITHIN), 1, 1);
        // the same eye 22 pixels away is found, 10 pixels away it passes for a movement of the eye
        assertReached(cuts(HARD, FindingKind.JUMP_CUT, p -> p.part().cutBefore(), CUT_WITHIN), 0.5, 1);
    }

    @Test
    void holesInTheTimesAreFoundExactly() {
        assertReached(cuts(EASY, FindingKind.TIME_HOLE, p -> p.part().holeBefore() > 0, 1e-3), 1, 1);
        assertReached(cuts(HARD, FindingKind.TIME_HOLE, p -> p.part().holeBefore() > 0, 1e-3), 1, 1);
    }

    @Test
    void whatLiesBeforeAndAfterIsProposedAsOutside() {
        for (List<Measured> set : List.of(EASY, HARD)) {
            assertReached(stretches(set, FindingKind.LEAD_IN, p -> p.start() == 0), 1, 1);
            assertReached(stretches(set, FindingKind.TAIL, p -> p.part().show() == Show.DRAPE && p.start() > 0), 1, 1);
        }
    }

    @Test
    void idleStretchesAreProposed() {
        assertReached(idle(EASY), 0.9, 0.9);
        assertReached(idle(HARD), 0.8, 0.8);
    }

    @Test
    void boundariesAreProposed() {
        assertReached(boundaries(EASY), 0.9, 0.9);
        assertReached(boundaries(HARD), 0.8, 0.8);
    }

    private static Score idle(List<Measured> set) {
        Score score = Score.NOTHING;
        for (Measured m : set) {
            score = score.plus(spans(
                    merged(m, p -> p.part().show() == Show.IDLE),
                    m.proposals().stream()
                            .filter(p -> p.kind() == Proposal.Kind.IDLE)
                            .map(p -> new Span(p.start().seconds(), p.end().seconds()))
                            .toList()));
        }
        return print(set, "idle", score);
    }

    private static Score boundaries(List<Measured> set) {
        Score score = Score.NOTHING;
        for (Measured m : set) {
            score = score.plus(points(
                    boundaries(m),
                    m.proposals().stream()
                            .filter(p -> p.kind() == Proposal.Kind.BOUNDARY)
                            .map(p -> p.start().seconds())
                            .toList(),
                    BOUNDARY_WITHIN));
        }
        return print(set, "boundary", score);
    }

    private static Score cuts(List<Measured> set, FindingKind kind, Predicate<Placed> drawn, double within) {
        Score score = Score.NOTHING;
        for (Measured m : set) {
            score = score.plus(points(starts(m, drawn), ends(m, kind), within));
        }
        return print(set, kind.id(), score);
    }

    private static Score print(List<Measured> set, String what, Score score) {
        System.out.println((set == EASY ? "easy " : "hard ") + what + ": " + score);
        return score;
    }

    private static void assertReached(Score score, double recall, double precision) {
        assertThat(score.truth()).as("something was drawn").isPositive();
        assertThat(score.recall()).as("recall of " + score).isGreaterThanOrEqualTo(recall);
        assertThat(score.precision()).as("precision of " + score).isGreaterThanOrEqualTo(precision);
    }

    /** Where drape, work and rest change into each other; a mishap or hole between them is the boundary as a whole. */
    private static List<Span> boundaries(Measured m) {
        List<Span> places = new ArrayList<>();
        Show last = null;
        double end = 0;
        for (Placed p : m.drawn().parts()) {
            // the instrument goes on while focus is lost
            Show show = p.part().show() == Show.BLURRED ? Show.ACTIVE : p.part().show();
            if (show == Show.DRAPE || show == Show.ACTIVE || show == Show.IDLE) {
                if (last != null && last != show) {
                    places.add(new Span(end, p.start()));
                }
                last = show;
                end = p.end();
            }
        }
        return places;
    }

    private static List<Span> merged(Measured m, Predicate<Placed> which) {
        List<Span> spans = new ArrayList<>();
        for (Placed p : m.drawn().parts()) {
            if (which.test(p)) {
                int last = spans.size() - 1;
                if (last >= 0 && p.start() - spans.get(last).end() < 0.05) {
                    spans.set(last, new Span(spans.get(last).start(), p.end()));
                } else {
                    spans.add(new Span(p.start(), p.end()));
                }
            }
        }
        return spans;
    }

    private static Score stretches(List<Measured> set, FindingKind kind, Predicate<Placed> drawn) {
        Score score = Score.NOTHING;
        for (Measured m : set) {
            List<Span> truth = m.drawn().parts().stream()
                    .filter(drawn)
                    .map(p -> new Span(p.start(), p.end()))
                    .toList();
            List<Span> found = m.findings().stream()
                    .filter(f -> f.kind() == kind)
                    .map(f -> new Span(f.start().seconds(), f.end().seconds()))
                    .toList();
            score = score.plus(spans(truth, found));
        }
        return print(set, kind.id(), score);
    }

    private static Score spans(List<Span> truth, List<Span> found) {
        List<Span> left = new ArrayList<>(found);
        int hits = 0;
        for (Span t : truth) {
            Span best = null;
            for (Span f : left) {
                if (t.overlap(f) >= OVERLAP && (best == null || t.overlap(f) > t.overlap(best))) {
                    best = f;
                }
            }
            if (best != null) {
                left.remove(best);
                hits++;
            }
        }
        return new Score(truth.size(), found.size(), hits);
    }

    private static Score points(List<Span> truth, List<Double> found, double within) {
        List<Double> left = new ArrayList<>(found);
        int hits = 0;
        for (Span t : truth) {
            Double best = null;
            for (Double f : left) {
                if (t.distance(f) <= within && (best == null || t.distance(f) < t.distance(best))) {
                    best = f;
                }
            }
            if (best != null) {
                left.remove(best);
                hits++;
            }
        }
        return new Score(truth.size(), found.size(), hits);
    }

    private static List<Span> starts(Measured m, Predicate<Placed> which) {
        return m.drawn().parts().stream()
                .filter(which)
                .map(p -> new Span(p.start(), p.start()))
                .toList();
    }

    private static List<Double> ends(Measured m, FindingKind kind) {
        return m.findings().stream()
                .filter(f -> f.kind() == kind)
                .map(f -> f.end().seconds())
                .toList();
    }
}
