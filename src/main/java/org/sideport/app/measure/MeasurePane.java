package org.sideport.app.measure;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javafx.beans.Observable;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.comment.TalkStyle;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.Measurement;
import org.sideport.model.WhiteToWhite;

/** What to measure, how wide the cornea is, and the results. */
public final class MeasurePane extends VBox {

    /** Pixels: a result and a half, more or less. */
    private static final double LEAST_FOR_RESULTS = 120;

    private final MeasureViewModel model;
    private final Texts texts;
    private final VBox results = new VBox(Ui.STEP);
    private final Map<Measurement, VBox> cards = new HashMap<>();

    public MeasurePane(MeasureViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("measure-pane");
        getStyleClass().add("padded");
        TalkStyle.dressed(this);
        ScrollPane scroll = Ui.styled(new ScrollPane(results), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setFocusTraversable(false);
        scroll.setMinHeight(LEAST_FOR_RESULTS);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        CheckBox zone = new CheckBox(texts.get("measure.zone"));
        zone.setId("central-zone");
        zone.getStyleClass().add("small");
        zone.setTooltip(new Tooltip(texts.get("measure.zone.tooltip")));
        zone.selectedProperty().bindBidirectional(model.zoneProperty());
        zone.setFocusTraversable(false);
        Button back = Ui.iconButton("put-back", Feather.CORNER_UP_LEFT, texts.get("measure.putBack"), model::putBack);
        back.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> !model.canPutBackProperty().get(), model.canPutBackProperty()));
        HBox below = new HBox(Ui.STEP, zone, Ui.spring(), back);
        below.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(width(), tools(), marking(), below, scroll, caution());
        model.all().addListener((Observable changed) -> rebuild());
        model.onFrameProperty().addListener((property, old, now) -> rebuild());
        // on a low screen a new result would lie below what is seen
        model.lastMadeProperty().addListener((property, old, now) -> {
            VBox card = now == null ? null : cards.get(now);
            if (card != null) {
                Ui.bringIntoView(scroll, card);
            }
        });
        rebuild();
    }

    private Label caution() {
        return Ui.wrapped(texts.get("measure.caution"), "small", "text-muted");
    }

    private VBox width() {
        TextField field = Ui.codeField("own-width", "11.71", "", model::setOwnWidth);
        field.setPrefColumnCount(5);
        Label means = Ui.wrapped("", "small", "text-muted");
        Runnable tell = () -> {
            WhiteToWhite width = model.widthProperty().get();
            if (width.own() && !field.isFocused()) {
                field.setText(String.format(Locale.ROOT, "%.2f", width.mm()));
            }
            means.setText(texts.get(
                    width.own() ? "measure.width.own" : "measure.width.mean",
                    number(width.mm(), 2),
                    number(width.sdMm(), 2)));
        };
        model.widthProperty().addListener((property, old, now) -> tell.run());
        tell.run();
        HBox row = new HBox(Ui.STEP, Ui.label(texts.get("measure.width")), field, Ui.label(texts.get("measure.mm")));
        row.setAlignment(Pos.CENTER_LEFT);
        return new VBox(Ui.STEP / 2, row, means);
    }

    private FlowPane tools() {
        FlowPane box = Ui.styled(new FlowPane(Ui.STEP / 2, Ui.STEP / 2), "measure-tools");
        for (MeasuredShape shape : MeasuredShape.values()) {
            ToggleButton tool = new ToggleButton(texts.get("measured." + shape.name()));
            tool.setId("measure-" + shape.id());
            tool.getStyleClass().add("small");
            tool.setFocusTraversable(false);
            tool.setOnAction(event -> {
                if (model.shapeProperty().get() == shape) {
                    model.cancel();
                } else {
                    model.begin(shape);
                }
                tool.setSelected(model.shapeProperty().get() == shape);
            });
            model.shapeProperty().addListener((property, old, now) -> tool.setSelected(now == shape));
            box.getChildren().add(tool);
        }
        return box;
    }

    private VBox marking() {
        StringBinding how = Bindings.createStringBinding(
                () -> {
                    MeasuredShape shape = model.shapeProperty().get();
                    return shape == null
                            ? ""
                            : texts.get(
                                    shape.isOutline() ? "measure.how.outline" : "measure.how." + shape.name(),
                                    model.points().size());
                },
                model.shapeProperty(),
                model.points());
        Label words = Ui.wrapped("", "small");
        words.setId("measure-how");
        words.textProperty().bind(how);
        Button done = Ui.button("measure-done", Feather.CHECK, texts.get("measure.done"), model::finish);
        done.getStyleClass().addAll("accent", "small");
        done.setFocusTraversable(false);
        done.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> {
                            MeasuredShape shape = model.shapeProperty().get();
                            return shape == null || model.points().size() < shape.fewestPoints();
                        },
                        model.shapeProperty(),
                        model.points()));
        Button back = Ui.button("measure-back", Feather.CORNER_UP_LEFT, texts.get("measure.back"), model::removeLast);
        Button cancel = Ui.button("measure-cancel", Feather.X, texts.get("cancel"), model::cancel);
        for (Button button : new Button[] {back, cancel}) {
            button.getStyleClass().add("small");
            button.setFocusTraversable(false);
        }
        VBox box = Ui.styled(
                new VBox(Ui.STEP, words, new FlowPane(Ui.STEP / 2, Ui.STEP / 2, done, back, cancel)), "comment-writer");
        box.setId("measure-marking");
        Ui.showIf(box, Bindings.createBooleanBinding(() -> model.shapeProperty().get() != null, model.shapeProperty()));
        return box;
    }

    private void rebuild() {
        results.getChildren().clear();
        cards.clear();
        if (model.all().isEmpty()) {
            results.getChildren().add(Ui.wrapped(texts.get("measure.empty"), "text-muted"));
        }
        List<Measurement> here = model.onFrameProperty().get();
        here.forEach(measurement -> results.getChildren().add(card(measurement)));
        List<Measurement> elsewhere =
                model.all().stream().filter(m -> !here.contains(m)).toList();
        if (!elsewhere.isEmpty()) {
            results.getChildren().add(Ui.label(texts.get("measure.elsewhere"), "small", "text-muted"));
        }
        elsewhere.forEach(measurement -> results.getChildren().add(card(measurement)));
    }

    private VBox card(Measurement measurement) {
        Hyperlink time = Ui.styled(new Hyperlink(measurement.frame().toClockText()), "digits", "small");
        time.setFocusTraversable(false);
        time.setOnAction(event -> model.go(measurement));
        HBox head = new HBox(
                Ui.STEP,
                Ui.label(texts.get("measured." + measurement.shape().name()), "section"),
                time,
                Ui.label(measurement.author(), "small", "text-muted"),
                Ui.spring());
        if (model.isOwn(measurement)) {
            head.getChildren()
                    .add(Ui.iconButton(
                            "remove-" + measurement.id(),
                            Feather.TRASH_2,
                            texts.get("measure.remove"),
                            () -> model.remove(measurement)));
        }
        head.setAlignment(Pos.CENTER_LEFT);
        VBox card = Ui.styled(new VBox(Ui.STEP / 2, head), "measure-result");
        cards.put(measurement, card);
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP);
        int row = 0;
        for (MeasuredValue value : measurement.values()) {
            grid.add(Ui.label(texts.get("value." + value.name()), "small", "text-muted"), 0, row);
            Label number = Ui.label(text(value), "digits", "small");
            number.setId(measurement.shape().id() + "-" + value.name());
            number.setMinWidth(USE_PREF_SIZE);
            Double lower = value.lower();
            Double upper = value.upper();
            if (lower != null && upper != null) {
                number.setTooltip(new Tooltip(
                        texts.get("measure.limits", number(lower, digits(value)), number(upper, digits(value)))));
            }
            grid.add(number, 1, row++);
        }
        card.getChildren().add(grid);
        measurement.warnings().forEach(w -> card.getChildren().add(Ui.wrapped(w, "small", "warning-note")));
        Label method = Ui.wrapped(measurement.method(), "small", "text-muted");
        method.setVisible(false);
        method.setManaged(false);
        Hyperlink how = Ui.styled(new Hyperlink(texts.get("measure.method")), "small");
        how.setOnAction(event -> {
            method.setVisible(!method.isVisible());
            method.setManaged(method.isVisible());
        });
        card.getChildren().addAll(how, method);
        return card;
    }

    private String text(MeasuredValue value) {
        int digits = digits(value);
        Double se = value.se();
        String number = number(value.value(), digits);
        String error = se == null ? "" : error(se, digits);
        if (value.unit().isEmpty()) {
            return se == null ? number : texts.get("measure.ratio", number, error);
        }
        String unit = texts.get("unit." + value.unit().replace("/", "By"));
        return se == null
                ? texts.get("measure.value", number, unit)
                : texts.get("measure.valueWithError", number, error, unit);
    }

    /** Never a bare 0: an error below the last digit is said to be below it. */
    private String error(double se, int digits) {
        double last = Math.pow(10, -digits);
        return se < last / 2 ? texts.get("measure.below", number(last, digits)) : number(se, digits);
    }

    private static int digits(MeasuredValue value) {
        return switch (value.unit()) {
            case "mm/px" -> 5;
            case "px", "degrees" -> 1;
            case "" -> 3;
            default -> 2;
        };
    }

    private static String number(double value, int digits) {
        return String.format(Locale.ROOT, "%." + digits + "f", value);
    }
}
