package org.sideport.app.frame;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.util.Objects;
import javafx.application.Application;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.scene.Scene;
import org.sideport.app.Settings;

/** Dark for a viewing room, or light; every window of the program alike. */
public final class Theme {

    private static final String SETTING = "light";

    private final BooleanProperty light;

    public Theme(Settings settings) {
        light = new SimpleBooleanProperty(settings.get(SETTING, false));
        light.addListener((property, old, now) -> {
            settings.put(SETTING, now);
            apply();
        });
        apply();
    }

    public BooleanProperty lightProperty() {
        return light;
    }

    private void apply() {
        Application.setUserAgentStylesheet(
                light.get() ? new PrimerLight().getUserAgentStylesheet() : new PrimerDark().getUserAgentStylesheet());
    }

    /** Adds our own rules to a scene. */
    public void dress(Scene scene) {
        scene.getStylesheets()
                .add(Objects.requireNonNull(Theme.class.getResource("/org/sideport/app/app.css"))
                        .toExternalForm());
    }
}
