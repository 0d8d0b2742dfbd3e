package org.sideport.app.standard;

import javafx.beans.binding.Bindings;
import javafx.beans.property.ObjectProperty;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Separator;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.Rubric;

/** Standards: judges in turn, cuts from the unit's own marks, and what people agreed. */
public final class StandardsPane implements ProgrammePane {

    private final StandardsViewModel model;
    private final Texts texts;
    private final ScrollPane node;

    public StandardsPane(StandardsViewModel model, Texts texts, Notices notices) {
        this.model = model;
        this.texts = texts;
        ComboBox<@Nullable Rubric> rubrics = rubrics("standard-rubric", texts, model.rubrics(), model.rubricProperty());
        HBox top = new HBox(Ui.STEP, Ui.label(texts.get("standard.rubric"), "text-muted"), rubrics);
        top.setAlignment(Pos.CENTER_LEFT);
        VBox cuts = new VBox(2 * Ui.STEP, top, new CutSection(model, texts), new Separator());
        // a judge is not to be led by a cut that was found or agreed
        Ui.showIf(cuts, model.sheetProperty().isNull());
        VBox all = new VBox(
                2 * Ui.STEP,
                cuts,
                new RoundSection(model, texts, notices),
                Ui.wrapped(texts.get("standard.caution"), "small", "text-muted"));
        all.getStyleClass().add("items");
        node = Ui.styled(new ScrollPane(all), "edge-to-edge");
        node.setId("standards");
        node.setFitToWidth(true);
    }

    /** A choice of rubrics by their titles. */
    public static ComboBox<@Nullable Rubric> rubrics(
            String id, Texts texts, ObservableList<Rubric> offered, ObjectProperty<@Nullable Rubric> chosen) {
        ComboBox<@Nullable Rubric> box = new ComboBox<>();
        box.setId(id);
        box.setAccessibleText(texts.get("standard.rubric"));
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable Rubric rubric) {
                return rubric == null ? "" : rubric.title() + " " + rubric.version();
            }

            @Override
            public @Nullable Rubric fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        Bindings.bindContent(box.getItems(), offered);
        box.setOnAction(event -> {
            if (box.getValue() != null) {
                chosen.set(box.getValue());
            }
        });
        chosen.addListener((property, old, now) -> box.setValue(now));
        offered.addListener((ListChangeListener<Rubric>) change -> box.setValue(chosen.get()));
        return box;
    }

    @Override
    public String id() {
        return "standards";
    }

    @Override
    public String title() {
        return texts.get("standard.title");
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
