package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import javafx.collections.FXCollections;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.timeline.Lane;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.ReferenceTimes;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.TwoTaggings;

/** A case tagged by A1, who is at work, and by A2; times in seconds. */
class BesidesTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel model;
    private Besides besides;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        tag("A1", "rhexis", 4, 14);
        tag("A2", "rhexis", 4, 24);
        model = bench.review();
        besides = new Besides(
                new ReferenceModel(
                        model,
                        new ReferenceTimes(bench.workspace),
                        FXCollections.observableArrayList(),
                        bench.work,
                        bench.texts,
                        bench.settings),
                new BesideTags(model, new TwoTaggings(bench.workspace), bench.work, bench.notices, bench.texts));
        bench.current.open("C-1");
        model.setAnnotator("A1");
    }

    @AfterEach
    void close() {
        bench.settings.close();
        bench.close();
    }

    private void tag(String annotator, String term, double from, double to) {
        var session = new TagRecording(bench.workspace).open("C-1", annotator);
        session.startPhase(term, MediaTime.ofSeconds(from), Operator.TRAINEE);
        session.endPhase(MediaTime.ofSeconds(to));
    }

    private List<Lane> lanes() {
        return besides.among(model.laneProperty().get().lanes(TimelineEditing.words(bench.texts), true));
    }

    private void choose(String id) {
        besides.reference()
                .chosenProperty()
                .set(besides.reference().choices().stream()
                        .flatMap(java.util.Optional::stream)
                        .filter(r -> r.id().equals(id))
                        .findFirst()
                        .orElse(null));
    }

    @Test
    void theBandStandsWhereThePhaseWouldHaveEnded() {
        choose("published_little_experience");

        Lane.Band band = (Lane.Band) lanes().get(1);
        // rhexis, Cataract-101 (doi 10.1145/3204949.3208137): quartiles 43.9, 65.1, 85.9 s; begun at 4 s
        assertThat(band.parts())
                .extracting(Lane.BandPart::fromUs, Lane.BandPart::lowUs, Lane.BandPart::middleUs, Lane.BandPart::highUs)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(4_000_000L, 47_900_000L, 69_100_000L, 89_900_000L));
        // 10 s are shorter than the published 10th percentile, 38.8 s
        assertThat(band.parts().get(0).note())
                .contains("Little experience (published), n = 45", "half of 45 took 0:43.9 to 1:25.9", "not above P10")
                .endsWith("a time alone judges nobody.");
    }

    @Test
    void theTooltipOfAPhaseAndOfItsStepSayTheSame() {
        choose("published_little_experience");
        Lane.Spans steps = (Lane.Spans) lanes().stream()
                .filter(lane -> lane.id().equals(TaggedLanes.STEPS))
                .findFirst()
                .orElseThrow();

        assertThat(besides.reference().noteOf(steps.spans().get(0)))
                .contains("Here 0:10.0 in 1 stretch: not above P10");
    }

    @Test
    void whatWasChosenIsRememberedAndNothingIsAChoice() {
        choose("none");

        assertThat(lanes()).extracting(Lane::id).doesNotContain(ReferenceModel.LANE);
        assertThat(besides.reference().source()).isEmpty();
        ReferenceModel next = new ReferenceModel(
                model,
                new ReferenceTimes(bench.workspace),
                FXCollections.observableArrayList(),
                bench.work,
                bench.texts,
                bench.settings);
        assertThat(next.chosenProperty().get()).isNull();
    }

    @Test
    void theChoiceStandsWhileItsListIsReadAnew() {
        choose("published_much_experience");
        model.setAnnotator("A2");

        assertThat(besides.reference().chosenProperty().get())
                .isNotNull()
                .extracting(ReferenceTimes.Reference::id)
                .isEqualTo("published_much_experience");
        assertThat(bench.settings.get("reference", "")).isEqualTo("published_much_experience");
    }

    @Test
    void anotherAnnotatorsPhasesAndTheDifferencesAreLanesToLookAtOnly() {
        besides.tags().show("A2");

        List<Lane> all = lanes();
        Lane.Spans theirs = (Lane.Spans) all.get(all.size() - 2);
        Lane.Spans differences = (Lane.Spans) all.get(all.size() - 1);
        assertThat(theirs.name()).isEqualTo("A2");
        assertThat(theirs.editable()).isFalse();
        assertThat(theirs.spans()).extracting(Lane.Span::endUs).containsExactly(24_000_000L);
        assertThat(TaggedLanes.spansOf(
                        theirs.spans().stream().map(Lane.Span::key).toList()))
                .as("their blocks are no tags of A1's, so no edit reaches them")
                .isEmpty();
        assertThat(differences.spans())
                .extracting(Lane.Span::startUs, Lane.Span::endUs, Lane.Span::name)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(14_000_000L, 24_000_000L, "A1: nothing · A2: Rhex"));
        // 10 of 20 s; the ends lie 10 s apart, the starts not at all
        assertThat(besides.tags().agreementProperty().get())
                .startsWith("Same as A2 in 50 %")
                .endsWith("boundaries 5.00 s apart (median)");
    }

    @Test
    void agreementFollowsEachEditAndTheLaneGoesWithTheCase() {
        besides.tags().show("A2");
        model.edit(session -> session.moveBoundary(MediaTime.ofSeconds(14), MediaTime.ofSeconds(24)));
        assertThat(besides.tags().agreementProperty().get()).startsWith("Same as A2 in 100 %");

        model.setAnnotator("A2");
        assertThat(besides.tags().whoProperty().get())
                .as("nobody stands beside oneself")
                .isEmpty();
        assertThat(lanes()).extracting(Lane::id).doesNotContain(BesideTags.LANE, BesideTags.DIFFERENCES);
    }
}
