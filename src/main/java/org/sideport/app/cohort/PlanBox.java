package org.sideport.app.cohort;

import java.util.List;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.sideport.app.Ui;
import org.sideport.app.progress.CardGrid;
import org.sideport.app.progress.ChartKit;
import org.sideport.chart.Chart;
import org.sideport.stats.Outcome;
import org.sideport.workflow.MarkingPlan;
import org.sideport.workflow.progress.PlanCharts;
import org.sideport.workflow.progress.ProgressWords;

/** How much marking a decision takes: in a sentence, drawn, and what the coefficients mean. */
final class PlanBox extends VBox {

    private static final double TALL = 300;
    private static final double WIDE = 440;
    private static final double WIDEST = 760;

    PlanBox(MarkingPlan plan, ChartKit kit) {
        super(Ui.STEP);
        setId("cohort-planner");
        PlanCharts drawn = new PlanCharts(
                new ProgressWords(kit.texts().locale(), kit.texts().language()::dressed));
        Label says = Ui.wrapped(drawn.sentence(plan), "section");
        says.setId("cohort-plan");
        getChildren().add(says);
        drawn.standing(plan).forEach(line -> getChildren().add(Ui.wrapped(line)));
        getChildren().add(Ui.wrapped(kit.texts().get("cohort.minutes.why"), "small", "text-muted"));
        CardGrid grid = new CardGrid(WIDE, WIDEST);
        for (Chart chart : drawn.all(plan)) {
            grid.getChildren()
                    .add(kit.card(
                            chart, TALL, List.of(), chart.note(), plan.rubric().id()));
        }
        getChildren().add(grid);
        if (plan.found() instanceof Outcome.Found<MarkingPlan.Found> found) {
            getChildren().add(Ui.wrapped(drawn.meanings().get(drawn.meanings().size() - 1), "text-muted"));
            found.value()
                    .study()
                    .warnings()
                    .forEach(w -> getChildren()
                            .add(Ui.wrapped(kit.texts().sentence(kit.texts().said(w)), "small", "text-muted", "data")));
        } else {
            drawn.meanings().forEach(words -> getChildren().add(Ui.wrapped(words, "small", "text-muted")));
        }
    }
}
