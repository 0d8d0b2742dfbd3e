package org.sideport.app;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableValue;
import javafx.event.EventHandler;
import javafx.geometry.Pos;
import javafx.geometry.Rectangle2D;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.util.converter.LocalDateStringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;

/** Small pieces that every screen uses, so that they look and behave alike. */
public final class Ui {

    /** The one spacing step, pixels. */
    public static final double STEP = 8;

    /** Size of a button's letters at 100 %, pixels. */
    private static final double USUAL_LETTERS = 14;

    private Ui() {}

    public static Button button(String id, @Nullable Feather icon, String text, Runnable action) {
        Button button = new Button(text);
        button.setId(id);
        if (icon != null) {
            button.setGraphic(new FontIcon(icon));
        }
        button.setOnAction(event -> action.run());
        button.setMinWidth(Region.USE_PREF_SIZE);
        return button;
    }

    /** A button with an icon only; its text is the tooltip. Takes no keyboard focus: it has a key of its own. */
    public static Button iconButton(String id, Feather icon, String tooltip, Runnable action) {
        Button button = button(id, icon, "", action);
        button.getStyleClass().addAll("button-icon", "flat");
        button.setTooltip(new Tooltip(tooltip));
        button.setAccessibleText(tooltip);
        button.setFocusTraversable(false);
        return button;
    }

    /** A field for a day in ISO form (yyyy-mm-dd): a form that swaps day and month from country to country misleads. */
    public static DatePicker day(String id, @Nullable LocalDate value) {
        DatePicker picker = new DatePicker();
        picker.setId(id);
        picker.setConverter(
                new LocalDateStringConverter(DateTimeFormatter.ISO_LOCAL_DATE, DateTimeFormatter.ISO_LOCAL_DATE));
        picker.setValue(value);
        return picker;
    }

    public static ToggleButton iconToggle(String id, Feather icon, String tooltip) {
        ToggleButton toggle = new ToggleButton();
        toggle.setId(id);
        toggle.setGraphic(new FontIcon(icon));
        toggle.getStyleClass().addAll("button-icon", "flat");
        toggle.setTooltip(new Tooltip(tooltip));
        toggle.setAccessibleText(tooltip);
        toggle.setFocusTraversable(false);
        return toggle;
    }

    /** The tooltip of something that has a key. */
    public static String withKey(Texts texts, Shortcut shortcut) {
        return texts.get("tooltip.withKey", texts.get(shortcut.textKey()), shortcut.keysText());
    }

    /**
     * Makes a window, whose scene has its size for letters of the usual size, larger with the chosen size of letters, as far
     * as the screen has room. To be called when the scene is dressed and not shown yet.
     */
    public static void growWithLetters(Stage stage) {
        Scene scene = stage.getScene();
        double factor = letters(scene.getRoot());
        Rectangle2D screen = Screen.getPrimary().getVisualBounds();
        if (factor > 1) {
            stage.setWidth(Math.min(screen.getWidth() - 2 * STEP, scene.getWidth() * factor));
            stage.setHeight(Math.min(screen.getHeight() - 2 * STEP, scene.getHeight() * factor));
        }
    }

    /** How large letters are beside the usual size, by a button of what is shown; 1 if it has none. */
    public static double letters(Parent shown) {
        shown.applyCss();
        return shown.lookup(".button") instanceof Button button
                ? button.getFont().getSize() / USUAL_LETTERS
                : 1;
    }

    public static <N extends Node> N styled(N node, String... styleClasses) {
        node.getStyleClass().addAll(styleClasses);
        return node;
    }

    public static Label label(String text, String... styleClasses) {
        return styled(new Label(text), styleClasses);
    }

    /** A control beside its name, which is never cut. */
    public static HBox named(String name, Node control) {
        Label label = label(name, "text-muted");
        label.setMinWidth(Region.USE_PREF_SIZE);
        label.setLabelFor(control);
        HBox box = new HBox(STEP, label, control);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    public static Label wrapped(String text, String... styleClasses) {
        Label label = styled(label(text, styleClasses), "prose");
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        return label;
    }

    /** Lets words take all the room of a row, however wide. */
    public static Label filling(Label words) {
        HBox.setHgrow(words, Priority.ALWAYS);
        words.getStyleClass().remove("prose");
        words.setMaxWidth(Double.MAX_VALUE);
        return words;
    }

    public static Region spring() {
        Region region = new Region();
        HBox.setHgrow(region, Priority.ALWAYS);
        return region;
    }

    /**
     * Disables {@code control} while {@code why} has a text, and shows that text as the tooltip: a disabled control shows
     * none itself, so its wrapper does.
     */
    public static StackPane reasoned(ButtonBase control, ObservableValue<@Nullable String> why) {
        StackPane wrapper = new StackPane(control);
        Tooltip tooltip = new Tooltip();
        control.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> why.getValue() != null && !why.getValue().isEmpty(), why));
        Runnable update = () -> {
            String text = Objects.requireNonNullElse(why.getValue(), "");
            tooltip.setText(text);
            control.setAccessibleHelp(text);
            if (text.isEmpty()) {
                Tooltip.uninstall(wrapper, tooltip);
            } else {
                Tooltip.install(wrapper, tooltip);
            }
        };
        why.addListener((property, old, now) -> update.run());
        update.run();
        return wrapper;
    }

    /** Shows a node and gives it room, or takes both away. */
    public static void showIf(Node node, ObservableValue<Boolean> condition) {
        node.visibleProperty().bind(condition);
        node.managedProperty().bind(condition);
    }

    /** Scrolls so that a node somewhere inside stands near the top of what is seen. */
    public static void bringIntoView(ScrollPane scroll, Node inside) {
        scroll.applyCss();
        scroll.layout();
        Node content = scroll.getContent();
        double top = content.sceneToLocal(inside.localToScene(inside.getBoundsInLocal()))
                .getMinY();
        double room = content.getBoundsInLocal().getHeight()
                - scroll.getViewportBounds().getHeight();
        scroll.setVvalue(room <= 0 ? 0 : Math.max(0, Math.min(1, (top - 3 * STEP) / room)));
    }

    /** Shows what is known and cannot be changed here, and says why. */
    public static void fixed(TextField field, String why) {
        field.setEditable(false);
        field.setFocusTraversable(false);
        field.setTooltip(new Tooltip(why));
        field.setAccessibleHelp(why);
    }

    /** Lets a key go to a field: the letter of that key is not written into it. */
    public static void focusByKey(TextField field) {
        EventHandler<KeyEvent> ownLetter = new EventHandler<>() {
            @Override
            public void handle(KeyEvent event) {
                if (event.getEventType() == KeyEvent.KEY_TYPED) {
                    event.consume();
                }
                if (event.getEventType() != KeyEvent.KEY_PRESSED) {
                    field.removeEventFilter(KeyEvent.ANY, this);
                }
            }
        };
        field.addEventFilter(KeyEvent.ANY, ownLetter);
        field.requestFocus();
        field.end();
    }

    /** A short field for a person's code that acts on Enter and on leaving it. */
    public static TextField codeField(String id, String prompt, String value, java.util.function.Consumer<String> use) {
        TextField field = new TextField(value);
        field.setId(id);
        field.setPromptText(prompt);
        field.setPrefColumnCount(7);
        field.getStyleClass().add("code-field");
        field.setOnAction(event -> {
            use.accept(field.getText());
            Node parent = field.getParent();
            if (parent != null) {
                parent.requestFocus();
            }
        });
        field.focusedProperty().addListener((property, old, now) -> {
            if (!now) {
                use.accept(field.getText());
            }
        });
        field.setOnMouseClicked(event -> {
            if (event.getClickCount() == 1 && field.getSelection().getLength() == 0) {
                field.selectAll();
            }
        });
        return field;
    }
}
