package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import org.sideport.app.Background;
import org.sideport.app.Texts;
import org.sideport.model.Procedure;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.MakeFilm;

/** A teaching film of a case: what it shows, and what it hides. */
public final class FilmViewModel extends CopyViewModel {

    private final MakeFilm job;
    private final Procedure procedure;
    private final Consumer<MakeFilm.Made> made;
    private final BooleanProperty spoken = new SimpleBooleanProperty(true);
    private final BooleanProperty comments = new SimpleBooleanProperty(true);
    private final ObservableList<Procedure.Term> phases = FXCollections.observableArrayList();
    private final StringProperty stretches = new SimpleStringProperty("");

    /** @param made told when the film is there */
    public FilmViewModel(
            MakeFilm job,
            ExportOpen tagged,
            String code,
            Procedure procedure,
            Background work,
            Texts texts,
            Consumer<MakeFilm.Made> made) {
        super(code, work, texts);
        this.job = job;
        this.procedure = procedure;
        this.made = made;
        spoken.addListener((property, old, now) -> check());
        comments.addListener((property, old, now) -> check());
        stretches.addListener((property, old, now) -> check());
        phases.addListener((ListChangeListener<Procedure.Term>) change -> check());
        begin(tagged);
    }

    /** Phases and steps that may be shown. */
    public List<Procedure.Term> terms() {
        return procedure.terms();
    }

    /** Spoken comments, with the picture as it was seen. */
    public BooleanProperty spokenProperty() {
        return spoken;
    }

    /** The surroundings of written comments. */
    public BooleanProperty commentsProperty() {
        return comments;
    }

    /** Phases and steps to show. */
    public ObservableList<Procedure.Term> phases() {
        return phases;
    }

    /** Stretches to show, as {@link MakeFilm.Part#parse} reads them, with spaces or semicolons between them. */
    public StringProperty stretchesProperty() {
        return stretches;
    }

    @Override
    String whyNotYet() {
        boolean nothing = !spoken.get()
                && !comments.get()
                && phases.isEmpty()
                && stretches.get().isBlank();
        return nothing ? texts.get("film.why.nothing") : "";
    }

    /** Makes the film, in place of one that is there. */
    public void make(Path file) {
        String said = stretches.get();
        List<String> ids = phases.stream().map(Procedure.Term::id).toList();
        String annotator = annotatorProperty().get();
        boolean withComments = comments.get();
        boolean withSpoken = spoken.get();
        write(
                progress -> job.film(
                        new MakeFilm.Wanted(
                                code,
                                annotator,
                                words(said).stream().map(MakeFilm.Part::parse).toList(),
                                ids,
                                withComments,
                                withSpoken,
                                List.of()),
                        file,
                        true,
                        progress),
                made);
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.split("[;\\s]+"))
                .filter(word -> !word.isEmpty())
                .toList();
    }
}
