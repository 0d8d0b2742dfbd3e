package org.sideport.app.standard;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.workflow.StandardRounds;

/** One judge's sheet: a number for each item. Nobody else's numbers are on it. */
final class JudgeForm extends VBox {

    private static final double WIDTH_OF_ITEM = 520;

    private final Map<String, TextField> fields = new LinkedHashMap<>();

    JudgeForm(StandardsViewModel model, StandardRounds.Sheet sheet, Texts texts, Notices notices) {
        super(Ui.STEP);
        setId("judge-form");
        getChildren()
                .addAll(
                        Ui.label(
                                texts.get(
                                        "standard.sheet",
                                        sheet.judge(),
                                        sheet.round().number()),
                                "section"),
                        Ui.wrapped(texts.get("standard.sheet.how"), "text-muted"));
        GridPane grid = new GridPane();
        grid.setHgap(2 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        grid.getColumnConstraints().add(new ColumnConstraints(WIDTH_OF_ITEM));
        StandardRounds.View before = sheet.before();
        grid.addRow(
                0,
                Ui.label(texts.get("standard.item"), "small", "text-muted"),
                Ui.label(texts.get("standard.range"), "small", "text-muted"),
                Ui.label(texts.get("standard.points"), "small", "text-muted"),
                Ui.label(before == null ? "" : texts.get("standard.before"), "small", "text-muted"));
        int row = 1;
        for (Rubric.Item item : sheet.rubric().items()) {
            List<Integer> points = sheet.rubric().pointsOf(item);
            String range = points.get(0) + " – " + sheet.rubric().maximumOf(item);
            TextField field = new TextField();
            field.setId("judge-" + item.id());
            field.setPrefColumnCount(5);
            field.getStyleClass().add("digits");
            field.setAccessibleText(item.title() + ", " + range);
            Double own = sheet.points().get(item.id());
            field.setText(own == null ? "" : plain(own));
            field.setOnAction(event -> next(field));
            fields.put(item.id(), field);
            Label title = Ui.wrapped(item.title(), "item-title");
            title.setLabelFor(field);
            grid.addRow(
                    row++,
                    new VBox(title, anchors(sheet.rubric(), item, field)),
                    Ui.label(range, "digits", "text-muted"),
                    field,
                    earlier(before, item, texts));
        }
        HBox buttons = new HBox(
                Ui.STEP,
                Ui.styled(
                        Ui.button("judge-save", Feather.CHECK, texts.get("standard.sheet.save"), () -> {
                            try {
                                model.save(points());
                            } catch (InputException fault) {
                                notices.failed(fault);
                            }
                        }),
                        "accent"),
                Ui.button("judge-leave", null, texts.get("standard.sheet.leave"), model::leave));
        buttons.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(grid, buttons);
        sceneProperty().addListener((property, old, now) -> {
            if (now != null) {
                fields.values().iterator().next().requestFocus();
            }
        });
    }

    /** What each level looks like, for the item that is being judged. */
    private static Node anchors(Rubric rubric, Rubric.Item item, TextField field) {
        VBox box = new VBox();
        for (Rubric.Anchor anchor : item.anchors()) {
            String label = rubric.levels().stream()
                    .filter(level -> level.points() == anchor.points())
                    .map(level -> " " + level.label())
                    .findFirst()
                    .orElse("");
            box.getChildren()
                    .add(Ui.wrapped(
                            anchor.points() + label + (anchor.text().isEmpty() ? "" : ": " + anchor.text()),
                            "small",
                            "anchor"));
        }
        Ui.showIf(box, field.focusedProperty());
        return box;
    }

    private static Label earlier(StandardRounds.@Nullable View before, Rubric.Item item, Texts texts) {
        if (before == null) {
            return Ui.label("");
        }
        return before.items().stream()
                .filter(s -> s.item().id().equals(item.id()))
                .findFirst()
                .map(s -> Ui.label(
                        texts.get(
                                "standard.spread",
                                Figure.number(s.mean(), 2),
                                Figure.number(s.lowest(), 1),
                                Figure.number(s.highest(), 1)),
                        "digits",
                        "small",
                        "text-muted"))
                .orElseGet(() -> Ui.label(""));
    }

    private void next(TextField from) {
        List<TextField> all = List.copyOf(fields.values());
        int at = all.indexOf(from);
        if (at + 1 < all.size()) {
            all.get(at + 1).requestFocus();
        }
    }

    /** Items left empty are not judged yet. */
    private Map<String, Double> points() {
        Map<String, Double> points = new LinkedHashMap<>();
        fields.forEach((item, field) -> {
            if (!field.getText().isBlank()) {
                points.put(item, Figure.parse(field.getText()));
            }
        });
        return points;
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
    }
}
