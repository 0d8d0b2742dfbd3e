package org.sideport.app.compare;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.geometry.HPos;
import javafx.scene.Scene;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.FxThread;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.timing.PublishedDurations.Group;
import org.sideport.timing.PublishedDurations.Place;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.Comparison.Orientation;
import org.sideport.workflow.Comparison.Row;
import org.sideport.workflow.Comparison.Standing;
import org.sideport.workflow.Comparison.Time;
import org.sideport.workflow.ComputeTimings.Level;

/** How long each phase took on either side, with what it may be held against; never a verdict. */
final class DifferencePane extends VBox {

    private static final int COLUMNS = 6;
    private static final double WIDE = 1700;

    /** Narrower names would be broken within their words, pixels. */
    private static final double LEAST_FOR_NAMES = 88;

    private final CompareViewModel model;
    private final Texts texts;
    private final GridPane grid = new GridPane();
    /** What the table takes with each name on one line, pixels. */
    private final DoubleProperty whole = new SimpleDoubleProperty(0);

    private final ComboBox<Optional<Group>> reference = new ComboBox<>();
    private final Label source = Ui.wrapped("", "small", "text-muted");
    private final Label unsure;

    DifferencePane(CompareViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("difference");
        getStyleClass().addAll("difference", "padded");
        // a wide window has room for all columns beside the pictures
        sceneProperty().flatMap(Scene::widthProperty).addListener((property, old, now) -> {
            getStyleClass().remove("roomy");
            if (now != null && now.doubleValue() >= WIDE) {
                getStyleClass().add("roomy");
            }
        });
        grid.setHgap(Ui.STEP);
        grid.setVgap(2);
        ColumnConstraints name = new ColumnConstraints();
        name.setHgrow(Priority.ALWAYS);
        name.setMinWidth(LEAST_FOR_NAMES);
        grid.getColumnConstraints().add(name);
        for (int i = 1; i < COLUMNS; i++) {
            ColumnConstraints number = new ColumnConstraints();
            number.setHalignment(HPos.RIGHT);
            grid.getColumnConstraints().add(number);
        }
        ScrollPane scroll = Ui.styled(new ScrollPane(grid), "edge-to-edge");
        // the pane as wide as the names, or names on two lines; moved sideways only where letters are very large
        scroll.setFitToWidth(true);
        scroll.prefViewportWidthProperty().bind(whole);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        unsure = Ui.wrapped(texts.get("compare.unsure"), "small", "text-muted");
        unsure.managedProperty().bind(unsure.visibleProperty());
        source.managedProperty().bind(source.visibleProperty());
        FlowPane tools = new FlowPane(Ui.STEP, Ui.STEP, levels(), reference());
        getChildren()
                .addAll(tools, scroll, unsure, source, Ui.wrapped(texts.get("compare.caution"), "small", "text-muted"));
        model.comparisonProperty().addListener((property, old, now) -> changed(now));
        changed(model.comparisonProperty().get());
    }

    private HBox levels() {
        ToggleGroup group = new ToggleGroup();
        HBox box = Ui.styled(new HBox(), "segmented");
        for (Level level : Level.values()) {
            ToggleButton button = new ToggleButton(texts.get("times.level." + level.name()));
            button.setId("compare-" + level.name().toLowerCase(Locale.ROOT));
            button.getStyleClass().add(level == Level.PHASE ? "left-pill" : "right-pill");
            button.setMinWidth(Region.USE_PREF_SIZE);
            button.setToggleGroup(group);
            button.setTooltip(new Tooltip(texts.get("compare.level." + level.name())));
            button.setFocusTraversable(false);
            button.setSelected(model.levelProperty().get() == level);
            button.setOnAction(event -> {
                button.setSelected(true);
                model.levelProperty().set(level);
            });
            box.getChildren().add(button);
        }
        return box;
    }

    private ComboBox<Optional<Group>> reference() {
        reference.setId("reference");
        reference.setFocusTraversable(false);
        reference.setTooltip(new Tooltip(texts.get("compare.reference")));
        reference.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable Optional<Group> group) {
                return group == null || group.isEmpty()
                        ? texts.get("compare.reference.exemplars")
                        : group.get().title();
            }

            @Override
            public Optional<Group> fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        reference.setOnAction(event -> rebuild(model.comparisonProperty().get()));
        return reference;
    }

    /** What the times are held against; {@code null} for our own exemplars. */
    private @Nullable Group group() {
        Optional<Group> chosen = reference.getValue();
        return chosen == null ? null : chosen.orElse(null);
    }

    private void changed(@Nullable Comparison now) {
        Group chosen = group();
        List<Group> groups = now == null
                ? List.of()
                : now.published().groups().stream()
                        .filter(g -> g.procedure().equals(now.procedure().id()))
                        .toList();
        reference.getItems().clear();
        reference.getItems().add(Optional.empty());
        groups.forEach(each -> reference.getItems().add(Optional.of(each)));
        reference.setValue(chosen != null && groups.contains(chosen) ? Optional.of(chosen) : Optional.<Group>empty());
        rebuild(now);
    }

    private void rebuild(@Nullable Comparison now) {
        grid.getChildren().clear();
        source.setVisible(false);
        unsure.setVisible(false);
        if (now == null) {
            return;
        }
        Group group = group();
        heading(1, "compare.left", "compare.left.meaning");
        heading(2, "compare.right", "compare.right.meaning");
        heading(3, "compare.difference", "compare.difference.meaning");
        heading(4, "compare.ratio", "compare.ratio.meaning");
        boolean alone = group == null && now.rows().stream().allMatch(r -> r.standing() == null);
        if (!alone) {
            heading(
                    5,
                    group == null ? "compare.exemplars" : "compare.published",
                    group == null ? "compare.exemplars.meaning" : "compare.published.meaning");
        }
        int row = 1;
        for (Row each : now.rows()) {
            grid.add(name(now, each), 0, row);
            numbers(each, row);
            if (!alone) {
                reference(each, group, row);
            }
            row++;
        }
        for (Row each : now.totals()) {
            Label label = Ui.label(
                    texts.get(
                            switch (each.id()) {
                                case Comparison.OPERATING -> "times.operating";
                                case Comparison.ACTIVE -> "times.inPhases";
                                default -> "times.idle";
                            }),
                    "text-muted",
                    "small");
            grid.add(label, 0, row);
            numbers(each, row);
            row++;
        }
        boolean anyUnsure = now.rows().stream().anyMatch(Row::unsure)
                || now.totals().stream().anyMatch(Row::unsure);
        unsure.setVisible(anyUnsure);
        if (alone) {
            source.setText(texts.get("compare.exemplars.none"));
            source.setVisible(true);
        }
        if (group != null) {
            source.setText(texts.get("compare.source", group.title(), group.n(), group.source(), group.caveat()) + " "
                    + now.published().note());
            source.setVisible(true);
        }
        new FxThread().execute(() -> {
            grid.applyCss();
            whole.set(grid.prefWidth(-1));
        });
    }

    private HBox name(Comparison now, Row row) {
        Region dot = Ui.styled(new Region(), "dot");
        dot.setMinSize(8, 8);
        dot.setMaxSize(8, 8);
        dot.setStyle(Looks.style(now.procedure(), row.id()));
        Hyperlink go = Ui.styled(new Hyperlink(row.name()), "small", "phase-link");
        go.setWrapText(true);
        go.setId("go-" + row.id());
        go.setFocusTraversable(false);
        go.setTooltip(new Tooltip(texts.get("compare.go", row.name())));
        go.setOnAction(event -> {
            go.setVisited(false);
            model.toPhase(row.id());
        });
        HBox box = new HBox(Ui.STEP / 2, dot, go);
        box.setAlignment(javafx.geometry.Pos.CENTER_LEFT);
        return box;
    }

    private void numbers(Row row, int at) {
        number(1, at, text(row.left()));
        number(2, at, text(row.right()));
        number(3, at, difference(row));
        Double ratio = row.ratio();
        number(4, at, ratio == null ? Formats.UNKNOWN : String.format(Locale.ROOT, "%.2f", ratio));
    }

    private static String text(@Nullable Time time) {
        if (time == null) {
            return Formats.UNKNOWN;
        }
        return (time.unsure() && time.us() != null ? "≥ " : "") + Formats.length(time.us());
    }

    private static String difference(Row row) {
        Long us = row.differenceUs();
        if (us == null) {
            return Formats.UNKNOWN;
        }
        String length = Formats.length(Math.abs(us));
        String sign = length.equals(Formats.length(0L)) ? "" : us < 0 ? "−" : "+";
        return (row.unsure() ? "≈ " : "") + sign + length;
    }

    private void reference(Row row, @Nullable Group group, int at) {
        if (group == null) {
            Standing standing = row.standing();
            Label label = number(
                    5, at, standing == null ? "" : texts.get("compare.standing", standing.longer(), standing.n()));
            if (standing != null) {
                label.setTooltip(new Tooltip(texts.get(
                        "compare.standing.text",
                        standing.n(),
                        standing.longer(),
                        standing.shorter(),
                        Formats.percent(standing.rank().value()))));
            }
            return;
        }
        row.orientation().stream()
                .filter(o -> o.group().equals(group))
                .findFirst()
                .ifPresent(o -> published(o, at));
    }

    private void published(Orientation one, int at) {
        Place place = one.place();
        String mean = Formats.length(Math.round(one.row().meanSeconds() * 1e6));
        if (place == null) {
            number(5, at, texts.get("compare.mean", mean))
                    .setTooltip(new Tooltip(
                            texts.get("compare.mean.text", mean, one.group().n())));
            return;
        }
        Integer above = place.above();
        Integer notAbove = place.notAbove();
        String text = above == null
                ? texts.get("compare.upTo", String.valueOf(notAbove))
                : notAbove == null
                        ? texts.get("compare.beyond", String.valueOf(above))
                        : texts.get("compare.between", String.valueOf(above), String.valueOf(notAbove));
        number(5, at, text)
                .setTooltip(new Tooltip(
                        texts.get("compare.mean.text", mean, one.group().n())));
    }

    private void heading(int column, String key, String meaning) {
        Label label = Ui.label(texts.get(key), "small", "text-muted");
        label.setTooltip(new Tooltip(texts.get(meaning)));
        label.setMinWidth(Region.USE_PREF_SIZE);
        grid.add(label, column, 0);
    }

    private Label number(int column, int row, String text) {
        Label label = Ui.label(text, "digits", "small");
        label.setMinWidth(Region.USE_PREF_SIZE);
        grid.add(label, column, row);
        return label;
    }
}
