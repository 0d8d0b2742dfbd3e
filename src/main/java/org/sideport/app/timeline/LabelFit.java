package org.sideport.app.timeline;

import java.util.HashMap;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/** Which words fit on a block: the name in full, else the short one, else none; never a part of a word. */
final class LabelFit {

    /** Kept free at either side of the words, pixels. */
    static final double MARGIN = 4;

    private static final int MOST = 4096;

    private final ToDoubleFunction<String> measure;
    private final Map<String, Double> widths = new HashMap<>();

    /** @param measure width of a text in pixels; asked once for each text */
    LabelFit(ToDoubleFunction<String> measure) {
        this.measure = measure;
    }

    /** The words for a block that is {@code room} pixels wide; empty where none fit. */
    String choose(String name, String shortName, double room) {
        double free = room - 2 * MARGIN;
        if (free < MARGIN) {
            return "";
        }
        if (width(name) <= free) {
            return name;
        }
        return width(shortName) <= free ? shortName : "";
    }

    /** The font has changed. */
    void forget() {
        widths.clear();
    }

    double width(String text) {
        Double known = widths.get(text);
        if (known == null) {
            if (widths.size() > MOST) {
                widths.clear();
            }
            known = measure.applyAsDouble(text);
            widths.put(text, known);
        }
        return known;
    }
}
