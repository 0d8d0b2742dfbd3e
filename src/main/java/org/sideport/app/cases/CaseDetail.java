package org.sideport.app.cases;

import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.Navigator;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.CaseOverview.RatingOverview;

/** What is known of the selected case, and what can be done with it. */
final class CaseDetail extends VBox {

    private final Texts texts;
    private final Navigator navigator;

    CaseDetail(CasesViewModel model, Texts texts, Navigator navigator) {
        super(Ui.STEP);
        this.texts = texts;
        this.navigator = navigator;
        getStyleClass().addAll("side", "case-detail");
        setPrefWidth(336);
        setMinWidth(336);
        model.selectedProperty().addListener((property, old, now) -> show(now));
        show(null);
    }

    private void show(@Nullable CaseOverview overview) {
        if (overview == null) {
            getChildren().setAll(Ui.wrapped(texts.get("detail.none"), "text-muted"));
            return;
        }
        SurgicalCase shown = overview.surgicalCase();
        Button review =
                Ui.button("review", Feather.FILM, texts.get("detail.review"), () -> navigator.toReview(shown.code()));
        review.getStyleClass().add("accent");
        Button mark =
                Ui.button("mark", Feather.CLIPBOARD, texts.get("detail.mark"), () -> navigator.toMarking(shown.code()));
        VBox facts = new VBox(Ui.STEP, facts(overview), marks(CasesViewModel.current(overview)));
        ScrollPane scroll = Ui.styled(new ScrollPane(facts), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().setAll(Ui.label(shown.code(), "large"), new HBox(Ui.STEP, review, mark), scroll);
    }

    private GridPane facts(CaseOverview overview) {
        SurgicalCase shown = overview.surgicalCase();
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP / 2);
        fact(grid, texts.get("cases.column.trainee"), shown.trainee());
        fact(grid, texts.get("cases.column.date"), Formats.day(shown.date()));
        shown.descriptors().forEach((id, value) -> fact(grid, readable(id), value));
        Recording recording = shown.recording();
        if (recording == null) {
            fact(grid, texts.get("detail.recording"), texts.get("detail.recording.none"));
        } else {
            fact(grid, texts.get("cases.column.length"), Formats.shortClock(recording.duration()));
            for (Segment segment : recording.segments()) {
                fact(
                        grid,
                        texts.get("detail.file", recording.segments().indexOf(segment) + 1),
                        segment.file().getFileName().toString());
            }
        }
        if (!overview.mediaFound()) {
            fact(grid, texts.get("cases.column.state"), texts.get("detail.missing"));
        }
        fact(
                grid,
                texts.get("cases.column.annotators"),
                overview.annotators().isEmpty()
                        ? texts.get("detail.nobody")
                        : String.join(", ", overview.annotators()));
        return grid;
    }

    /** {@code nuclear_grade} as {@code Nuclear grade}. */
    static String readable(String id) {
        String words = id.replace('_', ' ');
        return words.isEmpty() ? words : Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private void fact(GridPane grid, String name, String value) {
        int row = grid.getRowCount();
        Label key = Ui.wrapped(name, "text-muted");
        key.setPrefWidth(112);
        key.setMinWidth(112);
        grid.add(key, 0, row);
        Label shown = Ui.wrapped(value);
        GridPane.setHgrow(shown, Priority.ALWAYS);
        grid.add(shown, 1, row);
    }

    private VBox marks(List<RatingOverview> ratings) {
        VBox box = new VBox(Ui.STEP / 2, Ui.label(texts.get("detail.marks"), "section"));
        if (ratings.isEmpty()) {
            box.getChildren().add(Ui.label(texts.get("detail.noMarks"), "text-muted"));
        }
        for (RatingOverview rating : ratings) {
            String who = texts.get(rating.self() ? "detail.self" : "detail.assessor", rating.assessor());
            Label head = Ui.wrapped(texts.get(
                    "detail.mark.line", who, Formats.percent(rating.score().share())));
            Label base = Ui.wrapped(
                    texts.get(
                            "detail.mark.base",
                            rating.score().marked(),
                            rating.score().missing().size(),
                            texts.get("state." + rating.state().name())),
                    "small",
                    "text-muted");
            box.getChildren().add(new VBox(0, head, base));
        }
        return box;
    }
}
