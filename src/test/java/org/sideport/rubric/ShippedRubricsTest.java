package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;

class ShippedRubricsTest {

    @Test
    void theShippedFilesHaveNoFaultAndNoWarning() {
        assertThat(ProcedureCheck.check(ShippedRubrics.text("phaco-procedure.json"), "p"))
                .isEmpty();
        assertThat(RubricCheck.check(
                        ShippedRubrics.text("phaco-competency.json"), "r", ShippedRubrics.phacoProcedure()))
                .isEmpty();
    }

    /** The structure that the file says it follows: 14 steps and 6 general aspects. */
    @Test
    void theShippedRubricHasFourteenStepsAndSixGeneralItems() {
        Rubric rubric = ShippedRubrics.phacoCompetency();

        assertThat(rubric.items().stream().filter(i -> i.phase() != null)).hasSize(14);
        assertThat(rubric.items().stream().filter(i -> i.phase() == null)).hasSize(6);
        assertThat(rubric.items()).allMatch(i -> i.anchors().size() == 4);
        assertThat(rubric.items().stream().flatMap(i -> i.anchors().stream()).map(Rubric.Anchor::text))
                .doesNotHaveDuplicates();
        assertThat(rubric.passStandard()).isNull();
        assertThat(rubric.items())
                .allMatch(i -> i.criticalMinimum() == null || i.guidance().contains("Critical below"));
    }

    @Test
    void missingSwitchesOfAProcedureAreOff() {
        Procedure procedure = ProcedureReader.read("""
                {"id": "p", "version": "1.0.0", "title": "P", "source": "s",
                 "phases": [{"id": "a", "name": "A", "short_name": "A", "definition": "d"},
                            {"id": "b", "name": "B", "short_name": "B", "definition": "d", "idle": true}]}
                """, "p.json");

        assertThat(procedure.phases().get(0).idle()).isFalse();
        assertThat(procedure.phases().get(0).optional()).isFalse();
        assertThat(procedure.phases().get(1).idle()).isTrue();
        assertThat(procedure.events()).isEmpty();
    }

    @Test
    void aProcedureWithOneIdForTwoThingsIsRefused() {
        String json = """
                {"id": "p", "version": "1.0.0", "title": "P", "source": "s",
                 "phases": [{"id": "a", "name": "A", "short_name": "A", "key": "1", "definition": "d",
                   "steps": [{"id": "a", "name": "A2", "short_name": "A2", "key": "1", "definition": "d"}]}]}
                """;
        assertThat(ProcedureCheck.check(json, "p.json"))
                .extracting(Finding::path)
                .containsExactly("/phases/0/steps/0/id", "/phases/0/steps/0/key");
        assertThatThrownBy(() -> ProcedureReader.read(json, "p.json"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 3");
    }
}
