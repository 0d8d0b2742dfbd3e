package org.sideport.app.cases;

import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Modality;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.media.MediaWarning;
import org.sideport.workflow.ImportCases;
import org.sideport.workflow.ImportSheet;

/** What a sheet of cases would bring in, and what is wrong with it. */
final class SheetDialog {

    /** A sheet with more lines than anyone reads here is told by its first ones. */
    private static final int SHOWN = 200;

    private final SheetViewModel model;
    private final Texts texts;
    private final Stage stage = new Stage();
    private final VBox faults = new VBox(Ui.STEP / 2);
    private final VBox good = new VBox(Ui.STEP / 2);
    private final Label summary = Ui.wrapped("", "section");

    SheetDialog(Window owner, SheetViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        stage.initOwner(owner);
        stage.initModality(Modality.WINDOW_MODAL);
        stage.setTitle(texts.get("sheet.title", String.valueOf(model.sheet().getFileName())));
    }

    void show(Consumer<Scene> look) {
        summary.setId("sheet-summary");
        faults.setId("sheet-faults");
        good.setId("sheet-good");
        ScrollPane scroll = Ui.styled(new ScrollPane(new VBox(Ui.STEP * 2, faults, good)), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        CheckBox goodOnly = new CheckBox(texts.get("sheet.goodOnly"));
        goodOnly.setId("sheet-good-only");
        goodOnly.selectedProperty().bindBidirectional(model.goodOnlyProperty());
        Ui.showIf(
                goodOnly,
                Bindings.createBooleanBinding(
                        () -> {
                            ImportSheet.Plan plan = model.planProperty().get();
                            return plan != null
                                    && !plan.faults().isEmpty()
                                    && !plan.good().isEmpty();
                        },
                        model.planProperty()));
        model.planProperty().addListener((property, old, now) -> fill(now));
        fill(model.planProperty().get());
        VBox content = Ui.styled(
                new VBox(
                        Ui.STEP * 2,
                        summary,
                        scroll,
                        goodOnly,
                        reading(),
                        ProblemLabel.of("sheet-problem", model.problemProperty()),
                        buttons()),
                "dialog-content");
        Scene scene = new Scene(content, 960, 640);
        look.accept(scene);
        stage.setScene(scene);
        stage.setOnCloseRequest(event -> model.cancel());
        stage.show();
        model.read();
    }

    void close() {
        stage.close();
    }

    private void fill(ImportSheet.@Nullable Plan plan) {
        faults.getChildren().clear();
        good.getChildren().clear();
        if (plan == null) {
            summary.setText("");
            return;
        }
        summary.setText(texts.get(
                "sheet.summary", plan.good().size(), plan.rows(), plan.faults().size()));
        plan.faults().stream()
                .limit(SHOWN)
                .forEach(fault -> faults.getChildren().add(Ui.wrapped(fault.text(), "warning-note")));
        more(faults, plan.faults().size());
        plan.good().stream().limit(SHOWN).forEach(one -> good.getChildren().add(line(one)));
        more(good, plan.good().size());
    }

    private void more(VBox box, int count) {
        if (count > SHOWN) {
            box.getChildren().add(Ui.label(texts.get("sheet.more", count - SHOWN), "text-muted"));
        }
    }

    private Node line(ImportCases.Looked one) {
        var details = one.draft().details();
        VBox box = new VBox(Ui.label(texts.get(
                "sheet.line",
                one.draft().place(),
                details.code(),
                details.trainee() + ", " + details.date(),
                one.draft().files().size())));
        for (MediaWarning warning : one.warnings()) {
            box.getChildren().add(Ui.wrapped(warning.text(), "small", "warning-note"));
        }
        return box;
    }

    private Node reading() {
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(model.readingProperty());
        bar.setPrefWidth(160);
        Button stop = Ui.button("sheet-stop", null, texts.get("cuts.cancel"), model::cancel);
        HBox box = new HBox(Ui.STEP, bar, Ui.label(texts.get("sheet.why.reading"), "small", "text-muted"), stop);
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(box, Bindings.createBooleanBinding(model::isReading, model.readingProperty()));
        return box;
    }

    private Node buttons() {
        Button take = Ui.button("sheet-take", Feather.CHECK, texts.get("import.take"), model::take);
        take.getStyleClass().add("accent");
        take.setDefaultButton(true);
        Button again = Ui.button("sheet-again", Feather.REFRESH_CW, texts.get("sheet.again"), model::read);
        again.disableProperty().bind(Bindings.createBooleanBinding(model::isReading, model.readingProperty()));
        Button cancel = Ui.button("sheet-cancel", null, texts.get("cancel"), () -> {
            model.cancel();
            stage.close();
        });
        cancel.setCancelButton(true);
        Label why = Ui.label("", "small", "text-muted");
        why.textProperty().bind(model.whyNotProperty());
        HBox box = new HBox(Ui.STEP, again, Ui.spring(), why, cancel, Ui.reasoned(take, model.whyNotProperty()));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
