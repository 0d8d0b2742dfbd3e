package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

class StandardRoundsTest {

    private static final List<String> PANEL = List.of("A1", "A2", "A3", "A4");

    @TempDir
    Path temp;

    private Workspace workspace;
    private StandardRounds rounds;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        new MadeUpMarks(workspace);
        rounds = new StandardRounds(workspace, Clock.systemUTC());
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private StandardRounds as(String code, Role role) {
        return new StandardRounds(workspace.as(new Caller.Person(code, Set.of(role))), Clock.systemUTC());
    }

    @Test
    void valuesAreHiddenUntilTheRoundIsClosed() {
        as("D1", Role.DIRECTOR).open("five", PANEL, "think of a trainee in the third year");
        MadeUpMarks.angoffExample()
                .forEach((judge, points) -> as(judge, Role.ASSESSOR).judge("five", judge, points));

        StandardRounds.View open = as("D1", Role.DIRECTOR).show("five");
        assertThat(open.items()).isEmpty();
        assertThat(open.done())
                .containsOnly(Map.entry("A1", 5), Map.entry("A2", 5), Map.entry("A3", 5), Map.entry("A4", 5));
        assertThatThrownBy(() -> as("A1", Role.ASSESSOR).sheet("five", "A2"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("your own sheet only");
        assertThatThrownBy(() -> as("D1", Role.DIRECTOR).sheet("five", "A2"))
                .hasMessageContaining("your own sheet only");
        assertThat(as("A3", Role.ASSESSOR).sheet("five", "A3").points()).containsEntry("i5", 4.0);

        StandardRounds.View closed = as("D1", Role.DIRECTOR).close("five", List.of(), "rhexis");
        // item 2 of the worked example: 3 3 3 4, mean 3.25, SD 0.5
        StandardRounds.ItemSpread second = closed.items().get(1);
        assertThat(second.points())
                .containsOnly(Map.entry("A1", 3.0), Map.entry("A2", 3.0), Map.entry("A3", 3.0), Map.entry("A4", 4.0));
        assertThat(second.mean()).isCloseTo(3.25, within(1e-12));
        assertThat(second.sd()).isCloseTo(0.5, within(1e-12));
        assertThat(closed.round().note()).isEqualTo("think of a trainee in the third year\nrhexis");
        assertThat(closed.round().closedBy()).isEqualTo("D1");
        List<AuditEvent> trail = workspace.read(s -> s.audit().all());
        assertThat(trail).extracting(AuditEvent::deed).containsExactly("standard.round.open", "standard.round.close");
    }

    @Test
    void aSecondRoundShowsTheSpreadOfTheFirst() {
        rounds.open("five", PANEL, "");
        MadeUpMarks.angoffExample().forEach((judge, points) -> rounds.judge("five", judge, points));
        rounds.close("five", List.of(), "");
        StandardRounds.View second = rounds.open("five", List.of("A1", "A2"), "");

        assertThat(second.round().number()).isEqualTo(2);
        StandardRounds.Sheet sheet = rounds.sheet("five", "A1");
        assertThat(sheet.points()).isEmpty();
        assertThat(sheet.before().items().get(1).mean()).isCloseTo(3.25, within(1e-12));
        assertThat(rounds.all()).extracting(v -> v.round().number()).containsExactly(2, 1);
    }

    @Test
    void whoHasNotFinishedHoldsTheRoundUpOrIsLeftOut() {
        rounds.open("five", PANEL, "");
        MadeUpMarks.angoffExample().forEach((judge, points) -> {
            if (!judge.equals("A4")) {
                rounds.judge("five", judge, points);
            }
        });
        rounds.judge("five", "A4", Map.of("i1", 2.5));
        assertThatThrownBy(() -> rounds.close("five", List.of(), ""))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("A4 (1 of 5)");
        assertThatThrownBy(() -> rounds.close("five", List.of("A1", "A2", "A4"), ""))
                .hasMessageContaining("fewer than 2");
        StandardRounds.View closed = rounds.close("five", List.of("A4"), "");

        assertThat(closed.round().leftOut()).containsExactly("A4");
        assertThat(closed.items().get(0).points()).containsOnlyKeys("A1", "A2", "A3");
        CutProposal cut = new Standards(workspace, Clock.systemUTC())
                .propose("five", null, new CutBasis.Judged(closed.round().id()))
                .orElseThrow();
        // by hand: totals 17 17 16 of 25
        assertThat(cut.share()).isCloseTo(50.0 / 75, within(1e-12));
        assertThat(cut.described()).containsEntry("left_out", "A4");
    }

    @Test
    void aClosedRoundTakesNothingMore() {
        rounds.open("five", PANEL, "");
        MadeUpMarks.angoffExample().forEach((judge, points) -> rounds.judge("five", judge, points));
        rounds.close("five", List.of(), "");
        assertThatThrownBy(() -> rounds.judge("five", "A1", Map.of("i1", 3.0)))
                .hasMessageContaining("round 1 is closed");
        assertThatThrownBy(() -> rounds.close("five", List.of(), "")).hasMessageContaining("closed already");
    }

    @Test
    void faultsAreNamed() {
        assertThatThrownBy(() -> rounds.open("five", List.of("A1", "A1"), "")).hasMessageContaining("no panel");
        assertThatThrownBy(() -> rounds.open("scale", PANEL, "")).hasMessageContaining("fewer than 2 items");
        rounds.open("five", PANEL, "");
        assertThatThrownBy(() -> rounds.open("five", PANEL, "")).hasMessageContaining("still open");
        assertThatThrownBy(() -> rounds.judge("five", "A9", Map.of("i1", 3.0))).hasMessageContaining("was not asked");
        assertThatThrownBy(() -> rounds.judge("five", "A1", Map.of("i9", 3.0))).hasMessageContaining("no item \"i9\"");
        assertThatThrownBy(() -> rounds.judge("five", "A1", Map.of("i1", 5.5)))
                .hasMessageContaining("write a number from 1 to 5");
        assertThatThrownBy(() -> rounds.judge("five", "A1", Map.of("i1", Double.NaN)))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> rounds.show("none")).hasMessageContaining("there is no round");
        assertThatThrownBy(() -> as("A1", Role.ASSESSOR).close("five", List.of(), ""))
                .hasMessageContaining("set standard");
        assertThatThrownBy(() -> as("T01", Role.TRAINEE).all()).hasMessageContaining("judge standard");
    }
}
