package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

class EditCaseTest {

    private static final Instant NOW = Instant.parse("2026-04-01T10:00:00Z");

    @TempDir
    Path folder;

    private Workspace workspace;
    private EditCase job;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(folder.resolve("ws"));
        job = new EditCase(workspace);
        new ImportRecording(workspace)
                .addCase(
                        new NewCase(
                                "C-1",
                                "T03",
                                LocalDate.of(2026, 3, 9),
                                "phaco",
                                Map.of("eye", "left", "pupil", "small")),
                        null);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private List<CaseChange> edit(Map<String, String> descriptors) {
        return job.edit("C-1", new CaseEdit("A1", null, null, descriptors, null, null, false), NOW);
    }

    @Test
    void whatChangesIsKeptWithWhoAndWhen() {
        assertThat(edit(Map.of("pupil", "large", "eye", "left", "average_power", "15,0")))
                .containsExactlyInAnyOrder(
                        new CaseChange(NOW, "A1", "pupil", "small", "large"),
                        new CaseChange(NOW, "A1", "average_power", "", "15"));
        edit(Map.of("pupil", ""));
        EditCase.Sheet sheet = job.open("C-1");
        assertThat(sheet.surgicalCase().descriptors())
                .containsExactlyInAnyOrderEntriesOf(Map.of("eye", "left", "average_power", "15"));
        assertThat(sheet.changes()).hasSize(3);
        assertThat(edit(Map.of("eye", "left"))).isEmpty();
    }

    /** 90 s at 15 % give 13.5 s: the definition, time × mean power ÷ 100, worked by hand. */
    @Test
    void effectivePhacoTimeIsWorkedOutAndNeverTyped() {
        edit(Map.of("ultrasound_time", "90", "average_power", "15"));
        EditCase.Sheet sheet = job.open("C-1");
        assertThat(sheet.procedure().withComputed(sheet.surgicalCase().descriptors()))
                .containsEntry("effective_phaco_time", "13.5");
        assertThat(sheet.surgicalCase().descriptors()).doesNotContainKey("effective_phaco_time");
        assertThatThrownBy(() -> edit(Map.of("effective_phaco_time", "13.5")))
                .hasMessageContaining("worked out of ultrasound_time and average_power");
        edit(Map.of("average_power", ""));
        assertThat(job.open("C-1")
                        .procedure()
                        .withComputed(job.open("C-1").surgicalCase().descriptors()))
                .doesNotContainKey("effective_phaco_time");
    }

    /** Scores run to 6.9 for the nucleus and to 5.9 else: Chylack et al. 1993 (decimal ranges from memory). */
    @ParameterizedTest
    @CsvSource({
        "locs_opalescence, 0.1, true",
        "locs_opalescence, 6.9, true",
        "locs_opalescence, 7.0, false",
        "locs_opalescence, 0, false",
        "locs_opalescence, 2.35, false",
        "locs_cortical, 5.9, true",
        "locs_cortical, 6.0, false",
        "nuclear_grade, 3.5, true",
        "nuclear_grade, 3.25, false",
        "nuclear_grade, 4.5, false",
        "nuclear_grade, hard, false",
        "eye, LEFT, true",
        "eye, both, false",
        "average_power, 100.1, false",
        "risk_factors, glaucoma; doxazosin, true",
        "risk_factors, none of these; glaucoma, false",
        "risk_factors, hurry, false",
        "other_risks, only eye, true",
        "other_risks, Anna Meyer, false",
        "other_risks, born 3.1.1950, false",
        "other_risks, file 12345678, false",
    })
    void aValueIsTakenOrRefusedByItsKind(String id, String value, boolean taken) {
        Procedure.Descriptor descriptor =
                Vocabularies.shippedOnly().procedure("phaco").descriptor(id).orElseThrow();
        assertThat(Descriptors.fault(descriptor, value) == null).isEqualTo(taken);
    }

    @Test
    void consentIsRecordedChangedAndWarnedOf() {
        Consent given =
                new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.ASSESSMENT), "A1", LocalDate.of(2026, 3, 1));
        job.edit("C-1", new CaseEdit("A1", null, null, Map.of(), given, LocalDate.of(2027, 1, 1), false), NOW);
        assertThat(job.open("C-1").surgicalCase().consent().warning()).isNull();
        Consent withdrawn = new Consent(ConsentState.WITHDRAWN, Set.of(), "A2", LocalDate.of(2026, 4, 1));
        List<CaseChange> changes =
                job.edit("C-1", new CaseEdit("A2", null, null, Map.of(), withdrawn, null, true), NOW);
        assertThat(changes).extracting(CaseChange::field).containsExactly("consent", "review_by");
        assertThat(changes.get(0).before()).isEqualTo("given for assessment (A1, 2026-03-01)");
        SurgicalCase stored = workspace.read(s -> s.cases().evenWithdrawn("C-1"));
        assertThat(stored.reviewBy()).isNull();
        assertThat(stored.consent().warning()).contains("withdrawn on 2026-04-01", "local rules decide");
        assertThatThrownBy(() -> job.open("C-1")).hasMessageContaining("consent was withdrawn");
    }

    @Test
    void consentThatDoesNotSayEnoughIsRefused() {
        LocalDate day = LocalDate.of(2026, 3, 1);
        assertThatThrownBy(() -> new Consent(ConsentState.GIVEN, Set.of(), "A1", day))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("not for what");
        assertThatThrownBy(() -> new Consent(ConsentState.REFUSED, Set.of(), "", day))
                .hasMessageContaining("who recorded it");
    }

    @Test
    void aFaultInOneValueChangesNothing() {
        assertThatThrownBy(() -> edit(Map.of("pupil", "large", "nuclear_grade", "9")))
                .hasMessageContaining("nuclear_grade");
        assertThat(job.open("C-1").surgicalCase().descriptors()).containsEntry("pupil", "small");
        assertThatThrownBy(() -> job.edit(
                        "C-1", new CaseEdit("no code!", null, null, Map.of("pupil", "large"), null, null, false), NOW))
                .hasMessageContaining("the person who changes it");
    }

    @Test
    void marksHoldTheTraineeFast() {
        CaseEdit other = new CaseEdit("A1", "T04", null, Map.of(), null, null, false);
        job.edit("C-1", other, NOW);
        var rubric = new Vocabularies(workspace).rubrics("phaco").get(0);
        MarkSession session = new MarkCase(workspace).open("C-1", "A1", false, rubric);
        session.mark(rubric.items().get(0).id(), rubric.maximumOf(rubric.items().get(0)));
        assertThatThrownBy(() -> job.edit("C-1", new CaseEdit("A1", "T05", null, Map.of(), null, null, false), NOW))
                .hasMessageContaining("there are marks already");
    }
}
