package org.sideport.app.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.CaseSummary;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.CaseFilter;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CompleteLogs;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.ImportCases;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.ImportSheet;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.ProposeCases;
import org.sideport.workflow.WriteWorkbook;
import org.sideport.workflow.handout.WriteFeedback;

/** What the Cases screen decides, without a window. */
class CaseListModelTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 5, 6);

    @TempDir
    Path folder;

    private Bench bench;
    private CasesViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder.resolve("ws"));
        model = new CasesViewModel(
                new CaseList(bench.workspace),
                new EditCase(bench.workspace),
                new WriteWorkbook(bench.workspace),
                CompleteLogs.all(false),
                new WriteFeedback(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts,
                TODAY);
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private void add(String code, String trainee, int day, Consent consent, LocalDate review) {
        new ImportRecording(bench.workspace)
                .addCase(
                        new NewCase(code, trainee, LocalDate.of(2026, 3, day), "phaco", Map.of(), consent, review),
                        null);
    }

    private List<String> codes() {
        return model.shown().stream().map(CaseSummary::code).toList();
    }

    private List<String> chips() {
        return CaseFilters.chips(model.filterProperty().get(), bench.texts).stream()
                .map(CaseFilters.Chip::text)
                .toList();
    }

    @Test
    void everyPartOfTheFilterIsAChipThatTakesItAwayAgain() {
        Consent refused =
                new Consent(ConsentState.REFUSED, Set.of(ConsentPurpose.RESEARCH), "A1", LocalDate.of(2026, 3, 1));
        add("C-1", "T01", 1, refused, TODAY);
        add("C-2", "T01", 2, Consent.UNKNOWN, TODAY.plusDays(1));
        add("C-3", "T02", 3, Consent.UNKNOWN, null);
        model.refresh();
        assertThat(model.trainees()).containsExactly("T01", "T02");
        assertThat(model.countProperty().get()).isEqualTo("3 of 3 cases");

        model.narrow(f -> CaseFilters.trainee(f, "T01"));
        model.narrow(f -> CaseFilters.reviewDue(f, TODAY));
        model.narrow(f -> CaseFilters.consent(f, ConsentState.REFUSED, true));
        model.narrow(f -> CaseFilters.state(f, CaseFilter.State.UNTAGGED, true));
        model.narrow(f -> CaseFilters.recording(f, false));
        model.narrow(f -> CaseFilters.procedure(f, "phaco"));
        model.narrow(f -> CaseFilters.days(f, LocalDate.of(2026, 3, 1), null));
        assertThat(codes()).containsExactly("C-1");
        assertThat(chips())
                .containsExactly(
                        "Trainee T01",
                        "From 2026-03-01",
                        "Not tagged",
                        "Without a recording",
                        "Procedure phaco",
                        "Consent refused",
                        "Review is due");
        for (CaseFilters.Chip chip : CaseFilters.chips(model.filterProperty().get(), bench.texts)) {
            model.narrow(chip.without());
        }
        assertThat(model.isFiltered()).isFalse();
        assertThat(codes()).containsExactly("C-3", "C-2", "C-1");
    }

    @Test
    void equalsKeepNewestFirstWhateverTheOrder() {
        add("C-10", "T01", 1, Consent.UNKNOWN, null);
        add("C-9", "T01", 2, Consent.UNKNOWN, null);
        add("C-2", "T02", 3, Consent.UNKNOWN, null);
        model.refresh();
        model.sort(Comparator.comparing(CaseSummary::trainee, NaturalText.ORDER));
        assertThat(codes()).containsExactly("C-9", "C-10", "C-2");
        model.sort(Comparator.comparing(CaseSummary::code, NaturalText.ORDER));
        assertThat(codes()).containsExactly("C-2", "C-9", "C-10");
        model.sort(null);
        assertThat(codes()).containsExactly("C-2", "C-9", "C-10");
    }

    @Test
    void moreLettersNarrowAndFewerWidenAgain() {
        add("C-10", "T01", 1, Consent.UNKNOWN, null);
        add("C-11", "T02", 2, Consent.UNKNOWN, null);
        add("C-21", "T01", 3, Consent.UNKNOWN, null);
        model.refresh();
        model.wordsProperty().set("c-1");
        assertThat(codes()).containsExactly("C-11", "C-10");
        model.wordsProperty().set("c-1 t01");
        assertThat(codes()).containsExactly("C-10");
        model.sort(Comparator.comparing(CaseSummary::code, NaturalText.ORDER));
        assertThat(codes()).containsExactly("C-10");
        model.wordsProperty().set("c-1 t0");
        assertThat(codes()).containsExactly("C-10", "C-11");
        model.wordsProperty().set("c-2");
        assertThat(codes()).containsExactly("C-21");
        add("C-22", "T01", 4, Consent.UNKNOWN, null);
        model.refresh();
        assertThat(codes()).containsExactly("C-21", "C-22");
        model.wordsProperty().set("");
        assertThat(codes()).hasSize(4);
    }

    @Test
    void theSelectedCaseIsReadInFull() {
        add("C-1", "T01", 1, Consent.UNKNOWN, null);
        model.refresh();
        model.select("C-1");
        assertThat(model.detailProperty().get().sheet().surgicalCase().trainee())
                .isEqualTo("T01");
        model.select("nothing");
        assertThat(model.detailProperty().get()).isNull();
    }

    @Test
    void aProposedCaseIsSplitJoinedAndTakenInOnlyWhenAllIsRight() {
        List<ProposeCases.Proposal> proposals = ProposeCases.of(
                List.of(
                        DemoRecordings.file("D-001_part9.mp4"),
                        DemoRecordings.file("D-001_part10.mp4"),
                        DemoRecordings.file("D-003.mp4")),
                ZoneOffset.UTC,
                org.sideport.model.Progress.NONE);
        List<String> stored = new ArrayList<>();
        ImportViewModel importing = new ImportViewModel(
                new ImportCases(bench.workspace),
                proposals,
                bench.work,
                bench.texts,
                all -> stored.addAll(all.keySet()));
        assertThat(importing.rows()).hasSize(2);
        importing.split(importing.rows().get(0));
        assertThat(importing.rows()).hasSize(3);
        importing.join(importing.rows().get(1));
        assertThat(importing.rows().get(0).files()).hasSize(2);

        assertThat(importing.whyNotProperty().get()).contains("trainee");
        importing.fillTrainee("T05");
        importing.rows().get(0).codeProperty().set("C-1");
        importing.rows().get(1).codeProperty().set("c-1");
        assertThat(importing.whyNotProperty().get()).contains("twice");
        importing.take();
        assertThat(stored).isEmpty();
        importing.rows().get(1).wantedProperty().set(false);
        importing.take();
        assertThat(stored).containsExactly("C-1");
    }

    @Test
    void aSheetWithFaultsIsTakenInOnlyInPart() throws Exception {
        Path sheet =
                Files.writeString(folder.resolve("s.csv"), "code,trainee,date\nC-1,T01,2026-03-09\nC-2,T01,never\n");
        List<String> stored = new ArrayList<>();
        SheetViewModel importing = new SheetViewModel(
                new ImportSheet(bench.workspace, TODAY),
                sheet,
                bench.work,
                bench.texts,
                all -> all.forEach(one -> stored.add(one.code())));
        importing.read();
        importing.take();
        assertThat(stored).isEmpty();
        assertThat(importing.whyNotProperty().get()).contains("good rows only");
        importing.goodOnlyProperty().set(true);
        importing.take();
        assertThat(stored).containsExactly("C-1");
    }

    @Test
    void theSheetIsSavedOnceItSaysWhoAndIsFreeOfFaults() {
        add("C-1", "T01", 1, Consent.UNKNOWN, null);
        EditCase job = new EditCase(bench.workspace);
        List<String> saved = new ArrayList<>();
        EditCaseViewModel editing = new EditCaseViewModel(
                job,
                job.open("C-1"),
                bench.work,
                bench.texts,
                bench.settings,
                Clock.fixed(Instant.parse("2026-05-06T08:00:00Z"), ZoneOffset.UTC),
                () -> saved.add("yes"));
        assertThat(editing.whyNotProperty().get()).contains("Changed by");
        editing.byProperty().set("A1");
        editing.descriptors().put("nuclear_grade", "2.4");
        assertThat(editing.whyNotProperty().get()).isEqualTo("Correct: Nuclear grade");
        editing.descriptors().put("nuclear_grade", "2.5");
        editing.consentProperty().set(ConsentState.GIVEN);
        assertThat(editing.whyNotProperty().get()).contains("what the consent is for");
        editing.purposes().add(ConsentPurpose.TEACHING);
        editing.reviewByProperty().set(LocalDate.of(2027, 1, 1));
        assertThat(editing.whyNotProperty().get()).isEmpty();
        editing.save();
        assertThat(saved).hasSize(1);
        var now = job.open("C-1").surgicalCase();
        assertThat(now.consent())
                .isEqualTo(new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.TEACHING), "A1", TODAY));
        assertThat(now.reviewBy()).isEqualTo(LocalDate.of(2027, 1, 1));
        assertThat(now.descriptors()).containsEntry("nuclear_grade", "2.5");
    }

    @Test
    void theFourStagesAreSaidInWords() {
        CaseSummary one = new CaseSummary(
                "C-1",
                "T01",
                TODAY,
                "phaco",
                null,
                0,
                List.of("B1"),
                List.of("A1", "A2"),
                false,
                true,
                false,
                ConsentState.UNKNOWN,
                null,
                "");
        assertThat(CaseFilters.stages(one, bench.texts))
                .isEqualTo("Tagged by B1\nNot self-marked\nMarked by A1, A2\nNot signed");
    }
}
