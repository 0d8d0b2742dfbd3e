package org.sideport.app.frame;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.function.Consumer;
import java.util.function.Function;
import javafx.beans.binding.Bindings;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.geometry.VPos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.DirectoryChooser;
import javafx.stage.Window;
import javafx.util.StringConverter;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.AppContext;
import org.sideport.app.Formats;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.people.Session;
import org.sideport.app.settings.FontSize;
import org.sideport.app.settings.KeyLayout;
import org.sideport.app.settings.Language;
import org.sideport.app.settings.PedalKeys;

/** What each person sets for the own eyes and hands. All of it works at once and is kept. */
final class SettingsDialog extends Dialog<ButtonType> {

    /** Where the choice of recordings begins. */
    static final String RECORDINGS = "recordings.folder";

    /** Height of all that can be set, in sizes of a small letter. */
    private static final double LINES = 44;

    /** What stands around it in a window, pixels. */
    private static final double AROUND = 150;

    private static final double LEAST = 320;

    private final AppContext context;
    private final Settings settings;
    private final Texts texts;
    private final GridPane grid = new GridPane();
    private int row;

    /**
     * @param speak changes the language
     * @param keys shows the sheet of keys
     * @param first shows the first steps
     */
    SettingsDialog(Window owner, AppContext context, Consumer<Language> speak, Runnable keys, Runnable first) {
        this.context = context;
        this.settings = context.settings();
        this.texts = context.texts();
        initOwner(owner);
        setTitle(texts.get("settings.title"));
        setHeaderText(null);
        setResizable(true);
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP * 2);
        ColumnConstraints names = new ColumnConstraints();
        names.setMinWidth(Region.USE_PREF_SIZE);
        ColumnConstraints values = new ColumnConstraints();
        values.setHgrow(Priority.ALWAYS);
        grid.getColumnConstraints().setAll(names, values);
        line("settings.theme", theme());
        line("settings.size", sizes());
        line("settings.language", new LanguageChoice("settings-language", texts, chosen -> {
            close();
            speak.accept(chosen);
        }));
        if (context.me().signedIn()) {
            line("settings.session", session());
        }
        line("settings.role", new RoleChoice(settings, texts, () -> {}));
        line("settings.keys", keys(keys));
        line("settings.pedal", pedals());
        line("settings.recordings", recordings());
        Label player = Ui.wrapped(context.playerText().isEmpty() ? Formats.UNKNOWN : context.playerText(), "small");
        player.setId("settings-player");
        line("settings.player", player);
        Hyperlink steps = new Hyperlink(texts.get("settings.first"));
        steps.setId("settings-first");
        steps.setOnAction(event -> {
            close();
            first.run();
        });
        Label kept = Ui.wrapped(texts.get("settings.kept"), "small", "text-muted");
        ScrollPane scroll = new ScrollPane(Ui.styled(new VBox(Ui.STEP * 2, grid, steps, kept), "padded"));
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("settings");
        // all of it, where the window behind has the room
        scroll.prefHeightProperty()
                .bind(Bindings.createDoubleBinding(
                        () -> Math.min(LINES * player.getFont().getSize(), Math.max(LEAST, owner.getHeight() - AROUND)),
                        player.fontProperty()));
        getDialogPane().setContent(scroll);
        Ui.styled(getDialogPane(), "wide");
        getDialogPane().getButtonTypes().setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
    }

    private void line(String key, Node value) {
        Label name = Ui.label(texts.get(key));
        name.setMinWidth(Region.USE_PREF_SIZE);
        if (value instanceof javafx.scene.control.Control control && !(value instanceof Label)) {
            name.setLabelFor(control);
        }
        boolean lines = value instanceof VBox;
        GridPane.setValignment(name, lines ? VPos.TOP : VPos.CENTER);
        // beside the middle of the first line's field
        GridPane.setMargin(name, lines ? new Insets(Ui.STEP, 0, 0, 0) : Insets.EMPTY);
        grid.addRow(row++, name, value);
    }

    private static <T> ComboBox<T> choice(String id, T[] all, T now, Function<T, String> name, Consumer<T> use) {
        ComboBox<T> box = new ComboBox<>();
        box.setId(id);
        box.getItems().setAll(Arrays.asList(all));
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(T value) {
                return value == null ? "" : name.apply(value);
            }

            @Override
            public T fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        box.setValue(now);
        box.setOnAction(event -> use.accept(box.getValue()));
        return box;
    }

    private Node theme() {
        return choice(
                "settings-theme",
                new Boolean[] {false, true},
                context.theme().lightProperty().get(),
                light -> texts.get(light ? "settings.light" : "settings.dark"),
                light -> context.theme().lightProperty().set(light));
    }

    private Node session() {
        return choice(
                "settings-session",
                new Integer[] {2, 5, 10, 15, 30, 60},
                (int) settings.get(Session.MINUTES, Session.USUAL_MINUTES),
                minutes -> texts.get("settings.session.minutes", minutes),
                minutes -> settings.put(Session.MINUTES, minutes));
    }

    private Node sizes() {
        return choice(
                "settings-size",
                FontSize.values(),
                context.theme().fontSizeProperty().get(),
                size -> texts.get("settings.percent", size.percent()),
                size -> context.theme().fontSizeProperty().set(size));
    }

    private Node keys(Runnable sheet) {
        ComboBox<KeyLayout> box = choice(
                "settings-keys",
                KeyLayout.values(),
                KeyLayout.of(settings.get(OneHand.SETTING, "")),
                layout -> texts.get("settings.keys." + layout),
                layout -> settings.put(OneHand.SETTING, layout.name()));
        Hyperlink all = new Hyperlink(texts.get("settings.sheet"));
        all.setId("settings-sheet");
        all.setOnAction(event -> sheet.run());
        return new VBox(
                Ui.STEP / 2, centred(box, all), Ui.wrapped(texts.get("settings.keys.text"), "small", "text-muted"));
    }

    private static HBox centred(Node... nodes) {
        HBox line = new HBox(Ui.STEP, nodes);
        line.setAlignment(Pos.CENTER_LEFT);
        return line;
    }

    private Node pedals() {
        HBox fields = new HBox(Ui.STEP);
        fields.setAlignment(Pos.CENTER_LEFT);
        for (int i = 0; i < PedalKeys.PEDALS; i++) {
            int pedal = i;
            TextField field = new TextField(PedalKeys.of(settings).key(pedal).getName());
            field.setId("pedal-" + pedal);
            field.setEditable(false);
            field.setPrefColumnCount(5);
            field.setAccessibleText(texts.get("settings.pedal." + pedal));
            field.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
                KeyCode code = event.getCode();
                if (code != KeyCode.TAB && code != KeyCode.ESCAPE && !code.isModifierKey()) {
                    PedalKeys.put(settings, pedal, code);
                    field.setText(code.getName());
                    event.consume();
                }
            });
            fields.getChildren().add(field);
        }
        return new VBox(Ui.STEP / 2, fields, Ui.wrapped(texts.get("settings.pedal.text"), "small", "text-muted"));
    }

    private Node recordings() {
        TextField folder = new TextField(settings.get(RECORDINGS, ""));
        folder.setId("settings-recordings");
        folder.setPromptText(texts.get("settings.recordings.prompt"));
        folder.textProperty().addListener((property, old, now) -> settings.put(RECORDINGS, now.strip()));
        HBox.setHgrow(folder, Priority.ALWAYS);
        Button choose = Ui.button("settings-choose", Feather.FOLDER, texts.get("settings.choose"), () -> {
            DirectoryChooser chooser = new DirectoryChooser();
            chooser.setTitle(texts.get("settings.recordings"));
            File chosen = chooser.showDialog(getDialogPane().getScene().getWindow());
            if (chosen != null) {
                folder.setText(chosen.toString());
            }
        });
        Label missing = Ui.wrapped(texts.get("settings.recordings.missing"), "small", "warning-note");
        Runnable check = () -> {
            boolean wrong = !folder.getText().isBlank() && !isFolder(folder.getText());
            missing.setVisible(wrong);
            missing.setManaged(wrong);
        };
        folder.textProperty().addListener((property, old, now) -> check.run());
        check.run();
        return new VBox(Ui.STEP / 2, new HBox(Ui.STEP, folder, choose), missing);
    }

    private static boolean isFolder(String text) {
        try {
            return Files.isDirectory(Path.of(text.strip()));
        } catch (java.nio.file.InvalidPathException wrong) {
            return false;
        }
    }
}
