package org.sideport.app.cohort;

import java.io.File;
import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory;
import javafx.scene.control.SpinnerValueFactory.DoubleSpinnerValueFactory;
import javafx.scene.control.SpinnerValueFactory.IntegerSpinnerValueFactory;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.progress.ChartKit;
import org.sideport.app.standard.StandardsPane;
import org.sideport.workflow.CohortView.By;
import org.sideport.workflow.consent.LeftOut;

/** A cohort: matrix, missing and late work, planning, complications, times, assessors; one at a time. */
public final class CohortPane implements ProgrammePane {

    private static final int MOST_CASES = 500;
    private static final double MOST_MINUTES = 240;

    private final CohortViewModel model;
    private final ChartKit kit;
    private final Texts texts;
    private final Navigator navigator;
    private final BorderPane node = new BorderPane();
    private final VBox middle = new VBox(2 * Ui.STEP);
    private final FlowPane choices = new FlowPane(2 * Ui.STEP, Ui.STEP);
    private final ScrollPane scroll = Ui.styled(new ScrollPane(middle), "edge-to-edge");
    private final List<Node> usual;
    private final Node last;
    private final Node latest;
    private final Node by;
    private final Node wish;
    private final Node minutes;
    private final Node report;

    public CohortPane(CohortViewModel model, ChartKit kit, Navigator navigator) {
        this.model = model;
        this.kit = kit;
        this.texts = kit.texts();
        this.navigator = navigator;
        node.setId("cohort");
        middle.getStyleClass().add("items");
        scroll.setId("cohort-scroll");
        scroll.setFitToWidth(true);
        usual = List.of(Ui.named(
                texts.get("standard.rubric"),
                StandardsPane.rubrics("cohort-rubric", texts, model.rubrics(), model.rubricProperty())));
        last = Ui.named(texts.get("cohort.last"), last("cohort-last", "cohort.last"));
        latest = Ui.named(texts.get("cohort.latest"), last("cohort-latest", "cohort.latest"));
        by = Ui.named(texts.get("cohort.by"), by());
        wish = Ui.named(
                texts.get("cohort.wish"),
                number(
                        "cohort-wish",
                        0.5,
                        0.95,
                        model.wishProperty().get(),
                        0.05,
                        v -> model.wishProperty().set(v)));
        minutes = Ui.named(
                texts.get("cohort.minutes"),
                number(
                        "cohort-minutes",
                        1,
                        MOST_MINUTES,
                        model.minutesProperty().get(),
                        1,
                        v -> model.minutesProperty().set(v)));
        report = Ui.button("cohort-report", Feather.FILE_TEXT, texts.get("cohort.report.out"), this::writeReport);
        choices.setAlignment(Pos.CENTER_LEFT);
        VBox top = new VBox(Ui.STEP, sections(), choices);
        top.getStyleClass().add("toolbar");
        node.setTop(top);
        node.setCenter(scroll);
        model.sectionProperty().addListener((property, old, now) -> {
            choose(now);
            scroll.setVvalue(0);
        });
        model.shownProperty().addListener((property, old, now) -> show(now));
        model.loadedProperty()
                .addListener((property, old, now) -> show(model.shownProperty().get()));
        kit.theme()
                .fontSizeProperty()
                .addListener((property, old, now) -> show(model.shownProperty().get()));
        choose(model.sectionProperty().get());
        show(model.shownProperty().get());
    }

    private void writeReport() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("cohort.report.out"));
        chooser.setInitialFileName("sideport-cohort.pdf");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("portfolio.kind"), "*.pdf"));
        File chosen = chooser.showSaveDialog(node.getScene().getWindow());
        if (chosen != null) {
            model.exportReport(chosen.toPath(), texts);
        }
    }

    private FlowPane sections() {
        FlowPane box = new FlowPane(Ui.STEP / 2, Ui.STEP / 2);
        box.setId("cohort-sections");
        ToggleGroup group = new ToggleGroup();
        for (Section section : Section.values()) {
            ToggleButton button = Ui.styled(new ToggleButton(texts.get("cohort.section." + section.name())), "small");
            button.setId("cohort-section-" + section.name());
            button.setToggleGroup(group);
            button.setSelected(section == model.sectionProperty().get());
            button.setMinWidth(Region.USE_PREF_SIZE);
            button.setOnAction(event -> {
                button.setSelected(true);
                model.sectionProperty().set(section);
            });
            box.getChildren().add(button);
        }
        return box;
    }

    private Spinner<Integer> last(String id, String key) {
        Spinner<Integer> spinner = new Spinner<>(new IntegerSpinnerValueFactory(
                1, MOST_CASES, model.lastProperty().get()));
        spinner.setId(id);
        spinner.setPrefWidth(88);
        spinner.setAccessibleText(texts.get(key));
        spinner.valueProperty()
                .addListener((property, old, now) -> model.lastProperty().set(now));
        model.lastProperty()
                .addListener((property, old, now) -> spinner.getValueFactory().setValue(now.intValue()));
        return spinner;
    }

    private Spinner<Double> number(
            String id, double least, double most, double now, double step, java.util.function.DoubleConsumer use) {
        SpinnerValueFactory<Double> values = new DoubleSpinnerValueFactory(least, most, now, step);
        Spinner<Double> spinner = new Spinner<>(values);
        spinner.setId(id);
        spinner.setPrefWidth(96);
        spinner.setAccessibleText(texts.get(id.replace('-', '.')));
        // steps of a twentieth add up to a shade beside it
        spinner.valueProperty().addListener((property, old, value) -> use.accept(Math.round(100 * value) / 100.0));
        return spinner;
    }

    private ComboBox<By> by() {
        ComboBox<By> box = new ComboBox<>();
        box.setId("cohort-by");
        box.setAccessibleText(texts.get("cohort.by"));
        box.getItems().setAll(By.values());
        box.setConverter(new javafx.util.StringConverter<>() {
            @Override
            public String toString(@Nullable By of) {
                return of == null ? "" : texts.get("cohort.by." + of.name());
            }

            @Override
            public By fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        box.setValue(model.byProperty().get());
        box.setOnAction(event -> model.byProperty().set(box.getValue()));
        return box;
    }

    private void choose(Section section) {
        choices.getChildren().setAll(usual);
        switch (section) {
            case MATRIX -> choices.getChildren().addAll(last, by, report);
            case PLAN -> choices.getChildren().addAll(wish, minutes);
            case TIMES -> choices.getChildren().add(latest);
            case WORK, COMPLICATIONS, ASSESSORS -> {
                // the rubric alone
            }
        }
    }

    private void show(@Nullable Shown shown) {
        fill(shown);
        LeftOut leftOut = shown == null ? LeftOut.NONE : shown.leftOut();
        if (leftOut.cases() > 0) {
            Label label = Ui.wrapped(texts.get("consent.leftOut.assessment", leftOut.cases()), "text-muted");
            label.setId("cohort-left-out");
            middle.getChildren().add(0, label);
        }
    }

    private void fill(@Nullable Shown shown) {
        if (shown instanceof Shown.Matrix matrix && !matrix.view().rows().isEmpty()) {
            middle.getChildren().setAll(new MatrixBox(matrix.view(), model, texts), caution());
        } else if (shown instanceof Shown.Cell cell) {
            middle.getChildren().setAll(new CellBox(cell.marks(), model, texts, navigator));
        } else if (shown instanceof Shown.Work work && work.anyCases()) {
            middle.getChildren().setAll(new WorkBox(work.items(), texts, navigator));
        } else if (shown instanceof Shown.Plan plan) {
            middle.getChildren().setAll(new PlanBox(plan.plan(), kit));
        } else if (shown instanceof Shown.Complications complications
                && !complications.view().trainees().isEmpty()) {
            middle.getChildren().setAll(new ComplicationsBox(complications.view(), model, kit));
        } else if (shown instanceof Shown.Times times) {
            middle.getChildren().setAll(new TimesBox(times.view(), kit, navigator));
        } else if (shown instanceof Shown.Assessors assessors) {
            middle.getChildren().setAll(new AssessorsBox(assessors.view(), kit), caution());
        } else if (!model.loadedProperty().get()) {
            middle.getChildren().setAll(Ui.label(texts.get("progress.loading"), "text-muted"));
        } else {
            middle.getChildren()
                    .setAll(new EmptyState(
                            Feather.USERS,
                            texts.get("cohort.empty"),
                            texts.get("cohort.empty.text"),
                            Ui.button(
                                    "cohort-to-cases",
                                    Feather.LIST,
                                    texts.get("progress.toCases"),
                                    navigator::toCases)));
        }
    }

    private Label caution() {
        return Ui.wrapped(texts.get("cohort.caution"), "small", "text-muted");
    }

    @Override
    public String id() {
        return "cohort";
    }

    @Override
    public String title() {
        return texts.get("cohort.title");
    }

    @Override
    public Node node() {
        return node;
    }

    @Override
    public void shown() {
        model.load();
    }
}
