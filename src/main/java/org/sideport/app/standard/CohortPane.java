package org.sideport.app.standard;

import java.io.File;
import java.util.stream.Collectors;
import javafx.geometry.HPos;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory.IntegerSpinnerValueFactory;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.Rubric;
import org.sideport.stats.Outcome;
import org.sideport.workflow.CohortView;

/** Trainees by competencies, missing and late work, how assessors differ, and how much marking a decision takes. */
public final class CohortPane implements ProgrammePane {

    private static final int MOST_CASES = 500;
    private static final int MOST_NAMED = 20;

    private final CohortViewModel model;
    private final Texts texts;
    private final ScrollPane node;
    private final VBox middle = new VBox(Ui.STEP);

    public CohortPane(CohortViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        VBox all = new VBox(
                2 * Ui.STEP, choices(), middle, Ui.wrapped(texts.get("cohort.caution"), "small", "text-muted"));
        all.getStyleClass().add("items");
        node = Ui.styled(new ScrollPane(all), "edge-to-edge");
        node.setId("cohort");
        node.setFitToWidth(true);
        model.viewProperty().addListener((property, old, now) -> show(now));
        show(model.viewProperty().get());
    }

    private FlowPane choices() {
        ComboBox<@Nullable Rubric> rubrics =
                StandardsPane.rubrics("cohort-rubric", texts, model.rubrics(), model.rubricProperty());
        Spinner<Integer> last = new Spinner<>(new IntegerSpinnerValueFactory(
                1, MOST_CASES, model.lastProperty().get()));
        last.setId("cohort-last");
        last.setPrefWidth(88);
        last.setAccessibleText(texts.get("cohort.last"));
        last.valueProperty()
                .addListener((property, old, now) -> model.lastProperty().set(now));
        // wraps where letters are large
        FlowPane box = new FlowPane(
                Ui.STEP,
                Ui.STEP,
                Ui.label(texts.get("standard.rubric"), "text-muted"),
                rubrics,
                Ui.label(texts.get("cohort.last"), "text-muted"),
                last,
                Ui.button("cohort-report", Feather.FILE_TEXT, texts.get("cohort.report.out"), this::writeReport));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void writeReport() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("cohort.report.out"));
        chooser.setInitialFileName("sideport-cohort.pdf");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("portfolio.kind"), "*.pdf"));
        File chosen = chooser.showSaveDialog(node.getScene().getWindow());
        if (chosen != null) {
            model.exportReport(chosen.toPath());
        }
    }

    private void show(@Nullable CohortView view) {
        if (view == null || view.rows().isEmpty()) {
            middle.getChildren()
                    .setAll(new EmptyState(Feather.USERS, texts.get("cohort.empty"), texts.get("cohort.empty.text")));
            return;
        }
        middle.getChildren().setAll(matrix(view), Ui.wrapped(texts.get("cohort.cell"), "small", "text-muted"));
        middle.getChildren().add(heading("cohort.work"));
        middle.getChildren()
                .add(Ui.wrapped(texts.get(
                        "cohort.missing",
                        view.missing().size(),
                        view.missing().stream()
                                        .limit(MOST_NAMED)
                                        .map(CohortView.Missing::caseCode)
                                        .collect(Collectors.joining(", "))
                                + (view.missing().size() > MOST_NAMED ? " …" : ""))));
        long late = view.work().stream().filter(CohortView.Work::late).count();
        middle.getChildren().add(Ui.wrapped(texts.get("cohort.open", view.work().size(), late)));
        if (late > 0) {
            middle.getChildren()
                    .add(Ui.wrapped(
                            view.work().stream()
                                            .filter(CohortView.Work::late)
                                            .limit(MOST_NAMED)
                                            .map(w -> w.caseCode() + " (" + w.assessor()
                                                    + (w.dueOn() == null ? "" : ", " + texts.day(w.dueOn())) + ")")
                                            .collect(Collectors.joining(", "))
                                    + (late > MOST_NAMED ? " …" : ""),
                            "data"));
        }
        middle.getChildren().addAll(heading("cohort.assessors"), assessors(view));
        CohortView.Agreement agreement = view.agreement();
        if (agreement != null) {
            middle.getChildren()
                    .add(Ui.wrapped(texts.get(
                            "cohort.agreement",
                            Figure.percent(agreement.exact()),
                            Figure.percent(agreement.withinOne()),
                            agreement.comparisons())));
        }
        Label plan = Ui.wrapped(plan(view));
        plan.setId("cohort-plan");
        middle.getChildren().addAll(heading("cohort.planner"), plan);
    }

    private Label heading(String key) {
        return Ui.label(texts.get(key), "section", "group-heading");
    }

    private GridPane matrix(CohortView view) {
        GridPane grid = grid("cohort-matrix");
        head(grid, 0, texts.get("decision.trainee"));
        head(grid, 1, texts.get("cohort.cases"));
        head(grid, 2, texts.get("cohort.whole"));
        for (int i = 0; i < view.rubric().domains().size(); i++) {
            Label label = Ui.wrapped(view.rubric().domains().get(i).title(), "small", "domain-title");
            label.setMaxWidth(128);
            grid.add(label, 3 + i, 0);
        }
        int row = 1;
        for (CohortView.Row of : view.rows()) {
            grid.add(Ui.label(of.trainee(), "data"), 0, row);
            number(grid, 1, row, String.valueOf(of.cases()));
            grid.add(cell(of.whole(), true), 2, row);
            for (int i = 0; i < of.competencies().size(); i++) {
                grid.add(cell(of.competencies().get(i), false), 3 + i, row);
            }
            row++;
        }
        return grid;
    }

    /** Mean, limits and n; for the whole the latest day too. */
    private VBox cell(CohortView.Cell cell, boolean withDay) {
        String limits = cell.lower() == null
                ? Formats.UNKNOWN
                : Figure.number(100 * cell.lower(), 0) + "–" + Figure.number(percent(cell.upper()), 0);
        VBox box = new VBox(
                Ui.label(Figure.percent(cell.mean()), "digits"),
                Ui.label(texts.get("cohort.sure", limits, cell.n()), "small", "text-muted"));
        if (withDay && cell.lastDate() != null) {
            box.getChildren().add(Ui.label(texts.day(cell.lastDate()), "small", "text-muted", "data"));
        }
        return box;
    }

    private static @Nullable Double percent(@Nullable Double share) {
        return share == null ? null : (Double) (100 * share);
    }

    private GridPane assessors(CohortView view) {
        GridPane grid = grid("cohort-assessors");
        head(grid, 0, texts.get("decision.assessor"));
        head(grid, 1, texts.get("cohort.marks"));
        head(grid, 2, texts.get("cohort.shared"));
        head(grid, 3, texts.get("cohort.difference"));
        head(grid, 4, texts.get("cohort.limits"));
        int row = 1;
        for (CohortView.Assessor of : view.assessors()) {
            grid.add(Ui.label(of.code(), "data"), 0, row);
            number(grid, 1, row, String.valueOf(of.marks()));
            number(grid, 2, row, String.valueOf(of.shared()));
            number(grid, 3, row, Figure.number(percent(of.difference()), 1));
            number(
                    grid,
                    4,
                    row,
                    of.lower() == null
                            ? Formats.UNKNOWN
                            : Figure.number(percent(of.lower()), 1) + " – " + Figure.number(percent(of.upper()), 1));
            row++;
        }
        return grid;
    }

    private String plan(CohortView view) {
        if (view.planner() instanceof Outcome.Refused<CohortView.Planner> refused) {
            return texts.get(
                    "cohort.plan.refused",
                    refused.refusal().why(),
                    refused.refusal().remedy());
        }
        CohortView.Planner planner = view.planner().orElseThrow();
        String wish = Figure.number(planner.wish(), 2);
        return planner.plans().isEmpty()
                ? texts.get("cohort.plan.never", wish)
                : texts.get(
                        "cohort.plan",
                        wish,
                        planner.plans().stream()
                                .map(p -> texts.get(
                                        "cohort.plan.one", p.cases(), p.assessorsEach(), Figure.number(p.minutes(), 0)))
                                .collect(Collectors.joining(texts.get("decision.or"))));
    }

    private static GridPane grid(String id) {
        GridPane grid = new GridPane();
        grid.setId(id);
        grid.setHgap(2 * Ui.STEP);
        grid.setVgap(Ui.STEP);
        return grid;
    }

    private static void head(GridPane grid, int column, String text) {
        grid.add(Ui.label(text, "small", "text-muted"), column, 0);
    }

    private static void number(GridPane grid, int column, int row, String text) {
        Label label = Ui.label(text, "digits");
        GridPane.setHalignment(label, HPos.RIGHT);
        grid.add(label, column, row);
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
