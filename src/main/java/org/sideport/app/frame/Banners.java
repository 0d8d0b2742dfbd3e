package org.sideport.app.frame;

import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableStringValue;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** What stands below every screen until it is read or mended. */
final class Banners {

    private static final String FIRST_USE = "caution.seen";

    private Banners() {}

    /** @param problem why there is no sound and no smooth playback; empty if there is */
    static HBox missingPlayer(ObservableStringValue problem) {
        Label words = Ui.wrapped("", "small");
        words.textProperty().bind(problem);
        HBox box = Ui.styled(new HBox(Ui.STEP, new FontIcon(Feather.VOLUME_X), words), "banner");
        box.setId("player-banner");
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(box, Bindings.isNotEmpty(problem));
        return box;
    }

    /** The caution that is read once. */
    static HBox firstUse(Settings settings, Texts texts) {
        Label words = Ui.wrapped(texts.get("caution.firstUse"), "small");
        HBox box = Ui.styled(new HBox(Ui.STEP), "banner");
        box.setAlignment(Pos.CENTER_LEFT);
        Button read = Ui.button("caution-read", null, texts.get("caution.read"), () -> {
            settings.put(FIRST_USE, true);
            box.setVisible(false);
            box.setManaged(false);
        });
        read.getStyleClass().add("small");
        read.setFocusTraversable(false);
        box.getChildren().addAll(new FontIcon(Feather.INFO), words, Ui.spring(), read);
        boolean seen = settings.get(FIRST_USE, false);
        box.setVisible(!seen);
        box.setManaged(!seen);
        return box;
    }
}
