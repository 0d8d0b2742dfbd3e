package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import javafx.animation.PauseTransition;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.marking.ItemCard;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricDraft;
import org.sideport.rubric.Score;

/** The items as the marking screen will show them; they can be marked, and nothing is kept of it. */
final class PreviewPane extends VBox {

    private static final Duration REST = Duration.millis(150);

    private final RubricEditorViewModel model;
    private final Texts texts;
    private final TriedMarks marks;
    private final VBox items = Ui.styled(new VBox(Ui.STEP), "items");
    private final Label total = Ui.wrapped("", "small", "digits");
    private final List<ItemCard> cards = new ArrayList<>();
    private final PauseTransition rest = new PauseTransition(REST);

    PreviewPane(RubricEditorViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        marks = new TriedMarks(texts, this::showMarks);
        setId("rubric-preview");
        getStyleClass().addAll("side", "preview");
        ScrollPane scroll = Ui.styled(new ScrollPane(items), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        total.setId("preview-total");
        VBox head = Ui.styled(
                new VBox(
                        0,
                        Ui.label(texts.get("rubrics.preview"), "section"),
                        Ui.wrapped(texts.get("rubrics.preview.hint"), "small", "text-muted"),
                        total),
                "padded");
        getChildren().addAll(head, scroll);
        rest.setOnFinished(event -> build());
        model.draftProperty().addListener((property, old, now) -> rest.playFromStart());
        model.partProperty().addListener((property, old, now) -> build());
        model.languageProperty().addListener((property, old, now) -> build());
    }

    private void build() {
        rest.stop();
        items.getChildren().clear();
        cards.clear();
        RubricDraft draft = model.draftProperty().get();
        if (draft == null) {
            return;
        }
        String language = model.languageProperty().get();
        Rubric sketch = draft.sketch();
        Rubric rubric = language.isEmpty() ? sketch : sketch.in(language);
        marks.use(rubric);
        Part part = model.partProperty().get();
        boolean one = part.kind() == Part.Kind.ITEM;
        for (Rubric.Domain domain : rubric.domains()) {
            List<Rubric.Item> of = rubric.items().stream()
                    .filter(item -> item.domain().equals(domain.id()))
                    .filter(item -> !one || rubric.items().indexOf(item) == part.index())
                    .toList();
            if (!of.isEmpty()) {
                items.getChildren().add(Ui.wrapped(named(domain.title()), "domain-title"));
                of.forEach(item -> add(rubric, item));
            }
        }
        showMarks();
    }

    private void add(Rubric rubric, Rubric.Item item) {
        ItemCard card = new ItemCard(marks, texts, rubric, item);
        card.setId("preview-" + item.id());
        cards.add(card);
        items.getChildren().add(card);
    }

    private String named(String title) {
        return title.isBlank() ? texts.get("rubrics.untitled") : title;
    }

    private void showMarks() {
        cards.forEach(ItemCard::show);
        Score score = marks.score();
        total.setText(
                score == null || score.marked() == 0
                        ? ""
                        : texts.get(
                                "rubrics.preview.total",
                                Formats.percent(score.share()),
                                score.points(),
                                score.maximum(),
                                score.marked()));
    }
}
