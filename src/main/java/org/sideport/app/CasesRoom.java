package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.sideport.app.cases.AddCaseViewModel;
import org.sideport.app.cases.CasesViewModel;
import org.sideport.app.cases.EditCaseViewModel;
import org.sideport.app.cases.ImportViewModel;
import org.sideport.app.cases.SheetViewModel;
import org.sideport.app.cases.Thumbnails;
import org.sideport.app.exchange.ChaptersViewModel;
import org.sideport.app.exchange.ConsentQuestion;
import org.sideport.app.exchange.ExportBundleViewModel;
import org.sideport.app.exchange.FilmViewModel;
import org.sideport.app.exchange.FormReturn;
import org.sideport.app.exchange.FormViewModel;
import org.sideport.app.exchange.HiddenAreasViewModel;
import org.sideport.app.exchange.ImportBundleViewModel;
import org.sideport.app.exchange.OpenFormatViewModel;
import org.sideport.app.progress.ProgressViewModel;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseThumbnails;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.ImportCases;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.ImportSheet;
import org.sideport.workflow.ProposeCases;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.WriteWorkbook;
import org.sideport.workflow.consent.ConsentDoubts;
import org.sideport.workflow.exchange.ExportCase;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.ImportBundle;
import org.sideport.workflow.exchange.ImportPlan;
import org.sideport.workflow.exchange.MakeFilm;
import org.sideport.workflow.exchange.MarkingForm;
import org.sideport.workflow.handout.WriteFeedback;

/** What the Cases screen and its windows work with, wired together. */
public record CasesRoom(
        Workspace workspace,
        Vocabularies vocabularies,
        Clock clock,
        Background work,
        Background listedWork,
        Background listedImporting,
        Background pictures,
        Notices notices,
        Texts texts,
        Settings settings) {

    public CasesViewModel casesViewModel() {
        return new CasesViewModel(
                new CaseList(workspace),
                new EditCase(workspace),
                new WriteWorkbook(workspace),
                (trainee, procedure) -> settings.get(ProgressViewModel.completeKey(trainee, procedure), false),
                new WriteFeedback(workspace),
                listedWork,
                notices,
                texts,
                LocalDate.now(clock));
    }

    public Thumbnails thumbnails() {
        return new Thumbnails(new CaseThumbnails(workspace), pictures);
    }

    /** Makes cases out of dropped files and folders. */
    public void propose(List<Path> dropped, Consumer<List<ProposeCases.Proposal>> found) {
        listedImporting.run(progress -> ProposeCases.of(dropped, clock.getZone(), progress), found, notices::failed);
    }

    public ImportViewModel importViewModel(
            List<ProposeCases.Proposal> proposals, Consumer<Map<String, SurgicalCase>> stored) {
        return new ImportViewModel(new ImportCases(workspace), proposals, listedImporting, texts, stored);
    }

    public SheetViewModel sheetViewModel(Path sheet, Consumer<List<SurgicalCase>> stored) {
        return new SheetViewModel(
                new ImportSheet(workspace, LocalDate.now(clock)), sheet, listedImporting, texts, stored);
    }

    /** Reads the sheet of a case. */
    public void openSheet(String code, Consumer<EditCase.Sheet> opened) {
        work.run(progress -> new EditCase(workspace).open(code), opened, notices::failed);
    }

    public EditCaseViewModel editCaseViewModel(EditCase.Sheet sheet, Runnable saved) {
        return new EditCaseViewModel(new EditCase(workspace), sheet, work, texts, settings, clock, saved);
    }

    public AddCaseViewModel addCaseViewModel(Consumer<SurgicalCase> added) {
        AddCaseViewModel model = new AddCaseViewModel(
                new ImportRecording(workspace), vocabularies, listedImporting, texts, LocalDate.now(clock), added);
        model.beginIn(settings.get("recordings.folder", ""));
        return model;
    }

    public ConsentQuestion consentQuestion() {
        return new ConsentQuestion(new ConsentDoubts(workspace), work, texts);
    }

    public ExportBundleViewModel exportBundleViewModel(
            List<String> codes, Consumer<List<ExportCase.Exported>> written) {
        return new ExportBundleViewModel(
                new ExportCase(workspace), codes, listedWork.named("jobs.bundle.out"), texts, written);
    }

    public OpenFormatViewModel openFormatViewModel(String code, Consumer<ExportOpen.Exported> written) {
        return new OpenFormatViewModel(new ExportOpen(workspace, Clock.systemUTC()), code, work, texts, written);
    }

    public FilmViewModel filmViewModel(EditCase.Sheet sheet, Consumer<MakeFilm.Made> made) {
        return new FilmViewModel(
                new MakeFilm(workspace),
                new ExportOpen(workspace, Clock.systemUTC()),
                sheet.surgicalCase().code(),
                sheet.procedure(),
                listedWork.named("jobs.film"),
                texts,
                made);
    }

    public ChaptersViewModel chaptersViewModel(String code, Consumer<ExportChapters.Exported> written) {
        return new ChaptersViewModel(
                new ExportChapters(workspace),
                new ExportOpen(workspace, Clock.systemUTC()),
                code,
                listedWork.named("jobs.chapters"),
                texts,
                written);
    }

    public HiddenAreasViewModel hiddenAreasViewModel(String code, Runnable saved) {
        return new HiddenAreasViewModel(new HideAreas(workspace), code, work, texts, saved);
    }

    public ImportBundleViewModel importBundleViewModel(Path file, Consumer<ImportPlan> taken) {
        return new ImportBundleViewModel(
                new ImportBundle(workspace), file, listedWork.named("jobs.bundle.in"), texts, settings, taken);
    }

    public FormViewModel formViewModel(SurgicalCase marked, Consumer<Path> written) {
        return new FormViewModel(new MarkingForm(workspace), vocabularies, marked, work, texts, settings, written);
    }

    public FormReturn formReturn() {
        return new FormReturn(new MarkingForm(workspace), work, notices, texts);
    }
}
