package org.sideport.app.cohort;

import java.util.List;
import javafx.geometry.HPos;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.progress.ChartKit;
import org.sideport.app.standard.Figure;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

/** How severe assessors are beside the others of the same cases, and how often they agree. */
final class AssessorsBox extends VBox {

    private static final double TALL = 320;

    private final Texts texts;

    AssessorsBox(CohortView view, ChartKit kit) {
        super(Ui.STEP);
        this.texts = kit.texts();
        setId("cohort-assessors-part");
        if (view.assessors().isEmpty()) {
            getChildren()
                    .add(new EmptyState(
                            Feather.USERS,
                            texts.get("cohort.assessors.none"),
                            texts.get("cohort.assessors.none.text")));
            return;
        }
        new UnitCharts(new ProgressWords(texts.locale(), texts.language()::dressed))
                .assessors(view)
                .ifPresentOrElse(
                        chart -> getChildren()
                                .add(kit.card(
                                        chart,
                                        TALL,
                                        List.of(chart.sentence()),
                                        chart.note(),
                                        view.rubric().id())),
                        () -> getChildren().add(Ui.wrapped(texts.get("cohort.assessors.alone"))));
        CohortView.Agreement agreement = view.agreement();
        if (agreement != null) {
            getChildren()
                    .add(Ui.wrapped(texts.get(
                            "cohort.agreement",
                            Figure.percent(agreement.exact()),
                            Figure.percent(agreement.withinOne()),
                            agreement.comparisons())));
        }
        getChildren().add(table(view));
    }

    private GridPane table(CohortView view) {
        GridPane grid = new GridPane();
        grid.setId("cohort-assessors");
        grid.setHgap(2 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        String[] heads = {"decision.assessor", "cohort.marks", "cohort.shared", "cohort.difference", "cohort.limits"};
        for (int i = 0; i < heads.length; i++) {
            grid.add(Ui.label(texts.get(heads[i]), "small", "text-muted"), i, 0);
        }
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
                            : texts.get(
                                    "cohort.fromTo",
                                    Figure.number(percent(of.lower()), 1),
                                    Figure.number(percent(of.upper()), 1)));
            row++;
        }
        return grid;
    }

    private static @Nullable Double percent(@Nullable Double share) {
        return share == null ? null : (Double) (100 * share);
    }

    private static void number(GridPane grid, int column, int row, String text) {
        Label label = Ui.label(text, "digits");
        GridPane.setHalignment(label, HPos.RIGHT);
        grid.add(label, column, row);
    }
}
