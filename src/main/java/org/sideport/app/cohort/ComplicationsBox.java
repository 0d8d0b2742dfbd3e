package org.sideport.app.cohort;

import java.util.List;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.progress.CardGrid;
import org.sideport.app.progress.ChartKit;
import org.sideport.app.standard.Figure;
import org.sideport.chart.Chart;
import org.sideport.stats.Interval;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.ComplicationsView.OfTrainee;
import org.sideport.workflow.UnitComplications;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

/** Complications in a funnel, as a table, and case by case where the log is stated to be complete. */
final class ComplicationsBox extends VBox {

    private static final double TALL = 340;
    private static final double WIDE = 440;

    private final Texts texts;
    private final CohortViewModel model;

    ComplicationsBox(ComplicationsView view, CohortViewModel model, ChartKit kit) {
        super(Ui.STEP);
        this.texts = kit.texts();
        this.model = model;
        setId("cohort-complications");
        UnitCharts charts = new UnitCharts(new ProgressWords(texts.locale(), texts.language()::dressed));
        CheckBox shared = new CheckBox(texts.get("cohort.shared.view", UnitComplications.USUAL_FEWEST));
        shared.setId("cohort-shared");
        shared.setWrapText(true);
        shared.setSelected(model.sharedProperty().get());
        shared.setOnAction(event -> model.sharedProperty().set(shared.isSelected()));
        getChildren().add(shared);
        Chart funnel = charts.funnel(view).orElse(null);
        if (funnel == null) {
            Label none = Ui.wrapped(charts.sentence(view));
            none.setId("cohort-no-funnel");
            getChildren().add(none);
        } else {
            getChildren().add(kit.card(funnel, TALL, List.of(funnel.sentence()), funnel.note(), "complications"));
        }
        getChildren()
                .addAll(
                        Ui.label(texts.get("cohort.each"), "section", "group-heading"),
                        Ui.wrapped(texts.get("cohort.complete.why"), "small", "text-muted"),
                        table(view));
        CardGrid grid = new CardGrid(WIDE);
        view.trainees()
                .forEach(one -> charts.watch(view, one)
                        .ifPresent(chart -> grid.getChildren()
                                .add(kit.card(chart, TALL, List.of(chart.sentence()), chart.note(), "complications"))));
        getChildren().add(grid);
    }

    private GridPane table(ComplicationsView view) {
        GridPane grid = new GridPane();
        grid.setId("cohort-complications-table");
        grid.setHgap(3 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        String[] heads = {
            "decision.trainee", "cohort.known", "cohort.failures", "cohort.share", "cohort.expected", "cohort.log"
        };
        for (int i = 0; i < heads.length; i++) {
            grid.add(Ui.label(texts.get(heads[i]), "small", "text-muted"), i, 0);
        }
        int row = 1;
        for (OfTrainee of : view.trainees()) {
            grid.add(Ui.label(of.trainee(), "data"), 0, row);
            if (of.masked()) {
                grid.add(Ui.label(texts.get("cohort.masked")), 1, row, 4, 1);
            } else {
                grid.add(Ui.label(of.known() + "/" + of.cases(), "digits"), 1, row);
                grid.add(Ui.label(String.valueOf(of.failures()), "digits"), 2, row);
                grid.add(Ui.label(Figure.percent(of.share()), "digits"), 3, row);
                grid.add(Ui.label(limits(of.inner()), "digits"), 4, row);
                CheckBox complete = new CheckBox(texts.get("cohort.log.complete"));
                complete.setId("complete-" + of.trainee());
                complete.setAccessibleText(texts.get("cohort.log.of", of.trainee()));
                complete.setSelected(model.isComplete(of.trainee()));
                complete.setOnAction(event -> model.setComplete(of.trainee(), complete.isSelected()));
                grid.add(complete, 5, row);
            }
            row++;
        }
        return grid;
    }

    private static String limits(@org.jspecify.annotations.Nullable Interval limits) {
        return limits == null
                ? Formats.UNKNOWN
                : Figure.number(100 * limits.lower(), 1) + "–" + Figure.percent(limits.upper());
    }
}
