package org.sideport.app.exchange;

import java.io.File;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.StringProperty;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;

/** Asks what a teaching film shows and hides, and where it goes. */
final class FilmDialog extends ExchangeDialog {

    private static final double PHASES_HEIGHT = 136;

    private final FilmViewModel model;
    private final ConsentQuestion consent;
    private final Consumer<Window> hide;

    /** @param hide asks, over a window, which areas of the case's picture are to be black */
    FilmDialog(Window owner, FilmViewModel model, ConsentQuestion consent, Consumer<Window> hide, Texts texts) {
        super(owner, texts, texts.get("film.title", model.code()));
        this.model = model;
        this.consent = consent;
        this.hide = hide;
        stage.setOnCloseRequest(event -> model.cancel());
    }

    void show(Consumer<Scene> look) {
        GridPane grid = grid();
        line(grid, texts.get("open.annotator"), annotators("film-annotator", model));
        line(grid, texts.get("film.stretches"), typed("film-stretches", "1:20-2:10", model.stretchesProperty()));
        Button make = Ui.button("film-make", Feather.FILM, texts.get("film.make"), this::ask);
        show(
                look,
                680,
                0,
                Ui.wrapped(texts.get("film.text"), "text-muted"),
                new VBox(
                        Ui.STEP,
                        check("film-spoken", "film.spoken", model.spokenProperty()),
                        check("film-comments", "film.comments", model.commentsProperty())),
                phases(),
                grid,
                Ui.wrapped(texts.get("film.stretches.text"), "small", "text-muted"),
                progress("film-stop", model.writingProperty(), model::cancel),
                ProblemLabel.of("film-problem", model.problemProperty()),
                foot(
                        model.whyNotProperty(),
                        make,
                        () -> {
                            model.cancel();
                            stage.close();
                        },
                        Ui.button("film-hide", Feather.EYE_OFF, texts.get("hide.menu", 1), () -> hide.accept(stage))));
    }

    private CheckBox check(String id, String key, BooleanProperty chosen) {
        CheckBox box = new CheckBox(texts.get(key));
        box.setId(id);
        box.setWrapText(true);
        box.selectedProperty().bindBidirectional(chosen);
        return box;
    }

    private static TextField typed(String id, String example, StringProperty text) {
        TextField field = new TextField();
        field.setId(id);
        field.setPromptText(example);
        field.setPrefColumnCount(24);
        field.textProperty().bindBidirectional(text);
        return field;
    }

    private Node phases() {
        FlowPane all = new FlowPane(Ui.STEP * 2, Ui.STEP);
        for (Procedure.Term term : model.terms()) {
            CheckBox box = new CheckBox(term.name());
            box.setId("film-phase-" + term.id());
            box.selectedProperty().addListener((property, old, now) -> {
                if (now) {
                    model.phases().add(term);
                } else {
                    model.phases().remove(term);
                }
            });
            all.getChildren().add(box);
        }
        ScrollPane scroll = Ui.styled(new ScrollPane(all), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setPrefViewportHeight(PHASES_HEIGHT);
        scroll.setMinHeight(PHASES_HEIGHT / 2);
        return new VBox(Ui.STEP, Ui.label(texts.get("film.phases"), "section"), scroll);
    }

    private void ask() {
        consent.beforeTeaching(stage, model.code(), model::failed, this::choose);
    }

    private void choose() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(stage.getTitle());
        chooser.setInitialFileName(model.code() + "-film.mp4");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("film.kind"), "*.mp4"));
        File chosen = chooser.showSaveDialog(stage);
        if (chosen != null) {
            model.make(chosen.toPath());
        }
    }
}
