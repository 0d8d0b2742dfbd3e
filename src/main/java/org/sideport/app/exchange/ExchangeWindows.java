package org.sideport.app.exchange;

import java.io.File;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Consumer;
import javafx.scene.control.Button;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppContext;
import org.sideport.app.CasesRoom;
import org.sideport.app.Formats;
import org.sideport.app.Notice;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MediaTime;
import org.sideport.workflow.exchange.ExportCase;

/** The windows of this package, over the main window. */
public final class ExchangeWindows implements CaseExchange {

    private final Stage owner;
    private final AppContext context;
    private final CasesRoom room;
    private final Texts texts;
    private final Consumer<String> changed;

    /** @param changed told the code of a case that came in or was marked */
    public ExchangeWindows(Stage owner, AppContext context, Consumer<String> changed) {
        this.owner = owner;
        this.context = context;
        this.room = context.cases();
        this.texts = context.texts();
        this.changed = changed;
    }

    /** True if its name is that of a bundle. */
    public static boolean isBundle(Path file) {
        return file.toString().toLowerCase(Locale.ROOT).endsWith(".zip");
    }

    @Override
    public void handOut(List<String> codes) {
        ExportBundleDialog[] dialog = new ExportBundleDialog[1];
        ExportBundleViewModel model = room.exportBundleViewModel(codes, written -> {
            dialog[0].close();
            tell(written);
        });
        dialog[0] = new ExportBundleDialog(owner, model, room.consentQuestion(), texts);
        dialog[0].show(context.theme()::dress);
    }

    private void tell(List<ExportCase.Exported> written) {
        Set<String> warnings = new LinkedHashSet<>();
        written.forEach(one -> warnings.addAll(one.warnings()));
        Path first = written.get(0).file();
        context.notices()
                .show(new Notice(
                        Notice.Tone.DONE,
                        texts.get("bundle.written", written.size()),
                        String.valueOf(written.size() == 1 ? first : first.getParent()),
                        warnings.isEmpty() ? null : String.join(" ", warnings)));
    }

    @Override
    public void toOtherPrograms(String code) {
        OpenFormatDialog[] dialog = new OpenFormatDialog[1];
        OpenFormatViewModel model = room.openFormatViewModel(code, written -> {
            dialog[0].close();
            List<String> said = new ArrayList<>(written.dropped());
            said.addAll(written.warnings());
            context.notices()
                    .show(new Notice(
                            Notice.Tone.DONE,
                            texts.get("open.written"),
                            written.file().toString(),
                            said.isEmpty() ? null : String.join(" ", said)));
        });
        dialog[0] = new OpenFormatDialog(owner, model, room.consentQuestion(), texts);
        dialog[0].show(context.theme()::dress);
    }

    @Override
    public void makeFilm(String code) {
        room.openSheet(code, sheet -> {
            FilmDialog[] dialog = new FilmDialog[1];
            FilmViewModel model = room.filmViewModel(sheet, made -> {
                dialog[0].close();
                done(
                        texts.get("film.made", Formats.shortClock(MediaTime.ofMicros(made.lengthUs()))),
                        made.film(),
                        made.warnings());
            });
            dialog[0] = new FilmDialog(owner, model, room.consentQuestion(), over -> hideAreas(over, code), texts);
            dialog[0].show(context.theme()::dress);
        });
    }

    @Override
    public void copyWithChapters(String code) {
        ChaptersDialog[] dialog = new ChaptersDialog[1];
        ChaptersViewModel model = room.chaptersViewModel(code, written -> {
            dialog[0].close();
            List<String> said = new ArrayList<>(written.dropped());
            said.addAll(written.warnings());
            done(
                    texts.get(
                            "chapters.written",
                            written.chapters(),
                            written.files().size()),
                    written.files().get(0).toAbsolutePath().getParent(),
                    said);
        });
        dialog[0] = new ChaptersDialog(owner, model, room.consentQuestion(), texts);
        dialog[0].show(context.theme()::dress);
    }

    @Override
    public void hideAreas(String code) {
        hideAreas(owner, code);
    }

    private void hideAreas(Window over, String code) {
        HiddenAreasDialog[] dialog = new HiddenAreasDialog[1];
        HiddenAreasViewModel model = room.hiddenAreasViewModel(code, () -> {
            dialog[0].close();
            context.notices().show(Notice.done(texts.get("hide.saved", code), null));
        });
        dialog[0] = new HiddenAreasDialog(over, model, texts);
        dialog[0].show(context.theme()::dress);
    }

    private void done(String what, @Nullable Path where, List<String> said) {
        context.notices()
                .show(new Notice(
                        Notice.Tone.DONE, what, String.valueOf(where), said.isEmpty() ? null : String.join(" ", said)));
    }

    @Override
    public void chooseBundle() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("bundle.in", 1));
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(texts.get("bundle.kinds"), "*.zip"),
                        new FileChooser.ExtensionFilter(texts.get("add.files.all"), "*.*"));
        File chosen = chooser.showOpenDialog(owner);
        if (chosen != null) {
            takeIn(chosen.toPath());
        }
    }

    @Override
    public void takeIn(Path file) {
        ImportBundleDialog[] dialog = new ImportBundleDialog[1];
        ImportBundleViewModel model = room.importBundleViewModel(file, plan -> {
            dialog[0].close();
            context.notices()
                    .show(Notice.done(
                            texts.get(
                                    "bundle.taken",
                                    plan.caseCode(),
                                    plan.conflicts().size()),
                            null));
            changed.accept(plan.caseCode());
        });
        dialog[0] = new ImportBundleDialog(owner, model, texts);
        dialog[0].show(context.theme()::dress);
    }

    @Override
    public void writeForm(String code) {
        room.openSheet(code, sheet -> {
            FormDialog[] dialog = new FormDialog[1];
            FormViewModel model = room.formViewModel(sheet.surgicalCase(), file -> {
                dialog[0].close();
                context.notices().show(Notice.done(texts.get("form.written"), file.toString()));
            });
            dialog[0] = new FormDialog(owner, model, texts);
            dialog[0].show(context.theme()::dress);
        });
    }

    @Override
    public void chooseForm() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("form.in", 1));
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("cases.workbook"), "*.xlsx"));
        File chosen = chooser.showOpenDialog(owner);
        if (chosen != null) {
            takeForm(chosen.toPath());
        }
    }

    /** A filled-in form that was chosen. */
    public void takeForm(Path file) {
        room.formReturn()
                .take(
                        file,
                        new FormReturn.Asked() {
                            @Override
                            public void faults(Path form, List<String> byCell) {
                                showFaults(form, byCell);
                            }

                            @Override
                            public void replace(String what, Runnable yes) {
                                Question.of(
                                                "form-replace",
                                                texts.get("form.replace.title"),
                                                texts.get("form.replace", what),
                                                texts.get("form.replace.yes"),
                                                texts.get("cancel"))
                                        .ask(owner, yes);
                            }
                        },
                        changed);
    }

    private void showFaults(Path form, List<String> byCell) {
        ExchangeDialog dialog =
                new ExchangeDialog(owner, texts, texts.get("form.faults.title", String.valueOf(form.getFileName())));
        VBox faults = new VBox(Ui.STEP / 2);
        faults.setId("form-faults");
        byCell.forEach(fault -> faults.getChildren().add(Ui.wrapped(fault, "warning-note")));
        ScrollPane scroll = Ui.styled(new ScrollPane(faults), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        Button again = Ui.button("form-again", null, texts.get("form.again"), () -> {
            dialog.close();
            takeForm(form);
        });
        again.setDefaultButton(true);
        Button close = Ui.button("form-faults-close", null, texts.get("close"), dialog::close);
        close.setCancelButton(true);
        dialog.show(
                context.theme()::dress,
                720,
                440,
                Ui.wrapped(texts.get("form.faults", byCell.size()), "section"),
                scroll,
                new HBox(Ui.STEP, Ui.spring(), close, again));
    }
}
