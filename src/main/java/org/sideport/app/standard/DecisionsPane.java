package org.sideport.app.standard;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory.IntegerSpinnerValueFactory;
import javafx.scene.control.TextArea;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.Decision;
import org.sideport.model.Rubric;

/** What a panel looks at about one trainee. Figures and their limits; no verdict, and no colour for one. */
public final class DecisionsPane implements ProgrammePane {

    private static final int MOST_CASES = 500;

    private final DecisionsViewModel model;
    private final Texts texts;
    private final ScrollPane node;
    private final VBox middle = new VBox(2 * Ui.STEP);

    public DecisionsPane(DecisionsViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        VBox all = new VBox(2 * Ui.STEP, choices(), Ui.wrapped(texts.get("decision.caution"), "warning-note"), middle);
        all.getStyleClass().add("items");
        node = Ui.styled(new ScrollPane(all), "edge-to-edge");
        node.setId("decisions");
        node.setFitToWidth(true);
        model.shownProperty().addListener((property, old, now) -> show(now));
        show(model.shownProperty().get());
    }

    private FlowPane choices() {
        ComboBox<@Nullable String> trainees = new ComboBox<>();
        trainees.setId("decision-trainee");
        trainees.setAccessibleText(texts.get("decision.trainee"));
        Bindings.bindContent(trainees.getItems(), model.trainees());
        trainees.setOnAction(event -> model.traineeProperty().set(trainees.getValue()));
        ComboBox<@Nullable Rubric> rubrics =
                StandardsPane.rubrics("decision-rubric", texts, model.rubrics(), model.rubricProperty());
        Spinner<Integer> last = new Spinner<>(new IntegerSpinnerValueFactory(0, MOST_CASES, 0));
        last.setId("decision-last");
        last.setPrefWidth(88);
        last.setAccessibleText(texts.get("decision.last"));
        last.valueProperty()
                .addListener((property, old, now) -> model.lastProperty().set(now));
        FlowPane box = new FlowPane(
                Ui.STEP * 2,
                Ui.STEP,
                Ui.named(texts.get("decision.trainee"), trainees),
                Ui.named(texts.get("standard.rubric"), rubrics),
                Ui.named(texts.get("decision.last"), last));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void show(DecisionsViewModel.@Nullable Shown shown) {
        if (shown == null) {
            middle.getChildren()
                    .setAll(new EmptyState(
                            Feather.USERS, texts.get("decision.empty"), texts.get("decision.empty.text")));
            return;
        }
        middle.getChildren().setAll(new DecisionFiguresBox(shown.view(), texts), writing(), before(shown));
    }

    private Node writing() {
        TextArea words = new TextArea();
        words.setId("decision-text");
        words.setPrefRowCount(3);
        words.setWrapText(true);
        words.setAccessibleText(texts.get("decision.words"));
        Label name = Ui.label(texts.get("decision.words"), "section");
        name.setLabelFor(words);
        TextField panel = new TextField();
        panel.setId("decision-panel");
        panel.setPrefColumnCount(16);
        panel.setAccessibleText(texts.get("decision.panel"));
        Label who = Ui.label(texts.get("decision.panel"), "text-muted");
        who.setLabelFor(panel);
        HBox row = new HBox(
                Ui.STEP,
                who,
                panel,
                Ui.button(
                        "decision-keep",
                        Feather.LOCK,
                        texts.get("decision.keep"),
                        () -> model.record(words.getText(), panel.getText())));
        row.setAlignment(Pos.CENTER_LEFT);
        return new VBox(Ui.STEP, name, words, row, Ui.wrapped(texts.get("decision.keep.what"), "small", "text-muted"));
    }

    private Node before(DecisionsViewModel.Shown shown) {
        VBox box = new VBox(Ui.STEP);
        if (shown.before().isEmpty()) {
            return box;
        }
        box.getChildren().add(Ui.label(texts.get("decision.before"), "section"));
        for (Decision decision : shown.before()) {
            box.getChildren()
                    .add(Ui.wrapped(
                            texts.get(
                                    "decision.line",
                                    texts.day(decision.decidedOn()),
                                    String.join(", ", decision.decidedBy()),
                                    decision.rubric(),
                                    decision.wording()),
                            "data"));
        }
        return box;
    }

    @Override
    public String id() {
        return "decisions";
    }

    @Override
    public String title() {
        return texts.get("decision.title");
    }

    @Override
    public Node node() {
        return node;
    }

    @Override
    public void shown() {
        model.load();
    }
}
