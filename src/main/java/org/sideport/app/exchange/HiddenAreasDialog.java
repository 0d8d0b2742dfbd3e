package org.sideport.app.exchange;

import java.util.function.Consumer;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Slider;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.workflow.HideAreas;

/** Draws areas on a picture of the recording that are black in what is handed out of the case. */
final class HiddenAreasDialog extends ExchangeDialog {

    private static final double LIST_HEIGHT = 104;

    private final HiddenAreasViewModel model;
    private final VBox list = new VBox(Ui.STEP / 2);

    HiddenAreasDialog(Window owner, HiddenAreasViewModel model, Texts texts) {
        super(owner, texts, texts.get("hide.title", model.code()));
        this.model = model;
    }

    void show(Consumer<Scene> look) {
        AreaPicture picture = new AreaPicture(model.areas(), model::add);
        picture.setAccessibleText(texts.get("hide.picture"));
        model.stillProperty().addListener((property, old, now) -> picture.show(now));
        picture.show(model.stillProperty().get());
        VBox.setVgrow(picture, Priority.ALWAYS);
        model.areas().addListener((ListChangeListener<MaskArea>) change -> list());
        list();
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setMinHeight(LIST_HEIGHT);
        scroll.setPrefHeight(LIST_HEIGHT);
        Button save = Ui.button("hide-save", Feather.CHECK, texts.get("hide.save"), model::save);
        show(
                look,
                800,
                720,
                Ui.wrapped(texts.get("hide.text"), "text-muted"),
                picture,
                time(),
                scroll,
                typed(),
                ProblemLabel.of("hide-problem", model.problemProperty()),
                foot(model.whyNotProperty(), save, stage::close, finding()));
        stage.setOnHidden(event -> model.stopFinding());
    }

    /** The search for writing, and what it found. */
    private Node finding() {
        Button find = Ui.button("hide-find", Feather.SEARCH, texts.get("hide.find"), model::findWriting);
        Label found = Ui.label("", "small", "text-muted");
        found.setId("hide-found");
        found.textProperty().bind(model.foundProperty());
        HBox box = new HBox(Ui.STEP, find, progress("hide-stop", model.findingProperty(), model::stopFinding), found);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    /** Where in the recording the picture is. */
    private Node time() {
        Slider slider = new Slider(0, 1, 0);
        slider.setId("hide-time");
        slider.setAccessibleText(texts.get("hide.time"));
        HBox.setHgrow(slider, Priority.ALWAYS);
        Label clock = Ui.label("", "text-muted");
        clock.setId("hide-clock");
        Runnable follow = () -> {
            HideAreas.Still shown = model.stillProperty().get();
            slider.setDisable(shown == null);
            if (shown != null) {
                slider.setMax(Math.max(1.0, (double) shown.length().micros()));
                slider.setBlockIncrement(slider.getMax() / 50);
                clock.setText(Formats.shortClock(shown.at()) + " / " + Formats.shortClock(shown.length()));
            }
        };
        model.stillProperty().addListener((property, old, now) -> follow.run());
        follow.run();
        slider.valueProperty()
                .addListener((property, old, now) -> model.showAt(
                        MediaTime.ofMicros(Math.min(Math.round(now.doubleValue()), Math.round(slider.getMax()) - 1))));
        HBox box = new HBox(Ui.STEP, slider, clock);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void list() {
        list.getChildren().clear();
        if (model.areas().isEmpty()) {
            list.getChildren().add(Ui.wrapped(texts.get("hide.none"), "text-muted"));
        }
        for (int i = 0; i < model.areas().size(); i++) {
            MaskArea area = model.areas().get(i);
            Label words = Ui.label(words(area));
            Button remove = Ui.iconButton(
                    "hide-remove-" + i,
                    Feather.TRASH_2,
                    texts.get("hide.remove", words(area)),
                    () -> model.remove(area));
            HBox row = new HBox(Ui.STEP, remove, words);
            row.setAlignment(Pos.CENTER_LEFT);
            list.getChildren().add(row);
        }
    }

    private String words(MaskArea area) {
        MediaTime to = area.to();
        String when = to == null && area.from().equals(MediaTime.ZERO)
                ? texts.get("hide.always")
                : to == null
                        ? texts.get("hide.from", Formats.shortClock(area.from()))
                        : texts.get("hide.between", Formats.shortClock(area.from()), Formats.shortClock(to));
        return texts.get("hide.area", area.width(), area.height(), area.x(), area.y(), when);
    }

    /** For who uses no mouse, and for areas that are hidden for some of the time. */
    private Node typed() {
        TextField field = new TextField();
        field.setId("hide-typed");
        field.setPromptText("0,0,320,40@0:00-0:12");
        field.setPrefColumnCount(20);
        Label name = Ui.label(texts.get("hide.typed"), "text-muted");
        name.setLabelFor(field);
        field.setAccessibleText(texts.get("hide.typed"));
        Runnable take = () -> {
            if (!field.getText().isBlank() && model.add(field.getText())) {
                field.clear();
            }
        };
        field.setOnAction(event -> take.run());
        Button add = Ui.button("hide-add", Feather.PLUS, texts.get("hide.add"), take);
        HBox box = new HBox(Ui.STEP, name, field, add);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
