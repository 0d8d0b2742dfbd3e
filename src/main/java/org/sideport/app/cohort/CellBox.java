package org.sideport.app.cohort;

import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
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
                        cell.marks().size()),
                "section",
                "data");
        getChildren()
                .addAll(
                        Ui.button("cohort-back", Feather.ARROW_LEFT, texts.get("cohort.back"), model::read),
                        title,
                        Ui.wrapped(texts.get(newest == null ? "cohort.marks.none" : "cohort.marks.how"), "text-muted"));
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
                Ui.label(texts.get(mark.blind() ? "decision.isBlind" : "decision.notBlind"), "text-muted"),
                Ui.button(
                        "to-marking-" + mark.caseCode() + "-" + mark.assessor(),
                        Feather.CLIPBOARD,
                        texts.get("cohort.toMarking"),
                        () -> navigator.toMarking(mark.caseCode())),
                Ui.button(
                        "to-review-" + mark.caseCode() + "-" + mark.assessor(),
                        Feather.FILM,
                        texts.get("cohort.toReview"),
                        () -> navigator.toReview(mark.caseCode())));
        head.setAlignment(Pos.CENTER_LEFT);
        VBox box = new VBox(Ui.STEP / 2, head);
        box.getStyleClass().add("chart-card");
        for (CellMarks.OneItem item : mark.items()) {
            FlowPane line = new FlowPane(Ui.STEP, Ui.STEP / 2);
            line.setAlignment(Pos.CENTER_LEFT);
            Label words = Ui.label(
                    texts.get(
                            "cohort.item",
                            item.title(),
                            item.points() == null ? texts.get("cohort.excused") : String.valueOf(item.points()),
                            item.most()),
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
        return box;
    }
}
