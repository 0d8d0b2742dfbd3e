package org.sideport.app.cases;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import javafx.stage.FileChooser;
import javafx.stage.Stage;
import org.sideport.app.AppContext;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.app.exchange.CaseExchange;
import org.sideport.app.exchange.ExchangeWindows;
import org.sideport.model.ConsentState;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.ProposeCases;

/** The windows of the Cases screen, over the main window. */
public final class IntakeWindows implements CaseIntake {

    private final Stage owner;
    private final AppContext context;
    private final Texts texts;
    private final CasesViewModel cases;
    private final ExchangeWindows exchange;

    public IntakeWindows(Stage owner, AppContext context, CasesViewModel cases) {
        this.owner = owner;
        this.context = context;
        this.texts = context.texts();
        this.cases = cases;
        this.exchange = new ExchangeWindows(owner, context, cases::selectWhenRead);
    }

    @Override
    public void add(List<Path> files) {
        add("", files);
    }

    private void add(String code, List<Path> files) {
        AddCaseDialog[] dialog = new AddCaseDialog[1];
        AddCaseViewModel model = context.cases().addCaseViewModel(added -> {
            dialog[0].close();
            cases.selectWhenRead(added.code());
        });
        dialog[0] = new AddCaseDialog(owner, model, texts);
        dialog[0].show(context.theme()::dress);
        model.codeProperty().set(code);
        model.addFiles(files);
    }

    @Override
    public void drop(List<Path> dropped) {
        if (dropped.size() == 1 && ExchangeWindows.isBundle(dropped.get(0))) {
            exchange.takeIn(dropped.get(0));
            return;
        }
        if (dropped.size() == 1 && isSheet(dropped.get(0))) {
            sheet(dropped.get(0));
            return;
        }
        context.cases().propose(dropped, proposals -> {
            if (proposals.size() == 1) {
                add(proposals.get(0).code(), proposals.get(0).files());
            } else {
                choose(proposals);
            }
        });
    }

    @Override
    public CaseExchange exchange() {
        return exchange;
    }

    private static boolean isSheet(Path file) {
        String name = file.toString().toLowerCase(Locale.ROOT);
        return name.endsWith(".csv") || name.endsWith(".xlsx") || name.endsWith(".tsv");
    }

    private void choose(List<ProposeCases.Proposal> proposals) {
        ImportDialog[] dialog = new ImportDialog[1];
        ImportViewModel model = context.cases().importViewModel(proposals, stored -> {
            dialog[0].close();
            tell(stored.size());
            cases.selectWhenRead(stored.keySet().iterator().next());
        });
        dialog[0] = new ImportDialog(owner, model, texts);
        dialog[0].show(context.theme()::dress);
    }

    private void tell(int count) {
        context.notices().show(Notice.done(texts.get("import.done", count), null));
    }

    @Override
    public void chooseSheet() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("cases.sheet"));
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(texts.get("sheet.kinds"), "*.xlsx", "*.csv", "*.tsv"),
                        new FileChooser.ExtensionFilter(texts.get("add.files.all"), "*.*"));
        File chosen = chooser.showOpenDialog(owner);
        if (chosen != null) {
            sheet(chosen.toPath());
        }
    }

    private void sheet(Path file) {
        SheetDialog[] dialog = new SheetDialog[1];
        SheetViewModel model = context.cases().sheetViewModel(file, stored -> {
            dialog[0].close();
            tell(stored.size());
            cases.selectWhenRead(stored.get(0).code());
        });
        dialog[0] = new SheetDialog(owner, model, texts);
        dialog[0].show(context.theme()::dress);
    }

    @Override
    public void edit(String code) {
        context.cases().openSheet(code, this::edit);
    }

    private void edit(EditCase.Sheet sheet) {
        EditCaseDialog[] dialog = new EditCaseDialog[1];
        EditCaseViewModel[] edited = new EditCaseViewModel[1];
        EditCaseViewModel model = context.cases().editCaseViewModel(sheet, () -> {
            dialog[0].close();
            String code = sheet.surgicalCase().code();
            if (edited[0].consentProperty().get() == ConsentState.WITHDRAWN) {
                context.current().close(code);
                context.notices().hint(texts.get("keeping.hidden", code));
            }
            cases.selectWhenRead(code);
        });
        edited[0] = model;
        dialog[0] = new EditCaseDialog(owner, model, texts);
        dialog[0].show(context.theme()::dress);
    }
}
