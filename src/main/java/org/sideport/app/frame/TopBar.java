package org.sideport.app.frame;

import java.util.List;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.value.ObservableValue;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.text.Text;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/**
 * The bar at the top: the places one can go to, the case that is open, and what concerns the whole window. Words are never
 * cut: where the room is small, first the places' icons leave, then the program's name, then the places' words, which
 * their tooltips still say.
 */
final class TopBar extends HBox {

    /** What is shown, from much room to little. */
    private enum Room {
        ALL(true, true, true),
        NO_ICONS(true, false, true),
        NO_NAME(false, false, true),
        ICONS_ONLY(false, true, false);

        private final boolean name;
        private final boolean icons;
        private final boolean words;

        Room(boolean name, boolean icons, boolean words) {
            this.name = name;
            this.icons = icons;
            this.words = words;
        }
    }

    private static final double GAP = Ui.STEP * 2;

    private final Texts texts;
    private final Label name;
    private final HBox places = new HBox(2);
    private final ToggleGroup group = new ToggleGroup();
    private final ReadOnlyDoubleWrapper placesEnd = new ReadOnlyDoubleWrapper(0);
    private Room room = Room.ALL;

    /**
     * @param caseText the case that is open; empty while there is none
     * @param right stands at the right edge
     */
    TopBar(Texts texts, ObservableValue<String> caseText, List<Node> right) {
        super(GAP);
        this.texts = texts;
        getStyleClass().add("top-bar");
        setAlignment(Pos.CENTER_LEFT);
        name = Ui.label(texts.get("app.name"), "app-name");
        name.setMinWidth(USE_PREF_SIZE);
        places.setMinWidth(USE_PREF_SIZE);
        Label open = Ui.label("", "case-name");
        open.setId("current-case");
        open.textProperty().bind(caseText);
        getChildren().addAll(name, places, open, Ui.spring());
        getChildren().addAll(right);
        for (Node node : right) {
            if (node instanceof Region region) {
                region.setMinWidth(USE_PREF_SIZE);
            }
        }
    }

    /** Adds a place at the right of those before. */
    ToggleButton place(String id, Feather icon, String text, Shortcut key, Runnable go) {
        ToggleButton button = Ui.styled(new ToggleButton(text, new FontIcon(icon)), "place", "flat");
        button.setId("nav-" + id);
        button.setToggleGroup(group);
        button.setFocusTraversable(false);
        button.setMinWidth(USE_PREF_SIZE);
        button.setTooltip(new Tooltip(Ui.withKey(texts, key)));
        button.setAccessibleText(text);
        button.setOnAction(event -> go.run());
        places.getChildren().add(button);
        return button;
    }

    /** Where the places end, pixels from the left edge of the bar. */
    ReadOnlyDoubleProperty placesEndProperty() {
        return placesEnd.getReadOnlyProperty();
    }

    @Override
    protected void layoutChildren() {
        Room fits = Room.ICONS_ONLY;
        for (Room each : Room.values()) {
            if (needed(each) <= getWidth()) {
                fits = each;
                break;
            }
        }
        if (fits != room) {
            room = fits;
            name.setVisible(fits.name);
            name.setManaged(fits.name);
            ContentDisplay shown = !fits.words
                    ? ContentDisplay.GRAPHIC_ONLY
                    : fits.icons ? ContentDisplay.LEFT : ContentDisplay.TEXT_ONLY;
            buttons().forEach(button -> button.setContentDisplay(shown));
        }
        super.layoutChildren();
        placesEnd.set(places.getLayoutX() + places.getWidth());
    }

    private List<ToggleButton> buttons() {
        return places.getChildren().stream().map(ToggleButton.class::cast).toList();
    }

    /** Reckoned from the parts, whatever is shown now. */
    private double needed(Room with) {
        double sum =
                snappedLeftInset() + snappedRightInset() + (places.getChildren().size() - 1) * places.getSpacing();
        for (ToggleButton button : buttons()) {
            sum += Math.ceil(button.getInsets().getLeft())
                    + Math.ceil(button.getInsets().getRight())
                    + (with.icons ? Math.ceil(button.getGraphic().prefWidth(-1)) : 0)
                    + (with.words ? wordsOf(button) : 0)
                    + (with.icons && with.words ? button.getGraphicTextGap() : 0);
        }
        int shown = 0;
        for (Node child : getChildren()) {
            if (child == name ? with.name : child.isManaged()) {
                sum += child == places ? 0 : Math.ceil(child.prefWidth(-1));
                shown++;
            }
        }
        return sum + GAP * (shown - 1);
    }

    private static double wordsOf(ToggleButton button) {
        Text words = new Text(button.getText());
        words.setFont(button.getFont());
        return Math.ceil(words.getLayoutBounds().getWidth()) + 1;
    }
}
