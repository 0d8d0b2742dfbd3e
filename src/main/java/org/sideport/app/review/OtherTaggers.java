package org.sideport.app.review;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.CurrentCase;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/**
 * Who else has tagged this case: a click shows their tags alone, to look at only, another goes back; a button puts them
 * beside one's own, with how far the two agree.
 */
final class OtherTaggers extends VBox {

    private final ReviewViewModel model;
    private final BesideTags beside;
    private final Texts texts;
    private final FlowPane line = new FlowPane(Ui.STEP, 0);

    OtherTaggers(ReviewViewModel model, BesideTags beside, Texts texts) {
        this.model = model;
        this.beside = beside;
        this.texts = texts;
        getStyleClass().add("padded");
        Label agreement = Ui.wrapped("", "small", "text-muted");
        agreement.setId("agreement");
        agreement.textProperty().bind(beside.agreementProperty());
        Ui.showIf(agreement, Bindings.isNotEmpty(beside.agreementProperty()));
        getChildren().addAll(line, agreement);
        model.annotatorProperty().addListener((property, old, now) -> fill());
        model.lookingAtProperty().addListener((property, old, now) -> fill());
        model.current().openedProperty().addListener((property, old, now) -> fill());
        beside.whoProperty().addListener((property, old, now) -> fill());
        fill();
    }

    private void fill() {
        CurrentCase.Opened open = model.current().opened();
        List<String> others = open == null
                ? List.of()
                : open.overview().annotators().stream()
                        .filter(code -> !code.equals(model.annotatorProperty().get()))
                        .toList();
        line.getChildren().clear();
        if (!others.isEmpty()) {
            line.getChildren().add(Ui.label(texts.get("review.others")));
        }
        String looking = model.lookingAtProperty().get();
        for (String code : others) {
            Hyperlink link = new Hyperlink(code);
            link.setId("tags-of-" + code);
            link.setTooltip(new Tooltip(texts.get("review.others.tooltip")));
            link.setOnAction(event -> model.lookAt(code));
            link.setFocusTraversable(false);
            HBox one = new HBox(link);
            one.setAlignment(Pos.CENTER_LEFT);
            if (!code.equals(looking)) {
                ToggleButton lane = Ui.iconToggle("beside-" + code, Feather.COLUMNS, texts.get("beside.show", code));
                lane.getStyleClass().add("beside-toggle");
                lane.setSelected(code.equals(beside.whoProperty().get()));
                lane.setOnAction(event -> beside.show(lane.isSelected() ? code : ""));
                one.getChildren().add(lane);
            }
            line.getChildren().add(one);
        }
        if (!looking.isEmpty()) {
            Hyperlink back = new Hyperlink(texts.get("review.others.back", looking));
            back.setId("own-tags");
            back.setOnAction(event -> model.lookAt(""));
            back.setFocusTraversable(false);
            line.getChildren().add(back);
        }
        setVisible(!others.isEmpty());
        setManaged(!others.isEmpty());
    }
}
