package org.sideport.app.frame;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.lang.ref.WeakReference;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Objects;
import javafx.application.Application;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.scene.Scene;
import org.sideport.app.Settings;
import org.sideport.app.settings.FontSize;

/** Dark for a viewing room, or light, and how large everything is written; every window of the program alike. */
public final class Theme {

    private static final String LIGHT = "light";
    private static final String SIZE = "font.percent";
    private static final String SHEET = "/org/sideport/app/app.css";

    private final BooleanProperty light;
    private final ObjectProperty<FontSize> fontSize;

    public Theme(Settings settings) {
        light = new SimpleBooleanProperty(settings.get(LIGHT, false));
        light.addListener((property, old, now) -> {
            settings.put(LIGHT, now);
            apply();
        });
        fontSize = new SimpleObjectProperty<>(FontSize.of(settings.get(SIZE, 100)));
        fontSize.addListener((property, old, now) -> settings.put(SIZE, now.percent()));
        apply();
    }

    public BooleanProperty lightProperty() {
        return light;
    }

    public ObjectProperty<FontSize> fontSizeProperty() {
        return fontSize;
    }

    private void apply() {
        Application.setUserAgentStylesheet(
                light.get() ? new PrimerLight().getUserAgentStylesheet() : new PrimerDark().getUserAgentStylesheet());
    }

    /** Adds our own rules to a scene, in the size chosen, now and later. Dialogs take over those of their owner. */
    public void dress(Scene scene) {
        scene.getStylesheets().setAll(sheet(fontSize.get()));
        TableScale tables = new TableScale(scene, fontSize.get().factor());
        // the scenes of windows that were closed must not be kept
        WeakReference<Scene> dressed = new WeakReference<>(scene);
        WeakReference<TableScale> scaled = new WeakReference<>(tables);
        fontSize.addListener((property, old, now) -> {
            Scene there = dressed.get();
            TableScale of = scaled.get();
            if (there != null && of != null) {
                there.getStylesheets().setAll(sheet(now));
                of.scale(now.factor());
            }
        });
    }

    private static String sheet(FontSize size) {
        if (size == FontSize.NORMAL) {
            return Objects.requireNonNull(Theme.class.getResource(SHEET)).toExternalForm();
        }
        try (InputStream in = Objects.requireNonNull(Theme.class.getResourceAsStream(SHEET))) {
            String css = size.scaled(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            return "data:text/css;charset=UTF-8;base64,"
                    + Base64.getEncoder().encodeToString(css.getBytes(StandardCharsets.UTF_8));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
