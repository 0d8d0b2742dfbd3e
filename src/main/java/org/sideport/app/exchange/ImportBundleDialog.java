package org.sideport.app.exchange;

import java.util.List;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.PasswordField;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.exchange.ImportPlan;
import org.sideport.workflow.exchange.ImportRemark;

/** What a bundle would bring, each difference to what is here, and what is to be decided before it is taken in. */
final class ImportBundleDialog extends ExchangeDialog {

    /** More lines than anyone reads here are told by their number. */
    private static final int SHOWN = 200;

    private final ImportBundleViewModel model;
    private final Label summary = Ui.wrapped("", "section");
    private final VBox lines = new VBox(Ui.STEP / 2);
    private final GridPane people = grid();

    ImportBundleDialog(Window owner, ImportBundleViewModel model, Texts texts) {
        super(
                owner,
                texts,
                texts.get("bundle.in.title", String.valueOf(model.file().getFileName())));
        this.model = model;
        stage.setOnCloseRequest(event -> model.cancel());
    }

    void show(Consumer<Scene> look) {
        summary.setId("bundle-summary");
        lines.setId("bundle-lines");
        people.setId("bundle-people");
        ScrollPane scroll = Ui.styled(new ScrollPane(new VBox(Ui.STEP * 2, lines, choices())), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        model.planProperty().addListener((property, old, now) -> fill(now));
        model.people().addListener((ListChangeListener<PersonHere>) change -> people());
        fill(null);
        Button take = Ui.button("bundle-take", Feather.CHECK, texts.get("import.take"), model::take);
        Button look2 = Ui.button("bundle-look", Feather.REFRESH_CW, texts.get("bundle.look"), model::look);
        look2.disableProperty().bind(Bindings.createBooleanBinding(model::isWorking, model.workingProperty()));
        show(
                look,
                920,
                640,
                summary,
                secret(),
                scroll,
                progress("bundle-stop", model.workingProperty(), model::cancel),
                ProblemLabel.of("bundle-problem", model.problemProperty()),
                foot(
                        model.whyNotProperty(),
                        take,
                        () -> {
                            model.cancel();
                            stage.close();
                        },
                        look2));
        model.begin();
    }

    private Node secret() {
        PasswordField field = new PasswordField();
        field.setId("bundle-passphrase");
        field.setPrefColumnCount(24);
        field.textProperty().bindBidirectional(model.passphraseProperty());
        field.setOnAction(event -> model.look());
        GridPane grid = grid();
        line(grid, texts.get("bundle.passphrase"), field);
        Ui.showIf(grid, model.lockedProperty());
        model.lockedProperty().addListener((property, old, now) -> {
            if (now) {
                field.requestFocus();
            }
        });
        return grid;
    }

    private String words(ImportRemark remark) {
        return texts.get(
                "bundle.remark." + remark.kind().name(), remark.values().toArray());
    }

    private void fill(@Nullable ImportPlan plan) {
        lines.getChildren().clear();
        if (plan == null) {
            summary.setText(texts.get("bundle.in.text"));
            return;
        }
        boolean nothing = plan.bringsNothing() && plan.conflicts().isEmpty();
        summary.setText(
                nothing
                        ? texts.get("bundle.why.here", plan.caseCode())
                        : texts.get(
                                plan.newCase() ? "bundle.new" : "bundle.known",
                                plan.caseCode(),
                                plan.trainee(),
                                plan.conflicts().size()));
        plan.questions().forEach(q -> lines.getChildren().add(Ui.wrapped(words(q), "critical-note")));
        plan.notes().forEach(n -> lines.getChildren().add(Ui.wrapped(words(n), "warning-note")));
        List<ImportPlan.Line> told = plan.lines().stream()
                .filter(l -> l.state() != ImportPlan.State.SAME)
                .sorted((a, b) ->
                        Boolean.compare(b.state().isConflict(), a.state().isConflict()))
                .toList();
        told.stream().limit(SHOWN).forEach(l -> lines.getChildren().add(line(l)));
        if (told.size() > SHOWN) {
            lines.getChildren().add(Ui.label(texts.get("sheet.more", told.size() - SHOWN), "text-muted"));
        }
        int same = plan.lines().size() - told.size();
        if (same > 0) {
            lines.getChildren().add(Ui.wrapped(texts.get("bundle.same", same), "small", "text-muted"));
        }
        if (plan.mediaBytes() > 0) {
            lines.getChildren()
                    .add(Ui.wrapped(texts.get("bundle.bytes", plan.mediaBytes() / 1_000_000.0), "small", "text-muted"));
        }
    }

    private Node line(ImportPlan.Line line) {
        String text = texts.get(
                "bundle.line",
                texts.get("bundle.what." + line.what().name()),
                line.name(),
                texts.get("bundle.state." + line.state().name()));
        return Ui.wrapped(
                line.detail().isEmpty() ? text : text + ": " + line.detail(),
                line.state().isConflict() ? "warning-note" : "text");
    }

    private Node choices() {
        CheckBox theirs = new CheckBox(texts.get("bundle.theirs"));
        theirs.setId("bundle-theirs");
        theirs.setWrapText(true);
        theirs.selectedProperty().bindBidirectional(model.theirsProperty());
        TextField caseAs = new TextField();
        caseAs.setId("bundle-case-as");
        caseAs.setPromptText(texts.get("bundle.as.same"));
        caseAs.textProperty().bindBidirectional(model.caseAsProperty());
        TextField by = new TextField();
        by.setId("bundle-by");
        by.textProperty().bindBidirectional(model.byProperty());
        if (model.isByFixed()) {
            Ui.fixed(by, texts.get("who.own", by.getText()));
        }
        GridPane grid = grid();
        line(grid, texts.get("bundle.by"), by);
        line(grid, texts.get("bundle.case-as"), caseAs);
        return new VBox(Ui.STEP, theirs, new HBox(Ui.STEP * 4, grid, people));
    }

    private void people() {
        people.getChildren().clear();
        for (PersonHere person : model.people()) {
            TextField field = new TextField();
            field.setId("bundle-person-" + person.code());
            field.setPromptText(texts.get("bundle.as.same"));
            field.setPrefColumnCount(8);
            field.textProperty().bindBidirectional(person.hereProperty());
            String key = person.isTrainee() ? "bundle.trainee-as" : "bundle.person-as";
            line(people, texts.get(key, person.code(), person.isKnown() ? 1 : 0), field);
        }
    }
}
