package org.sideport.app.assign;

import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TitledPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Formats;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.marking.MarkingViewModel;
import org.sideport.workflow.assign.MarkGap;
import org.sideport.workflow.assign.SelfAndAssessor;
import org.sideport.workflow.assign.SelfAndAssessor.Beside;
import org.sideport.workflow.assign.SelfAndAssessor.Sides;
import org.sideport.workflow.assign.SelfAndAssessor.State;

/** The trainee's own marks beside the assessors', once both are signed; else why they are not there. */
public final class GapPane extends TitledPane {

    private static final double HEIGHT = 220;

    private final MarkingViewModel model;
    private final SelfAndAssessor sides;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final VBox content = Ui.styled(new VBox(Ui.STEP), "padded");

    public GapPane(MarkingViewModel model, SelfAndAssessor sides, Background work, Notices notices, Texts texts) {
        this.model = model;
        this.sides = sides;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        setId("self-and-assessor");
        setText(texts.get("gap.title"));
        setExpanded(false);
        setAnimated(false);
        getStyleClass().add("dense");
        // the items above give way, not this
        setMinHeight(Region.USE_PREF_SIZE);
        ScrollPane scroll = Ui.styled(new ScrollPane(content), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setPrefHeight(HEIGHT);
        scroll.setMinHeight(HEIGHT / 2);
        setContent(scroll);
        expandedProperty().addListener((property, old, now) -> read());
        model.marksProperty().addListener((property, old, now) -> {
            if (old == null || now == null || old.isSigned() != now.isSigned()) {
                read();
            }
        });
    }

    private void read() {
        var open = model.current().opened();
        var rubric = model.rubricProperty().get();
        if (!isExpanded() || open == null || rubric == null) {
            show(null);
            return;
        }
        work.run(
                progress -> sides.of(open.code(), rubric.id()),
                found -> {
                    if (open.equals(model.current().opened())) {
                        show(found);
                    }
                },
                notices::failed);
    }

    private void show(@Nullable Sides found) {
        content.getChildren().clear();
        if (found == null) {
            return;
        }
        if (found.state() != State.BOTH) {
            Label why = Ui.wrapped(texts.get("gap.state." + found.state().name()), "text-muted");
            why.setId("gap-why-not");
            content.getChildren().add(why);
            return;
        }
        found.besides().forEach(beside -> content.getChildren().add(table(found, beside)));
        content.getChildren().add(Ui.wrapped(texts.get("gap.meaning"), "small", "text-muted"));
    }

    private VBox table(Sides found, Beside beside) {
        MarkGap gap = beside.gap();
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        row(
                grid,
                texts.get("gap.item"),
                texts.get("gap.self", found.trainee()),
                beside.assessor(),
                texts.get("gap.gap"),
                "text-muted");
        for (MarkGap.ItemGap item : gap.items()) {
            row(grid, item.title(), points(item.first()), points(item.second()), signed(item.gap()), "digits");
        }
        Label sum = Ui.wrapped(texts.get(
                "gap.sum",
                Formats.percent(gap.firstShare()),
                Formats.percent(gap.secondShare()),
                gap.shared(),
                texts.get("gap.alike", gap.exact(), gap.withinOne())));
        sum.setId("gap-sum-" + beside.assessor());
        return new VBox(Ui.STEP / 2, grid, sum);
    }

    private static void row(GridPane grid, String title, String self, String assessor, String gap, String style) {
        int row = grid.getRowCount();
        Label name = Ui.wrapped(title, "small");
        GridPane.setHgrow(name, Priority.ALWAYS);
        grid.add(name, 0, row);
        grid.add(Ui.label(self, "small", style), 1, row);
        grid.add(Ui.label(assessor, "small", style), 2, row);
        grid.add(Ui.label(gap, "small", style), 3, row);
    }

    private static String points(@Nullable Integer points) {
        return points == null ? Formats.UNKNOWN : points.toString();
    }

    private static String signed(@Nullable Integer gap) {
        return gap == null ? Formats.UNKNOWN : gap > 0 ? "+" + gap : gap == 0 ? "0" : "−" + -gap;
    }
}
