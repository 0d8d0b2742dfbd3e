package org.sideport.app.frame;

import java.util.Locale;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Settings;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.settings.CompactAction;
import org.sideport.app.settings.KeyLayout;
import org.sideport.app.settings.PedalKeys;
import org.sideport.model.Procedure;

/** All keys on one sheet, made from {@link Shortcut} and the procedure's own keys. */
final class ShortcutSheet extends Dialog<ButtonType> {

    private static final double AROUND = 64;
    private static final double LEAST = 400;

    ShortcutSheet(Window owner, Texts texts, Settings settings, @Nullable Procedure procedure) {
        initOwner(owner);
        setTitle(texts.get("keys.title"));
        setHeaderText(null);
        setResizable(true);
        VBox left = new VBox(Ui.STEP * 2, part(texts, Shortcut.Scope.PICTURE), part(texts, Shortcut.Scope.MARKING));
        VBox middle = new VBox(
                Ui.STEP * 2,
                part(texts, Shortcut.Scope.REVIEW),
                part(texts, Shortcut.Scope.REFINE),
                part(texts, Shortcut.Scope.COMPARE));
        VBox right = new VBox(Ui.STEP * 2, part(texts, Shortcut.Scope.TIMELINE), part(texts, Shortcut.Scope.RUBRIC));
        VBox last = new VBox(Ui.STEP * 2, part(texts, Shortcut.Scope.WINDOW), compact(texts, settings));
        FlowPane columns = new FlowPane(Ui.STEP * 4, Ui.STEP * 2, left, middle, right, last);
        columns.setPrefWrapLength(Math.max(LEAST, owner.getWidth() - AROUND));
        if (procedure != null) {
            columns.getChildren().add(phases(texts, procedure));
        }
        ScrollPane scroll = new ScrollPane(Ui.styled(columns, "padded"));
        scroll.setFitToWidth(true);
        scroll.setPrefSize(Math.max(LEAST, owner.getWidth() - AROUND), Math.max(LEAST, owner.getHeight() - 3 * AROUND));
        Ui.styled(getDialogPane(), "wide");
        getDialogPane().setContent(scroll);
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

    /** The keys of one hand, where they are switched on, and those of the pedal. */
    private static VBox compact(Texts texts, Settings settings) {
        KeyLayout layout = KeyLayout.of(settings.get(OneHand.SETTING, ""));
        PedalKeys pedals = PedalKeys.of(settings);
        GridPane grid = grid();
        int row = 0;
        for (CompactAction action : CompactAction.values()) {
            KeyCode key = action.key(layout);
            if (key != null) {
                add(grid, row++, key.getName(), texts.get(action.textKey()));
            }
            if (action.pedal() >= 0) {
                add(
                        grid,
                        row++,
                        pedals.key(action.pedal()).getName(),
                        texts.get("sheet.pedal", texts.get(action.textKey())));
            }
        }
        return new VBox(Ui.STEP / 2, Ui.label(texts.get("sheet.oneHand"), "section"), grid);
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
}
