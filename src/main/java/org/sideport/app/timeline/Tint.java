package org.sideport.app.timeline;

import javafx.scene.paint.Color;
import org.sideport.app.PhaseColours;

/** A block's colour and the ink that is readable on it. */
public record Tint(Color fill, Color ink) {

    public static Tint of(PhaseColours.Look look) {
        return new Tint(Color.web(look.fill()), Color.web(look.ink()));
    }
}
