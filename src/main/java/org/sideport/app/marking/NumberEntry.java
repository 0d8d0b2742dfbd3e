package org.sideport.app.marking;

import java.math.BigDecimal;
import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ItemScore;
import org.sideport.model.Rubric;

/** Where the number of a counted or measured item is entered, with what each number is worth in sight. */
final class NumberEntry extends VBox {

    private final ItemMarking model;
    private final Texts texts;
    private final Rubric.Item item;
    private final TextField field = new TextField();
    private final HBox entry;
    private final List<Label> bands;

    NumberEntry(ItemMarking model, Texts texts, Rubric.Item item) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        this.item = item;
        field.setId("value-" + item.id());
        field.setPrefColumnCount(6);
        field.getStyleClass().addAll("digits", "small");
        field.setOnAction(event -> {
            model.markValue(item, field.getText());
            requestFocus();
        });
        field.textProperty().addListener((property, old, now) -> {
            if (field.isFocused() && isTaken(now)) {
                model.markValue(item, now);
            }
        });
        field.focusedProperty().addListener((property, old, now) -> {
            if (now) {
                model.focus(item);
            } else if (!field.getText().equals(shown(model.scoreOf(item)))) {
                model.markValue(item, field.getText());
            }
        });
        entry = new HBox(Ui.STEP / 2, field);
        entry.setAlignment(Pos.CENTER_LEFT);
        if (item.kind() == Rubric.Kind.COUNT) {
            entry.getChildren().addAll(step(-1), step(1));
        }
        if (!item.unit().isEmpty()) {
            entry.getChildren().add(Ui.label(item.unit(), "small", "text-muted"));
        }
        if (item.quantity() == Rubric.Quantity.PHASE_TIME) {
            Button take = Ui.button("take-" + item.id(), Feather.CLOCK, texts.get("item.value.fromTags"), () -> {
                requestFocus();
                model.focus(item);
                model.markFromTags(item);
            });
            take.getStyleClass().add("small");
            take.setFocusTraversable(false);
            entry.getChildren().add(take);
        }
        bands = java.util.stream.IntStream.range(0, item.bands().size())
                .mapToObj(this::band)
                .toList();
        getChildren().add(entry);
        getChildren().addAll(bands);
    }

    private Button step(int by) {
        String key = by < 0 ? "item.value.fewer" : "item.value.more";
        Button button = Ui.iconButton(
                (by < 0 ? "fewer-" : "more-") + item.id(),
                by < 0 ? Feather.MINUS : Feather.PLUS,
                texts.get(key),
                () -> {
                    requestFocus();
                    model.focus(item);
                    model.markValue(item, Long.toString(Math.max(0, count() + by)));
                });
        button.getStyleClass().add("small");
        return button;
    }

    /** True for a whole number where one is counted, and so on: what is only begun is not said to be wrong. */
    private boolean isTaken(String text) {
        try {
            return item.takes(Double.parseDouble(text.strip().replace(',', '.')));
        } catch (NumberFormatException begun) {
            return false;
        }
    }

    /** One less than nothing is nothing; the first "more" makes one. */
    private long count() {
        return model.scoreOf(item) instanceof ItemScore.Marked marked && marked.value() != null
                ? Math.round(marked.value())
                : 0;
    }

    private Label band(int i) {
        Rubric.Band band = item.bands().get(i);
        String range = range(i);
        String points = texts.get("item.band", range, band.points());
        return Ui.wrapped(band.text().isEmpty() ? points : points + " · " + band.text(), "small", "band");
    }

    private String range(int i) {
        Rubric.Band band = item.bands().get(i);
        boolean last = i == item.bands().size() - 1;
        if (item.kind() == Rubric.Kind.COUNT) {
            long from = Math.round(band.from());
            long to = last ? from : Math.round(item.bands().get(i + 1).from()) - 1;
            return last
                    ? texts.get("item.band.from", plain(from))
                    : from == to ? plain(from) : plain(from) + "–" + plain(to);
        }
        return last
                ? texts.get("item.band.from", plain(band.from()))
                : texts.get(
                        "item.band.below",
                        plain(band.from()),
                        plain(item.bands().get(i + 1).from()));
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private static String shown(@Nullable ItemScore score) {
        return score instanceof ItemScore.Marked marked && marked.value() != null ? plain(marked.value()) : "";
    }

    /** Shows the mark as it is stored. */
    void show(@Nullable ItemScore score, boolean closed) {
        if (!field.isFocused()) {
            field.setText(shown(score));
        }
        entry.setDisable(closed);
        Rubric.Band reached =
                score instanceof ItemScore.Marked marked && marked.value() != null ? item.band(marked.value()) : null;
        for (int i = 0; i < bands.size(); i++) {
            boolean here = item.bands().get(i).equals(reached);
            bands.get(i).pseudoClassStateChanged(javafx.css.PseudoClass.getPseudoClass("selected"), here);
        }
    }

    void edit() {
        field.requestFocus();
        field.selectAll();
    }
}
