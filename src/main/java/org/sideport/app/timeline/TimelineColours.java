package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import javafx.beans.value.ObservableValue;
import javafx.css.CssMetaData;
import javafx.css.Styleable;
import javafx.css.StyleableProperty;
import javafx.css.StyleablePropertyFactory;
import javafx.scene.control.Control;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;

/**
 * What CSS decides about a timeline: {@code -sp-ground} (lanes), {@code -sp-back} (behind them), {@code -sp-text},
 * {@code -sp-muted} (ruler, names of lanes), {@code -sp-line} (ticks), {@code -sp-idle} (hatch), {@code -sp-doubt},
 * {@code -sp-gap}, {@code -sp-border} (file borders), {@code -sp-accent} (selection), {@code -sp-curve},
 * {@code -sp-row-height}, {@code -sp-header-width} and {@code -sp-font}.
 */
final class TimelineColours {

    private static final StyleablePropertyFactory<TimelineView> FACTORY =
            new StyleablePropertyFactory<>(Control.getClassCssMetaData());

    final StyleableProperty<Color> ground;
    final StyleableProperty<Color> back;
    final StyleableProperty<Color> text;
    final StyleableProperty<Color> muted;
    final StyleableProperty<Color> line;
    final StyleableProperty<Color> idle;
    final StyleableProperty<Color> doubt;
    final StyleableProperty<Color> gap;
    final StyleableProperty<Color> border;
    final StyleableProperty<Color> accent;
    final StyleableProperty<Color> curve;
    final StyleableProperty<Number> rowHeight;
    final StyleableProperty<Number> headerWidth;
    final StyleableProperty<Font> font;

    private final List<ObservableValue<?>> all = new ArrayList<>();

    TimelineColours(TimelineView view) {
        ground = colour(view, "ground", v -> v.colours().ground);
        back = colour(view, "back", v -> v.colours().back);
        text = colour(view, "text", v -> v.colours().text);
        muted = colour(view, "muted", v -> v.colours().muted);
        line = colour(view, "line", v -> v.colours().line);
        idle = colour(view, "idle", v -> v.colours().idle);
        doubt = colour(view, "doubt", v -> v.colours().doubt);
        gap = colour(view, "gap", v -> v.colours().gap);
        border = colour(view, "border", v -> v.colours().border);
        accent = colour(view, "accent", v -> v.colours().accent);
        curve = colour(view, "curve", v -> v.colours().curve);
        rowHeight = kept(FACTORY.createStyleableNumberProperty(
                view, "rowHeight", "-sp-row-height", v -> v.colours().rowHeight, 22));
        headerWidth = kept(FACTORY.createStyleableNumberProperty(
                view, "headerWidth", "-sp-header-width", v -> v.colours().headerWidth, 72));
        font = kept(FACTORY.createStyleableFontProperty(
                view, "font", "-sp-font", v -> v.colours().font, Font.getDefault()));
    }

    /** Nothing is seen of a colour that no style sheet gives. */
    private StyleableProperty<Color> colour(
            TimelineView view, String name, Function<TimelineView, StyleableProperty<Color>> of) {
        return kept(FACTORY.createStyleableColorProperty(view, name, "-sp-" + name, of, Color.TRANSPARENT));
    }

    private <T> StyleableProperty<T> kept(StyleableProperty<T> property) {
        all.add((ObservableValue<?>) property);
        return property;
    }

    void onChange(Runnable action) {
        all.forEach(each -> each.addListener((property, old, now) -> action.run()));
    }

    static List<CssMetaData<? extends Styleable, ?>> metaData() {
        return FACTORY.getCssMetaData();
    }
}
