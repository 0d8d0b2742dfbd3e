package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TaggingStore;
import org.sideport.store.Workspace;
import org.sideport.timing.TagTable.Kind;

class TagExchangeTest {

    private static final String PHASES = "case,annotator,phase,start,end,operator";
    private static final String EVENTS = "case,annotator,event,at,severity,note";

    @TempDir
    Path temp;

    private Workspace workspace;
    private TagExchange exchange;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 60);
        Unit.addCase(workspace, "C-02");
        exchange = new TagExchange(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private List<TagExchange.Imported> take(String... lines) {
        return exchange.importCsv(Unit.csv(temp, lines), null, false);
    }

    private Tagging stored(String code, String annotator) {
        return workspace.read(s -> s.taggings().find(code, annotator).orElse(Tagging.EMPTY));
    }

    private void refused(String... linesThenMessages) {
        List<String> all = List.of(linesThenMessages);
        int cut = all.indexOf("=>");
        Path file = Unit.csv(temp, all.subList(0, cut).toArray(new String[0]));
        var refusal = assertThatThrownBy(() -> exchange.importCsv(file, null, false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(file.toString());
        all.subList(cut + 1, all.size()).forEach(refusal::hasMessageContaining);
        assertThat(workspace.<List<TaggingStore.Key>>read(s -> s.taggings().all()))
                .isEmpty();
    }

    @Test
    void phasesByIdNameOrShortNameAreTakenInUnderTheirId() {
        assertThat(take(
                        PHASES,
                        "c-01,A1,side_port,1.5,0:00:09.25,trainee",
                        "C-01,A1,Idle,9.25,12,",
                        "C-01,A1,Rhex,12,60,assisted",
                        "C-02,A2,Main incision,3,,"))
                .containsExactly(
                        // the idle row says only where the time between ends
                        new TagExchange.Imported("C-01", "A1", Kind.PHASES, 2),
                        new TagExchange.Imported("C-02", "A2", Kind.PHASES, 1));
    }

    @Test
    void aCaseWrittenInTwoWaysIsOneCase() {
        take(PHASES, "c-01,A1,side_port,1.5,9,trainee", "C-01,A1,Idle,9,12,", "C-01,A1,Rhex,12,60,assisted");
        assertThat(stored("C-01", "A1").spans())
                .containsExactly(
                        new PhaseSpan("side_port", MediaTime.ofSeconds(1.5), MediaTime.ofSeconds(9), Operator.TRAINEE),
                        new PhaseSpan("rhexis", MediaTime.ofSeconds(12), MediaTime.ofSeconds(60), Operator.ASSISTED));
    }

    @Test
    void startsAloneRunToTheNextStartAndIdleRowsEndPhases() {
        take(PHASES, "C-01,A1,side_port,1,,", "C-01,A1,idle,9,,", "C-01,A1,rhexis,12,,");
        Tagging tagging = stored("C-01", "A1");
        assertThat(tagging.style()).isEqualTo(TaggingStyle.STARTS_ONLY);
        assertThat(tagging.spans())
                .containsExactly(
                        new PhaseSpan("side_port", MediaTime.ofSeconds(1), MediaTime.ofSeconds(9), null),
                        new PhaseSpan("rhexis", MediaTime.ofSeconds(12), null, null));
    }

    @Test
    void eachFaultIsToldWithItsLineAndNothingOfAnyCaseIsStored() {
        String good = "C-02,A1,side_port,1,2,trainee";
        refused(PHASES, good, "C-01,A1,lunch,1,2,", "=>", "line 3", "unknown phase \"lunch\"", "known", "rhexis");
        refused(PHASES, good, "C-09,A1,rhexis,1,2,", "=>", "line 3", "there is no case C-09", "sideport case add");
        refused(PHASES, good, "C-01,A1,rhexis,59,60.001,", "=>", "line 3", "60.001 s lies beyond the end", "60 s");
        refused(PHASES, good, "C-01,A1,rhexis,60,,", "=>", "line 3", "60 s lies beyond the end");
        refused(PHASES, good, "C-01,,rhexis,1,2,", "=>", "line 3", "does not say who tagged", "--annotator");
        refused(PHASES, good, "C-01,two words,rhexis,1,2,", "=>", "line 3", "cannot be the code of an annotator");
        refused(PHASES, good, "C-01,A1,rhexis,5,5,", "=>", "line 3", "not after the start");
        refused(PHASES, good, "C-01,A1,rhexis,5,9,", "C-01,A1,suture,8,10,", "=>", "line 4", "must not overlap");
        refused(PHASES, good, "C-01,A1,rhexis,5,9,nurse", "=>", "line 3", "unknown operator \"nurse\"");
        refused(EVENTS, "C-02,A1,take_over,1,,", "C-01,A1,coffee,2,,", "=>", "line 3", "unknown event \"coffee\"");
        refused(EVENTS, "C-02,A1,take_over,1,,", "C-01,A1,take_over,60,,", "=>", "line 3", "60 s lies beyond the end");
        refused(EVENTS, "C-02,A1,take_over,1,grave,", "=>", "line 2", "unknown severity \"grave\"");
    }

    @Test
    void theVeryEndOfTheRecordingMayEndAPhase() {
        take(PHASES, "C-01,A1,rhexis,59,60,");
        assertThat(stored("C-01", "A1").spans())
                .containsExactly(new PhaseSpan("rhexis", MediaTime.ofSeconds(59), MediaTime.ofSeconds(60), null));
    }

    @Test
    void severalAnnotatorsInOneFileAreSeveralTaggings() {
        take(PHASES, "C-01,A1,rhexis,5,9,", "C-01,A2,rhexis,6,10,");
        assertThat(stored("C-01", "A1").spans().get(0).start()).isEqualTo(MediaTime.ofSeconds(5));
        assertThat(stored("C-01", "A2").spans().get(0).start()).isEqualTo(MediaTime.ofSeconds(6));
    }

    @Test
    void severalAnnotatorsCannotBecomeOne() {
        Path file = Unit.csv(temp, PHASES, "C-01,A1,rhexis,5,9,", "C-01,A2,suture,10,12,");
        assertThatThrownBy(() -> exchange.importCsv(file, "A3", false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 3")
                .hasMessageContaining("several annotators' tags of case C-01")
                .hasMessageContaining("leave out --annotator");
        assertThat(workspace.<List<TaggingStore.Key>>read(s -> s.taggings().all()))
                .isEmpty();
        exchange.importCsv(Unit.csv(temp, PHASES, "C-01,A1,rhexis,5,9,"), "A3", false);
        assertThat(stored("C-01", "A3").spans()).hasSize(1);
        assertThat(stored("C-01", "A1")).isEqualTo(Tagging.EMPTY);
    }

    @Test
    void whatAnAnnotatorHasIsOnlyReplacedWhenAsked() {
        take(PHASES, "C-01,A1,rhexis,5,9,");
        Path file = Unit.csv(temp, PHASES, "C-02,A1,suture,1,2,", "C-01,A1,suture,10,12,");
        assertThatThrownBy(() -> exchange.importCsv(file, null, false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 3")
                .hasMessageContaining("A1 has phases of case C-01 already")
                .hasMessageContaining("--replace");
        assertThat(stored("C-01", "A1").spans()).extracting(PhaseSpan::phase).containsExactly("rhexis");
        assertThat(stored("C-02", "A1")).isEqualTo(Tagging.EMPTY);
        exchange.importCsv(file, null, true);
        assertThat(stored("C-01", "A1").spans()).extracting(PhaseSpan::phase).containsExactly("suture");
    }

    @Test
    void eventsJoinPhasesAndPhasesJoinEvents() {
        PointEvent event =
                new PointEvent("iris_prolapse", MediaTime.ofSeconds(7), Severity.MODERATE, "goes back, alone");
        take(PHASES, "C-01,A1,rhexis,5,,");
        take(EVENTS, "C-01,A1,Iris prolapse,7,moderate,\"goes back, alone\"");
        assertThat(stored("C-01", "A1").spans()).hasSize(1);
        assertThat(stored("C-01", "A1").events()).containsExactly(event);
        exchange.importCsv(Unit.csv(temp, PHASES, "C-01,A1,suture,8,9,", "C-01,A1,rhexis,5,6,"), null, true);
        assertThat(stored("C-01", "A1").spans()).hasSize(2);
        assertThat(stored("C-01", "A1").events()).containsExactly(event);
        assertThatThrownBy(() -> take(EVENTS, "C-01,A1,take_over,1,,"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("A1 has events of case C-01 already");
    }

    @Test
    void whatIsGivenOutIsTakenInAgainAsItWas() throws IOException {
        String phases = PHASES + "\nC-01,A1,side_port,1.000001,9.25,trainee\nC-01,A1,rhexis,12,,\n";
        String events =
                EVENTS + "\nC-01,A1,take_over,7,,\nC-01,A1,iris_prolapse,7.5,major,\"with \"\"quotes\"\", commas\"\n";
        exchange.importCsv(Files.writeString(temp.resolve("p.csv"), phases), null, false);
        exchange.importCsv(Files.writeString(temp.resolve("e.csv"), events), null, false);
        TagExchange.Exported exported = exchange.find("c-01", null);
        StringBuilder out = new StringBuilder();
        exchange.exportCsv(exported, Kind.PHASES, out);
        assertThat(out).hasToString(phases);
        out.setLength(0);
        exchange.exportCsv(exported, Kind.EVENTS, out);
        assertThat(out).hasToString(events);
    }

    @Test
    void givingOutAsksForTheAnnotatorWhereThereAreSeveral() {
        assertThatThrownBy(() -> exchange.find("C-01", null))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("nobody has tagged case C-01");
        take(PHASES, "C-01,A1,rhexis,5,9,", "C-01,A2,rhexis,6,10,");
        assertThatThrownBy(() -> exchange.find("C-01", null))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("several have tagged case C-01")
                .hasMessageContaining("--annotator: A1, A2");
        assertThatThrownBy(() -> exchange.find("C-01", "A3"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("A3 has not tagged case C-01")
                .hasMessageContaining("tagged by: A1, A2");
        assertThat(exchange.find("C-01", "A2").tagging().spans().get(0).start()).isEqualTo(MediaTime.ofSeconds(6));
    }
}
