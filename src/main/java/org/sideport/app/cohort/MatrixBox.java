package org.sideport.app.cohort;

import java.time.LocalDate;
import java.util.Locale;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.standard.Figure;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.CohortView.Cell;
import org.sideport.workflow.CohortView.Competency;

/** Trainees by competencies. A bar behind each mean says how much; no colour says how good. Each cell opens its marks. */
final class MatrixBox extends VBox {

    private final CohortView view;
    private final CohortViewModel model;
    private final Texts texts;

    MatrixBox(CohortView view, CohortViewModel model, Texts texts) {
        super(Ui.STEP);
        this.view = view;
        this.model = model;
        this.texts = texts;
        ScrollPane wide = Ui.styled(new ScrollPane(grid()), "edge-to-edge");
        wide.setId("cohort-matrix-scroll");
        wide.setVbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        wide.setFitToHeight(true);
        getChildren().addAll(wide, Ui.wrapped(texts.get("cohort.cell", CohortView.FEWEST), "small", "text-muted"));
    }

    private GridPane grid() {
        GridPane grid = new GridPane();
        grid.setId("cohort-matrix");
        grid.setHgap(1.5 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        String[] heads = {"decision.trainee", "cohort.cases", "cohort.whole"};
        for (int i = 0; i < heads.length; i++) {
            Label head = Ui.label(texts.get(heads[i]), "small", "domain-title", "matrix-head");
            head.setMinWidth(Region.USE_PREF_SIZE);
            grid.add(head, i, 0);
        }
        for (int i = 0; i < view.competencies().size(); i++) {
            Label head = Ui.wrapped(view.competencies().get(i).title(), "small", "domain-title", "matrix-head");
            head.setMinHeight(Region.USE_PREF_SIZE);
            grid.add(head, 3 + i, 0);
        }
        int row = 1;
        for (CohortView.Row of : view.rows()) {
            Label name = Ui.label(of.trainee(), "data");
            name.setMinWidth(Region.USE_PREF_SIZE);
            grid.add(name, 0, row);
            grid.add(Ui.label(String.valueOf(of.cases()), "digits"), 1, row);
            grid.add(cell(of, of.whole(), null), 2, row);
            for (int i = 0; i < of.competencies().size(); i++) {
                grid.add(cell(of, of.competencies().get(i), view.competencies().get(i)), 3 + i, row);
            }
            row++;
        }
        return grid;
    }

    private Button cell(CohortView.Row row, Cell cell, @Nullable Competency of) {
        Double mean = cell.mean();
        Button button = Ui.styled(new Button(words(cell, of)), "matrix-cell", "digits", "data");
        button.setId("cell-" + row.trainee() + "-" + (of == null ? "whole" : of.id()));
        button.setMaxSize(Double.MAX_VALUE, Double.MAX_VALUE);
        button.setMinSize(Region.USE_PREF_SIZE, Region.USE_PREF_SIZE);
        button.setAlignment(Pos.CENTER_LEFT);
        LocalDate day = cell.lastDate();
        button.setAccessibleText(texts.get(
                "cohort.cell.says",
                row.trainee(),
                of == null ? texts.get("cohort.whole") : of.title(),
                words(cell, of).replace('\n', ' '),
                day == null ? Formats.UNKNOWN : texts.day(day)));
        button.setTooltip(new javafx.scene.control.Tooltip(button.getAccessibleText()));
        if (mean == null) {
            button.setDisable(true);
        } else if (cell.isEnough()) {
            // tokens of the theme, so that it is right on light and dark; the length says the share
            String share = String.format(Locale.ROOT, "%.1f%%", 100 * mean);
            button.setStyle("-fx-background-color: linear-gradient(to right, -color-border-default " + share
                    + ", -color-bg-subtle " + share + ");");
        } else {
            button.getStyleClass().add("too-few");
        }
        button.setOnAction(event -> model.open(row.trainee(), of == null ? null : of.id()));
        return button;
    }

    private String words(Cell cell, @Nullable Competency of) {
        Double mean = cell.mean();
        if (mean == null) {
            return Formats.UNKNOWN;
        }
        String value = of == null || of.most() == 0 ? Figure.percent(mean) : Figure.number(mean * of.most(), 1);
        if (!cell.isEnough()) {
            return value + "\n" + texts.get("cohort.few", cell.n());
        }
        if (cell.lower() == null || cell.upper() == null) {
            return value + "\n" + texts.get("cohort.alike", cell.recent(), cell.n());
        }
        double most = of == null || of.most() == 0 ? 100 : of.most();
        int decimals = of == null || of.most() == 0 ? 0 : 1;
        return value + "\n"
                + texts.get(
                        "cohort.sure",
                        Figure.number(most * cell.lower(), decimals) + "–"
                                + Figure.number(most * cell.upper(), decimals),
                        cell.recent(),
                        cell.n())
                + (of == null && cell.lastDate() != null ? "\n" + texts.day(cell.lastDate()) : "");
    }
}
