package org.sideport.app.review;

import javafx.beans.Observable;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Cut;
import org.sideport.model.CutState;

/** Where the recording may lack time, for the person at work to accept or dismiss. */
final class CutsPane extends VBox {

    private final CutsViewModel model;
    private final Texts texts;
    private final VBox list = new VBox(Ui.STEP * 2);

    CutsPane(CutsViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        getStyleClass().add("padded");
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().addAll(Ui.wrapped(texts.get("cuts.meaning"), "small", "text-muted"), tools(), busy(), scroll);
        model.cuts().addListener((Observable changed) -> rebuild());
        rebuild();
    }

    private HBox tools() {
        Button look = Ui.button("look-for-cuts", Feather.SEARCH, texts.get("cuts.look"), model::look);
        look.disableProperty().bind(model.lookingProperty());
        Button add = Ui.button("add-cut", Feather.PLUS, texts.get("cuts.addHere"), model::addHere);
        look.setFocusTraversable(false);
        add.setFocusTraversable(false);
        return new HBox(Ui.STEP, look, add);
    }

    private HBox busy() {
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(model.progressProperty());
        bar.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(bar, Priority.ALWAYS);
        Button cancel = Ui.button("cancel-cuts", Feather.X, texts.get("cuts.cancel"), model::cancel);
        cancel.setFocusTraversable(false);
        HBox box = new HBox(Ui.STEP, bar, cancel);
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(
                box, Bindings.createBooleanBinding(() -> model.lookingProperty().get(), model.lookingProperty()));
        return box;
    }

    private void rebuild() {
        list.getChildren().clear();
        if (model.cuts().isEmpty()) {
            list.getChildren().add(Ui.wrapped(texts.get("cuts.empty"), "text-muted"));
        }
        for (Cut cut : model.cuts()) {
            list.getChildren().add(row(cut));
        }
    }

    private VBox row(Cut cut) {
        Hyperlink time = Ui.styled(new Hyperlink(cut.to().toClockText()), "digits");
        time.setOnAction(event -> model.go(cut));
        time.setFocusTraversable(false);
        Label state = Ui.label(
                texts.get("cuts.state." + cut.state().name(), cut.decidedBy()),
                "small",
                cut.state() == CutState.PROPOSED ? "accent" : "text-muted");
        HBox head = new HBox(Ui.STEP, time, state);
        head.setAlignment(Pos.CENTER_LEFT);
        HBox buttons = new HBox(Ui.STEP);
        String id = String.valueOf(cut.to().micros());
        if (cut.state() == CutState.PROPOSED) {
            buttons.getChildren()
                    .addAll(
                            button("accept-" + id, Feather.CHECK, "cuts.accept", () -> model.accept(cut)),
                            button("dismiss-" + id, Feather.X, "cuts.dismiss", () -> model.dismiss(cut)));
        } else {
            buttons.getChildren()
                    .add(button("reopen-" + id, Feather.CORNER_UP_LEFT, "cuts.reopen", () -> model.reopen(cut)));
        }
        return new VBox(Ui.STEP / 2, head, Ui.wrapped(texts.said(cut.evidence()), "small"), buttons);
    }

    private Button button(String id, Feather icon, String key, Runnable action) {
        Button button = Ui.button(id, icon, texts.get(key), action);
        button.getStyleClass().add("small");
        return button;
    }
}
