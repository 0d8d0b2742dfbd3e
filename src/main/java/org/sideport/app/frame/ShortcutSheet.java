package org.sideport.app.frame;

import java.util.Locale;
import javafx.scene.Node;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Screen;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;

/** All keys on one sheet, made from {@link Shortcut} and the procedure's own keys. */
final class ShortcutSheet extends Dialog<ButtonType> {

    ShortcutSheet(Window owner, Texts texts, @Nullable Procedure procedure) {
        initOwner(owner);
        setTitle(texts.get("sheet.title"));
        setHeaderText(null);
        VBox left = new VBox(Ui.STEP * 2, part(texts, Shortcut.Scope.PICTURE), part(texts, Shortcut.Scope.MARKING));
        VBox middle = new VBox(
                Ui.STEP * 2,
                part(texts, Shortcut.Scope.REVIEW),
                part(texts, Shortcut.Scope.REFINE),
                part(texts, Shortcut.Scope.COMPARE),
                part(texts, Shortcut.Scope.WINDOW));
        HBox columns = new HBox(Ui.STEP * 3, left, middle, part(texts, Shortcut.Scope.TIMELINE));
        if (procedure != null) {
            columns.getChildren().add(phases(texts, procedure));
        }
        getDialogPane().setContent(Ui.styled(new Scrolled(Ui.styled(columns, "padded")), "edge-to-edge"));
        getDialogPane().getButtonTypes().setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
    }

    private static VBox part(Texts texts, Shortcut.Scope scope) {
        GridPane grid = grid();
        int row = 0;
        for (Shortcut shortcut : Shortcut.values()) {
            if (shortcut.scope() == scope) {
                add(grid, row++, shortcut.keysText(), texts.get(shortcut.textKey()));
            }
        }
        if (scope == Shortcut.Scope.MARKING) {
            add(grid, row, texts.get("sheet.digits"), texts.get("sheet.digits.text"));
        }
        return new VBox(Ui.STEP / 2, Ui.label(texts.get("scope." + scope.name()), "section"), grid);
    }

    private static VBox phases(Texts texts, Procedure procedure) {
        GridPane grid = grid();
        int row = 0;
        for (Procedure.Term term : procedure.terms()) {
            if (!term.key().isEmpty()) {
                String name = term.phase().idle() ? texts.get("palette.idle") : term.name();
                add(grid, row++, term.key().toUpperCase(Locale.ROOT), term.isStep() ? "   " + name : name);
            }
        }
        return new VBox(Ui.STEP / 2, Ui.label(texts.get("review.tab.phases"), "section"), grid);
    }

    private static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP);
        grid.setVgap(2);
        return grid;
    }

    private static void add(GridPane grid, int row, String keys, String text) {
        Label cap = Ui.label(keys, "key-cap");
        cap.setMinWidth(Region.USE_PREF_SIZE);
        Label words = Ui.label(text, "small");
        words.setMinWidth(Region.USE_PREF_SIZE);
        grid.add(cap, 0, row);
        grid.add(words, 1, row);
    }

    /** As large as its content, but never larger than the screen. */
    private static final class Scrolled extends ScrollPane {

        private static final double MARGIN = 32;
        /** Room for the bars to scroll with, so that one does not call for the other. */
        private static final double BARS = 16;

        Scrolled(Node content) {
            super(content);
        }

        @Override
        protected double computePrefWidth(double height) {
            double room = Screen.getPrimary().getVisualBounds().getWidth() - MARGIN;
            return Math.min(getContent().prefWidth(-1) + BARS, room);
        }

        /** Without it the theme holds a dialog to a narrower width. */
        @Override
        protected double computeMinWidth(double height) {
            return computePrefWidth(height);
        }

        @Override
        protected double computePrefHeight(double width) {
            double room = Screen.getPrimary().getVisualBounds().getHeight() - 4 * MARGIN;
            return Math.min(getContent().prefHeight(-1) + BARS, room);
        }
    }
}
