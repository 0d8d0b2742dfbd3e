package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.Objects;
import java.util.function.Consumer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.settings.Language;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.exchange.MarkingForm;

/** A workbook to mark a case in without the program. */
public final class FormViewModel {

    private static final String ASSESSOR_SETTING = "assessor";

    private final MarkingForm job;
    private final SurgicalCase marked;
    private final Background work;
    private final Texts texts;
    private final Settings settings;
    private final Consumer<Path> written;
    private final ObservableList<Rubric> rubrics = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Rubric> rubric = new SimpleObjectProperty<>(null);
    private final StringProperty assessor;
    private final ObjectProperty<Language> language;
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);

    /** @param written told where the form is */
    public FormViewModel(
            MarkingForm job,
            Vocabularies vocabularies,
            SurgicalCase marked,
            Background work,
            Texts texts,
            Settings settings,
            Consumer<Path> written) {
        this.job = job;
        this.marked = marked;
        this.work = work;
        this.texts = texts;
        this.settings = settings;
        this.written = written;
        this.language = new SimpleObjectProperty<>(
                Language.offered().contains(texts.language()) ? texts.language() : Language.ENGLISH);
        assessor = new SimpleStringProperty(settings.get(ASSESSOR_SETTING, ""));
        assessor.addListener((property, old, now) -> check());
        rubric.addListener((property, old, now) -> check());
        check();
        work.run(
                progress -> vocabularies.rubrics(marked.procedure()),
                found -> {
                    rubrics.setAll(found);
                    rubric.set(found.isEmpty() ? null : found.get(0));
                },
                this::failed);
    }

    public String code() {
        return marked.code();
    }

    public ObservableList<Rubric> rubrics() {
        return rubrics;
    }

    public ObjectProperty<@Nullable Rubric> rubricProperty() {
        return rubric;
    }

    public StringProperty assessorProperty() {
        return assessor;
    }

    public boolean isAssessorFixed() {
        return settings.isFixed(ASSESSOR_SETTING);
    }

    /** Of the form; the rubric's own words where it has no translation. */
    public ObjectProperty<Language> languageProperty() {
        return language;
    }

    /** Why it cannot be written now; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    private void check() {
        if (rubric.get() == null) {
            whyNot.set(texts.get("marking.why.noRubric"));
        } else {
            whyNot.set(assessor.get().isBlank() ? texts.get("form.why.assessor") : "");
        }
    }

    public void write(Path file) {
        Rubric by = rubric.get();
        if (by == null || !whyNot.get().isEmpty()) {
            return;
        }
        problem.set(null);
        String who = assessor.get().strip();
        String words =
                Objects.requireNonNullElse(language.get(), Language.ENGLISH).id();
        work.run(
                progress -> job.write(by.id(), marked.code(), who, who.equals(marked.trainee()), words, file),
                said -> written.accept(file),
                this::failed);
    }

    private void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }
}
