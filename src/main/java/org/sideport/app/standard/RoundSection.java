package org.sideport.app.standard;

import java.util.Map;
import javafx.collections.ListChangeListener;
import javafx.geometry.HPos;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.StandardRounds;

/** The newest round of judges: open it, let each judge sit down in turn, close it, see how far they lie apart. */
final class RoundSection extends VBox {

    private final StandardsViewModel model;
    private final Texts texts;
    private final Notices notices;

    RoundSection(StandardsViewModel model, Texts texts, Notices notices) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        this.notices = notices;
        setId("round");
        model.rounds().addListener((ListChangeListener<StandardRounds.View>) change -> rebuild());
        model.sheetProperty().addListener((property, old, now) -> rebuild());
        rebuild();
    }

    private void rebuild() {
        getChildren().setAll(Ui.label(texts.get("standard.rounds"), "section"));
        StandardRounds.Sheet sheet = model.sheetProperty().get();
        if (sheet != null) {
            getChildren().add(new JudgeForm(model, sheet, texts, notices));
            return;
        }
        StandardRounds.View newest = model.newest();
        getChildren().add(Ui.wrapped(texts.get("standard.rounds.what"), "text-muted"));
        if (newest != null) {
            getChildren()
                    .add(Ui.label(texts.get(
                            newest.round().isOpen() ? "standard.round.open" : "standard.round.closed",
                            newest.round().number())));
            if (!newest.round().note().isEmpty()) {
                getChildren().add(Ui.wrapped(newest.round().note(), "text-muted", "data"));
            }
        }
        if (newest != null && newest.round().isOpen()) {
            getChildren().addAll(done(newest), sitting(), closing());
        } else {
            if (newest != null) {
                getChildren().add(spread(newest));
            }
            getChildren().add(opening(newest));
        }
    }

    private Node done(StandardRounds.View round) {
        VBox box = new VBox(Ui.STEP / 2);
        int all = round.rubric().items().size();
        for (Map.Entry<String, Integer> judge : round.done().entrySet()) {
            box.getChildren().add(Ui.label(texts.get("standard.done", judge.getKey(), judge.getValue(), all)));
        }
        return box;
    }

    private Node sitting() {
        TextField judge = field("judge-code", "standard.judge", model.ownCode(), 8);
        Runnable sit = () -> model.sit(judge.getText());
        judge.setOnAction(event -> sit.run());
        return row(
                name("standard.judge", judge),
                judge,
                Ui.styled(Ui.button("judge-sit", Feather.EDIT_3, texts.get("standard.sit"), sit), "accent"));
    }

    private Node closing() {
        TextField out = field("round-out", "standard.leaveOut", "", 10);
        TextField note = field("round-note", "standard.note", "", 24);
        return row(
                name("standard.leaveOut", out),
                out,
                name("standard.note", note),
                note,
                Ui.button(
                        "round-close",
                        Feather.LOCK,
                        texts.get("standard.close"),
                        () -> model.close(out.getText(), note.getText())));
    }

    private Node opening(StandardRounds.@Nullable View last) {
        TextField judges = field(
                "round-judges",
                "standard.judges",
                last == null ? "" : String.join(", ", last.round().judges()),
                20);
        TextField note = field("round-new-note", "standard.note", "", 20);
        return row(
                name("standard.judges", judges),
                judges,
                name("standard.note", note),
                note,
                Ui.button(
                        "round-open",
                        Feather.PLUS,
                        texts.get("standard.open"),
                        () -> model.open(judges.getText(), note.getText())));
    }

    private Node spread(StandardRounds.View round) {
        GridPane grid = new GridPane();
        grid.setId("round-spread");
        grid.setHgap(2 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        int column = 0;
        grid.add(Ui.label(texts.get("standard.item"), "small", "text-muted"), column++, 0);
        grid.add(Ui.label(texts.get("standard.most"), "small", "text-muted"), column++, 0);
        for (String judge : round.round().counted()) {
            grid.add(Ui.label(judge, "small", "text-muted", "data"), column++, 0);
        }
        grid.add(Ui.label(texts.get("standard.mean"), "small", "text-muted"), column++, 0);
        grid.add(Ui.label(texts.get("standard.sd"), "small", "text-muted"), column, 0);
        int row = 1;
        for (StandardRounds.ItemSpread item : round.items()) {
            column = 0;
            grid.add(Ui.label(item.item().title(), "item-title"), column++, row);
            number(grid, column++, row, String.valueOf(item.maximum()));
            for (String judge : round.round().counted()) {
                number(grid, column++, row, Figure.number(item.points().get(judge), 1));
            }
            number(grid, column++, row, Figure.number(item.mean(), 2));
            number(grid, column, row, Figure.number(item.sd(), 2));
            row++;
        }
        return grid;
    }

    private static void number(GridPane grid, int column, int row, String text) {
        Label label = Ui.label(text, "digits");
        GridPane.setHalignment(label, HPos.RIGHT);
        grid.add(label, column, row);
    }

    private Label name(String key, TextField field) {
        Label label = Ui.label(texts.get(key), "text-muted");
        label.setLabelFor(field);
        return label;
    }

    private TextField field(String id, String key, String value, int columns) {
        TextField field = new TextField(value);
        field.setId(id);
        field.setPrefColumnCount(columns);
        field.setAccessibleText(texts.get(key));
        return field;
    }

    private static FlowPane row(Node... nodes) {
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, nodes);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
