package org.sideport.app.cohort;

import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.Navigator;
import org.sideport.app.standard.Figure;
import org.sideport.model.MediaTime;
import org.sideport.workflow.CellMarks;

/** The marks behind a cell, each with the way to the case and into the moments that it rests on. */
final class CellBox extends VBox {

    private static final int MOST = 40;

    private final Texts texts;
    private final Navigator navigator;

    CellBox(CellMarks cell, CohortViewModel model, Texts texts, Navigator navigator) {
        super(Ui.STEP);
        this.texts = texts;
        this.navigator = navigator;
        setId("cohort-marks");
        CellMarks.OneMark newest = cell.marks().isEmpty() ? null : cell.marks().get(0);
        Label title = Ui.wrapped(
                texts.get(
                        "cohort.marks.of",
                        cell.trainee(),
                        cell.competency() == null
                                ? texts.get("cohort.whole")
                                : cell.competency().title(),
                        cell.marks().size(),
                        cell.marks().stream()
                                .map(CellMarks.OneMark::caseCode)
                                .distinct()
                                .count()),
                "section",
                "data");
        getChildren()
                .addAll(
                        Ui.button("cohort-back", Feather.ARROW_LEFT, texts.get("cohort.back"), model::read),
                        title,
                        Ui.wrapped(texts.get(newest == null ? "cohort.marks.none" : "cohort.marks.how"), "text-muted"));
        if (cell.withheld() > 0) {
            getChildren().add(Ui.wrapped(texts.get("cohort.marks.withheld", cell.withheld()), "text-muted"));
        }
        cell.marks().stream().limit(MOST).forEach(mark -> getChildren().add(mark(mark)));
        if (cell.marks().size() > MOST) {
            getChildren()
                    .add(Ui.label(texts.get("cohort.marks.more", cell.marks().size() - MOST), "small"));
        }
    }

    private VBox mark(CellMarks.OneMark mark) {
        FlowPane head = new FlowPane(
                2 * Ui.STEP,
                Ui.STEP / 2,
                Ui.label(texts.day(mark.date()), "digits"),
                Ui.label(mark.caseCode(), "data", "section"),
                Ui.label(mark.assessor(), "data"),
                Ui.label(Figure.percent(mark.share()), "digits"),
                Ui.label(texts.get(mark.blind() ? "decision.isBlind" : "decision.notBlind"), "text-muted"));
        head.setAlignment(Pos.CENTER_LEFT);
        VBox rest = new VBox(Ui.STEP / 2);
        if (!mark.others().isEmpty()) {
            head.getChildren().add(whole(mark, rest));
        }
        if (mark.recorded()) {
            head.getChildren()
                    .add(Ui.button(
                            "to-review-" + mark.caseCode() + "-" + mark.assessor(),
                            Feather.FILM,
                            texts.get("cohort.toReview"),
                            () -> navigator.toReview(mark.caseCode())));
        } else {
            head.getChildren().add(Ui.label(texts.get("cohort.noRecording"), "text-muted"));
        }
        VBox box = new VBox(Ui.STEP / 2, head);
        box.getStyleClass().add("chart-card");
        mark.items().forEach(item -> item(mark, item, box));
        box.getChildren().add(rest);
        if (!mark.closing().isBlank()) {
            box.getChildren().add(Ui.wrapped(mark.closing(), "small", "data", "text-muted"));
        }
        mark.agreed()
                .forEach(one -> box.getChildren()
                        .add(Ui.wrapped(texts.get("cohort.agreed", one), "small", "data", "text-muted")));
        return box;
    }

    /** Shows the rest of the same rating below, or no longer. */
    private ToggleButton whole(CellMarks.OneMark mark, VBox rest) {
        ToggleButton button = new ToggleButton(texts.get("cohort.whole.rating"), new FontIcon(Feather.CLIPBOARD));
        button.setId("whole-" + mark.caseCode() + "-" + mark.assessor());
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.setOnAction(event -> {
            rest.getChildren().clear();
            if (button.isSelected()) {
                mark.others().forEach(item -> item(mark, item, rest));
            }
        });
        return button;
    }

    private void item(CellMarks.OneMark mark, CellMarks.OneItem item, VBox box) {
        FlowPane line = new FlowPane(Ui.STEP, Ui.STEP / 2);
        line.setAlignment(Pos.CENTER_LEFT);
        Label words = Ui.label(
                item.points() == null
                        ? texts.get("cohort.item.none", item.title(), why(item))
                        : texts.get("cohort.item", item.title(), String.valueOf(item.points()), item.most()),
                "small",
                "data");
        words.setMinWidth(Region.USE_PREF_SIZE);
        line.getChildren().add(words);
        for (MediaTime at : item.moments()) {
            line.getChildren()
                    .add(Ui.styled(
                            Ui.button(
                                    "moment-" + mark.caseCode() + "-" + item.item() + "-" + at.micros(),
                                    Feather.PLAY,
                                    at.toClockText(),
                                    () -> navigator.toReview(mark.caseCode(), at)),
                            "small",
                            "digits"));
        }
        box.getChildren().add(line);
        if (!item.comment().isBlank()) {
            box.getChildren().add(Ui.wrapped(item.comment(), "small", "data", "text-muted"));
        }
    }

    private String why(CellMarks.OneItem item) {
        return item.reason() == null
                ? texts.get("cohort.excused")
                : texts.get("reason." + item.reason().name());
    }
}
