package org.sideport.app.timeline;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ProcedureReader;

class LaneContentTest {

    private LaneContent lane;

    private static MediaTime at(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    @BeforeEach
    void lay() throws Exception {
        Path file = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        Procedure procedure = ProcedureReader.read(Files.readString(file), file.toString());
        Tagging tagging = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(
                        new PhaseSpan("incision", at(2), at(5), null),
                        new PhaseSpan("rhexis", at(5), at(9), null),
                        new PhaseSpan("hydrodissection", at(12), null, null)),
                List.of(new PointEvent("iris_prolapse", at(6), null, "")));
        lane = LaneContent.of(procedure, tagging, null, at(20));
    }

    @Test
    void anOpenSpanIsDrawnToTheEnd() {
        assertThat(lane.blocks().get(2).end()).isEqualTo(at(20));
    }

    @Test
    void whatLiesBetweenSpansIsIdle() {
        assertThat(lane.idle()).containsExactly(new LaneContent.Stretch(at(9), at(12)));
    }

    @Test
    void neighboursShareOneBoundary() {
        assertThat(lane.boundaries()).containsExactly(at(2), at(5), at(9), at(12));
    }

    @Test
    void aBoundaryIsTakenHoldOfWithinReachOnly() {
        assertThat(lane.boundaryNear(5_040_000, 50_000)).isEqualTo(at(5));
        assertThat(lane.boundaryNear(5_060_000, 50_000)).isNull();
    }

    @Test
    void aBoundaryHasRoomStrictlyBetweenItsNeighbours() {
        assertThat(lane.roomFor(at(5)))
                .isEqualTo(new LaneContent.Stretch(MediaTime.ofMicros(2_000_001), MediaTime.ofMicros(8_999_999)));
        assertThat(lane.roomFor(at(2)).start()).isEqualTo(MediaTime.ZERO);
        assertThat(lane.roomFor(at(12)).end()).isEqualTo(at(20));
    }

    @Test
    void eventsAndSpansAreFoundWhereTheyLie() {
        assertThat(lane.eventNear(6_100_000, 200_000)).isNotNull();
        assertThat(lane.eventNear(6_300_000, 200_000)).isNull();
        assertThat(lane.spanAt(at(5))).extracting(PhaseSpan::phase).isEqualTo("rhexis");
        assertThat(lane.spanAt(at(10))).isNull();
        assertThat(lane.markers().get(0).complication()).isTrue();
    }
}
