package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.timeline.Lane;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ProcedureReader;

class TaggedLanesTest {

    private static final TaggedLanes.Words WORDS = new TaggedLanes.Words("Phases", "Steps", "Events", span -> "");

    private final PhaseSpan incision = new PhaseSpan("incision", at(2), at(5), null);
    private final PhaseSpan rhexis = new PhaseSpan("rhexis", at(5), at(9), null);
    private final PhaseSpan hydro = new PhaseSpan("hydrodissection", at(12), at(14), null);
    private final PhaseSpan groove = new PhaseSpan("sculpting", at(14), null, null);
    private final PointEvent prolapse = new PointEvent("iris_prolapse", at(6), null, "");
    private TaggedLanes lanes = TaggedLanes.EMPTY;

    private static MediaTime at(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    @BeforeEach
    void lay() throws Exception {
        Path file = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        Procedure procedure = ProcedureReader.read(Files.readString(file), file.toString());
        Tagging tagging =
                new Tagging(TaggingStyle.START_AND_END, List.of(incision, rhexis, hydro, groove), List.of(prolapse));
        lanes = TaggedLanes.of(procedure, tagging, null, at(20));
    }

    private List<Lane.Span> spans(int lane) {
        return ((Lane.Spans) lanes.lanes(WORDS, true).get(lane)).spans();
    }

    @Test
    void theStepsOfAPhaseAreOneBlockAmongThePhases() {
        assertThat(spans(0))
                .extracting(Lane.Span::shortName, Lane.Span::startUs, Lane.Span::endUs)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("Inc", 2_000_000L, 5_000_000L),
                        org.assertj.core.groups.Tuple.tuple("Caps", 5_000_000L, 9_000_000L),
                        org.assertj.core.groups.Tuple.tuple("Nuc", 12_000_000L, 20_000_000L));
        assertThat(TaggedLanes.spansOf(List.of(spans(0).get(2).key()))).containsExactly(hydro, groove);
        assertThat(spans(0).get(0).key()).isEqualTo(incision);
    }

    @Test
    void stepsHaveALaneOfTheirOwn() {
        assertThat(spans(1)).extracting(Lane.Span::key).containsExactly(rhexis, hydro, groove);
        assertThat(spans(1)).extracting(Lane.Span::shortName).containsExactly("Rhex", "Hydro", "Groove");
    }

    @Test
    void anOpenSpanIsDrawnToTheEnd() {
        Lane.Span last = spans(1).get(2);
        assertThat(last.open()).isTrue();
        assertThat(last.endUs()).isEqualTo(20_000_000);
    }

    @Test
    void complicationsHaveAShapeOfTheirOwn() {
        Lane.Points events = (Lane.Points) lanes.lanes(WORDS, true).get(2);
        assertThat(events.points())
                .extracting(Lane.Point::key, Lane.Point::mark, Lane.Point::name)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(prolapse, Lane.Mark.COMPLICATION, "Iris prolapse"));
    }

    @Test
    void neighboursShareOneBoundary() {
        assertThat(lanes.boundaries()).containsExactly(at(2), at(5), at(9), at(12), at(14));
    }

    @Test
    void aBoundaryStaysBehindItsNeighbour() {
        assertThat(lanes.earliestFor(at(5))).isEqualTo(MediaTime.ofMicros(2_000_001));
        assertThat(lanes.earliestFor(at(2))).isEqualTo(MediaTime.ZERO);
    }
}
