package org.sideport.app.compare;

import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.text.Font;
import javafx.scene.text.Text;
import org.sideport.app.Formats;
import org.sideport.app.PhaseColours;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.timing.Episode;

/** Blocks of phases as bars show them. */
final class Looks {

    /** Kept free at either side of a block's words, pixels. */
    private static final double MARGIN = 3;

    /** Size of the letters in and beside bars that heights are given for, pixels. */
    private static final double LETTERS = 12;

    private Looks() {}

    static String style(Procedure procedure, String label) {
        return procedure
                .find(label)
                .map(term -> PhaseColours.of(procedure, term))
                .orElse(PhaseColours.unknown())
                .style();
    }

    static String name(Procedure procedure, String label) {
        return procedure.find(label).map(Procedure.Term::name).orElse(label);
    }

    private static String shortName(Procedure procedure, String label) {
        return procedure.find(label).map(Procedure.Term::shortName).orElse(label);
    }

    static Label block(Procedure procedure, Episode episode) {
        Label block = Ui.label("", "bar-block");
        block.setStyle(style(procedure, episode.label()));
        block.setMinWidth(0);
        String name = name(procedure, episode.label());
        block.setTooltip(new Tooltip(name + "  " + Formats.length(episode.lengthUs())));
        block.setAccessibleText(name);
        return block;
    }

    /** A height, given for letters of the usual size, for those of a font; pixels. */
    static double grown(double height, Font letters) {
        return Math.ceil(height * letters.getSize() / LETTERS);
    }

    /** The name or the short name, whichever fits; never a part of a word. */
    static void fit(Label block, Procedure procedure, String label, double width) {
        String name = name(procedure, label);
        String shortName = shortName(procedure, label);
        Font font = block.getFont();
        block.setText(fits(name, font, width) ? name : fits(shortName, font, width) ? shortName : "");
    }

    private static boolean fits(String text, Font font, double width) {
        Text measured = new Text(text);
        measured.setFont(font);
        return measured.getLayoutBounds().getWidth() + 2 * MARGIN <= width;
    }
}
