package org.sideport.app.voice;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.comment.TalkStyle;

/** The button that begins and ends speaking. */
public final class SpeakRow extends HBox {

    public SpeakRow(SpokenViewModel model, Texts texts) {
        super(Ui.STEP);
        Button speak = Ui.button("speak", Feather.MIC, "", model::press);
        speak.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                model.stateProperty().get() == SpokenViewModel.State.RECORDING
                                        ? "spoken.stop"
                                        : "spoken.begin"),
                        model.stateProperty()));
        speak.setTooltip(new Tooltip(texts.get("spoken.begin.tooltip", Shortcut.SPEAK.keysText())));
        speak.setFocusTraversable(false);
        getChildren().add(speak);
        getStyleClass().add("speak-row");
        TalkStyle.dressed(this);
        setAlignment(Pos.CENTER_LEFT);
    }
}
