package org.sideport.app.frame;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.AppContext;
import org.sideport.app.CurrentCase;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** The bar over every screen: where one is, which case is open, who one is, and what concerns the whole program. */
final class TopBar extends HBox {

    /** What its buttons do. */
    record Actions(Runnable jobs, Runnable picture, Runnable settings, Runnable keys, Runnable about) {}

    private final AppContext context;
    private final Texts texts;

    /**
     * @param places the buttons of the screens
     * @param who who is signed in; {@code null} where nobody signs in
     */
    TopBar(AppContext context, HBox places, @Nullable Node who, Actions actions) {
        super(Ui.STEP * 2);
        this.context = context;
        this.texts = context.texts();
        Label caseName = Ui.label("", "case-name");
        caseName.setId("current-case");
        caseName.textProperty()
                .bind(Bindings.createStringBinding(
                        this::caseText,
                        context.current().openedProperty(),
                        context.current().loadingProperty()));
        ToggleButton light = Ui.iconToggle("light", Feather.SUN, Ui.withKey(texts, Shortcut.LIGHT_OR_DARK));
        light.selectedProperty().bindBidirectional(context.theme().lightProperty());
        HBox right = new HBox(
                2,
                button("second-picture-window", Feather.MONITOR, Shortcut.SECOND_PICTURE, actions.picture()),
                light,
                button("settings", Feather.SETTINGS, Shortcut.SETTINGS, actions.settings()),
                button("keys", Feather.COMMAND, Shortcut.SHORTCUTS, actions.keys()),
                button("about", Feather.INFO, Shortcut.ABOUT, actions.about()));
        if (who != null) {
            right.getChildren().add(0, who);
        }
        right.setAlignment(Pos.CENTER_LEFT);
        right.setMinWidth(Region.USE_PREF_SIZE);
        getChildren()
                .setAll(
                        Ui.label(texts.get("app.name"), "app-name"),
                        places,
                        caseName,
                        Ui.spring(),
                        JobsPanel.opener(context.jobs(), texts, actions.jobs()),
                        right);
        getStyleClass().add("top-bar");
        setAlignment(Pos.CENTER_LEFT);
    }

    private Node button(String id, Feather icon, Shortcut shortcut, Runnable action) {
        return Ui.iconButton(id, icon, Ui.withKey(texts, shortcut), action);
    }

    private String caseText() {
        CurrentCase.Opened open = context.current().opened();
        if (context.current().loadingProperty().get()) {
            return texts.get("nav.loading");
        }
        return open == null
                ? ""
                : texts.get(
                        "nav.case", open.code(), open.overview().surgicalCase().trainee());
    }
}
