package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;

class ShippedRubricsTest {

    private static Rubric shipped(String id) {
        return RubricReader.read(ShippedRubrics.text(id + ".json"), id);
    }

    @Test
    void theShippedFilesHaveNoFaultAndNoWarning() {
        List<Procedure> procedures = ShippedRubrics.PROCEDURES.stream()
                .map(name -> ProcedureReader.read(ShippedRubrics.text(name), name))
                .toList();
        for (String name : ShippedRubrics.PROCEDURES) {
            assertThat(FileCheck.check(Path.of("rubrics", name), procedures))
                    .as(name)
                    .isEmpty();
        }
        for (String name : ShippedRubrics.RUBRICS) {
            assertThat(FileCheck.check(Path.of("rubrics", name), procedures))
                    .as(name)
                    .isEmpty();
        }
    }

    @Test
    void everyFileUnderRubricsIsShippedOrASchema() throws IOException {
        try (var files = Files.list(Path.of("rubrics"))) {
            assertThat(files.map(f -> f.getFileName().toString()).filter(name -> !name.endsWith(".schema.json")))
                    .containsExactlyInAnyOrderElementsOf(
                            Stream.concat(ShippedRubrics.PROCEDURES.stream(), ShippedRubrics.RUBRICS.stream())
                                    .toList());
        }
    }

    /** Nothing that is said in one place is said in another: words are of one's own, each for its item. */
    @Test
    void noAnchorStandsTwiceAndEverySourceSaysThatItIsNotValidated() {
        List<String> anchors = new ArrayList<>();
        for (String name : ShippedRubrics.RUBRICS) {
            Rubric rubric = RubricReader.read(ShippedRubrics.text(name), name);
            rubric.items().forEach(i -> i.anchors().forEach(a -> anchors.add(a.text())));
            assertThat(rubric.passStandard()).as(name).isNull();
            assertThat(rubric.source() + rubric.guidance())
                    .as(name)
                    .containsAnyOf("ot validated", "not been validated", "no mark of skill");
        }
        assertThat(anchors).doesNotHaveDuplicates();
    }

    /** Martin et al. 1997, Br J Surg 84:273: 7 items of 5 points, greatest sum 35 (from memory). */
    @Test
    void theGlobalSkillsAreSevenItemsOfFivePoints() {
        Rubric rubric = shipped("phaco-global");
        assertThat(rubric.items()).hasSize(7);
        assertThat(rubric.levels()).extracting(Rubric.Level::points).containsExactly(1, 2, 3, 4, 5);
        assertThat(rubric.items().stream().mapToInt(rubric::maximumOf).sum()).isEqualTo(35);
    }

    /** arXiv 2510.16371: six judged indicators and an adverse-event flag of 0 or 1. */
    @Test
    void theRhexisIsJudgedOnSixIndicatorsWithItsAdverseEventApart() {
        Rubric rubric = shipped("capsulorhexis");
        assertThat(rubric.items())
                .filteredOn(i -> i.kind() == Rubric.Kind.LEVEL)
                .hasSize(6);
        assertThat(rubric.items())
                .filteredOn(i -> i.kind() == Rubric.Kind.CHECK)
                .singleElement()
                .satisfies(i -> assertThat(rubric.pointsOf(i)).containsExactly(0, 1));
    }

    /** Gauba et al. 2008, doi 10.1001/archophthalmol.2007.47: 10 steps, executional and procedural errors. */
    @Test
    void errorsAreCountedTwiceForEachOfTenSteps() {
        Rubric rubric = shipped("phaco-errors");
        assertThat(rubric.domains()).hasSize(10);
        assertThat(rubric.items()).hasSize(20).allMatch(i -> i.kind() == Rubric.Kind.COUNT);
        for (Rubric.Domain domain : rubric.domains()) {
            assertThat(rubric.items())
                    .filteredOn(i -> i.domain().equals(domain.id()))
                    .hasSize(2);
        }
    }

    /** 20 items, 14 of them steps (Golnik et al. 2013 for the family of forms; division from memory). */
    @Test
    void manualSmallIncisionSurgeryHasAsManyItemsAsItsSibling() {
        Rubric rubric = shipped("msics-competency");
        assertThat(rubric.items().stream().filter(i -> i.phase() != null)).hasSize(14);
        assertThat(rubric.items().stream().filter(i -> i.phase() == null)).hasSize(6);
        assertThat(rubric.items())
                .allMatch(i -> i.criticalMinimum() == null || i.guidance().contains("Critical below"));
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
