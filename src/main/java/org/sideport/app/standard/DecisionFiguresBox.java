package org.sideport.app.standard;

import java.util.stream.Collectors;
import javafx.geometry.HPos;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;
import org.sideport.workflow.DecisionView;
import org.sideport.workflow.Precision;
import org.sideport.workflow.SignedMark;
import org.sideport.workflow.progress.ProgressWords;

/** The figures about one trainee: how many, how sure, against which standard, and whether they are enough. */
final class DecisionFiguresBox extends VBox {

    private final Texts texts;

    DecisionFiguresBox(DecisionView view, Texts texts) {
        super(Ui.STEP);
        this.texts = texts;
        Label counts = Ui.wrapped(texts.get(
                "decision.counts",
                view.trainee(),
                view.marks().size(),
                view.cases(),
                view.assessors(),
                view.blindMarks()));
        counts.setId("decision-counts");
        Label mean = Ui.wrapped(mean(view), "large", "digits");
        mean.setId("decision-mean");
        Label standard = Ui.wrapped(standard(view));
        standard.setId("decision-standard");
        Label enough = Ui.wrapped(enough(view.precision()), "section");
        enough.setId("decision-enough");
        getChildren().addAll(counts, mean, standard, enough);
        view.notes().stream()
                // the line of the standard says it already
                .filter(note -> !note.equals(DecisionView.NO_STANDARD))
                .forEach(note -> getChildren().add(Ui.wrapped(note, "text-muted", "data")));
        if (view.precision() instanceof Outcome.Found<Precision> found) {
            Label what = Ui.wrapped(texts.get("decision.coefficients"), "small", "text-muted");
            what.setId("decision-coefficients");
            getChildren().add(what);
            Precision.Study study = found.value().study();
            getChildren()
                    .add(Ui.wrapped(
                            texts.get(
                                    "decision.study",
                                    study.trainees(),
                                    study.cases(),
                                    study.assessors(),
                                    study.marks()),
                            "small",
                            "text-muted"));
            study.warnings().forEach(w -> getChildren().add(Ui.wrapped(w, "small", "text-muted", "data")));
        }
        if (!view.shown().isEmpty()) {
            getChildren().add(marks(view));
        }
        if (!view.withheld().isEmpty()) {
            getChildren()
                    .add(Ui.wrapped(
                            texts.get("decision.withheld", view.withheld().size()), "text-muted"));
        }
    }

    private String mean(DecisionView view) {
        if (view.precision() instanceof Outcome.Found<Precision> found) {
            Precision p = found.value();
            return texts.get(
                    "decision.mean",
                    Figure.percent(view.mean()),
                    Figure.number(100 * p.lower(), 1),
                    Figure.percent(p.upper()),
                    Figure.number(100 * p.coefficients().semAbsolute(), 1),
                    Figure.number(p.coefficients().phi(), 2),
                    Figure.number(p.coefficients().g(), 2));
        }
        return texts.get("decision.meanOnly", Figure.percent(view.mean()));
    }

    private String standard(DecisionView view) {
        Standard standard = view.standard();
        Double distance = view.distance();
        if (standard == null) {
            return texts.get("decision.noStandard");
        }
        String line = texts.get("decision.standard", Figure.standard(texts, standard));
        return distance == null
                ? line
                : line + "\n"
                        + texts.get(
                                "decision.distance",
                                Figure.number(100 * distance, 1),
                                Figure.number(
                                        view.distanceError() == null ? null : (Double) (100 * view.distanceError()),
                                        1));
    }

    private ProgressWords words() {
        return new ProgressWords(texts.locale(), texts.language()::dressed);
    }

    private String enough(Outcome<Precision> outcome) {
        if (outcome instanceof Outcome.Refused<Precision> refused) {
            return texts.get("decision.cannotSay", words().why(refused.refusal()), words().remedy(refused.refusal()));
        }
        Precision p = outcome.orElseThrow();
        String wish = Figure.number(p.wish(), 2);
        if (p.enough()) {
            return texts.get("decision.enough", wish);
        }
        return p.more().isEmpty()
                ? texts.get(
                        "decision.never", wish, Precision.MOST_CASES, p.study().assessors())
                : texts.get(
                        "decision.notEnough",
                        wish,
                        p.more().stream()
                                .map(more -> texts.get(
                                        "decision.more",
                                        more.cases(),
                                        more.assessorsEach(),
                                        Figure.number(more.minutes(), 0)))
                                .collect(Collectors.joining(texts.get("decision.or"))));
    }

    private GridPane marks(DecisionView view) {
        GridPane grid = new GridPane();
        grid.setId("decision-marks");
        grid.setHgap(2 * Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        String[] heads = {
            "decision.case", "decision.date", "decision.assessor", "decision.blind", "decision.share", "decision.items"
        };
        for (int i = 0; i < heads.length; i++) {
            grid.add(Ui.label(texts.get(heads[i]), "small", "text-muted"), i, 0);
        }
        int row = 1;
        for (SignedMark mark : view.shown()) {
            grid.add(Ui.label(mark.caseCode(), "data"), 0, row);
            grid.add(Ui.label(texts.day(mark.date()), "digits"), 1, row);
            grid.add(Ui.label(mark.assessor(), "data"), 2, row);
            grid.add(Ui.label(texts.get(mark.blind() ? "decision.isBlind" : "decision.notBlind")), 3, row);
            number(grid, 4, row, Figure.percent(mark.share()));
            number(grid, 5, row, mark.score().marked() + "/" + mark.score().items());
            row++;
        }
        return grid;
    }

    private static void number(GridPane grid, int column, int row, String text) {
        Label label = Ui.label(text, "digits");
        GridPane.setHalignment(label, HPos.RIGHT);
        grid.add(label, column, row);
    }
}
