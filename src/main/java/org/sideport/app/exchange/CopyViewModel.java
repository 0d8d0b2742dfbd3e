package org.sideport.app.exchange;

import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.workflow.exchange.ExportOpen;

/** What a film and a copy with chapters have in common: whose tags, how far the writing is, and why not. */
abstract class CopyViewModel {

    final String code;
    final Texts texts;
    private final Background work;
    private final ObservableList<String> annotators = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable String> annotator = new SimpleObjectProperty<>(null);
    private final ReadOnlyDoubleWrapper writing = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private final BooleanProperty ready = new SimpleBooleanProperty(false);
    private Background.@Nullable Job running;

    CopyViewModel(String code, Background work, Texts texts) {
        this.code = code;
        this.work = work;
        this.texts = texts;
        annotator.addListener((property, old, now) -> check());
    }

    /** Asks who has tagged the case; last in the making of each kind. */
    final void begin(ExportOpen tagged) {
        check();
        work.run(
                progress -> tagged.annotators(code),
                found -> {
                    annotators.setAll(found);
                    annotator.set(found.size() == 1 ? found.get(0) : null);
                    ready.set(true);
                    check();
                },
                this::failed);
    }

    /** Why nothing can be written although nothing is being written and it is clear whose tags; empty if it can. */
    abstract String whyNotYet();

    public String code() {
        return code;
    }

    /** Codes of who has tagged the case. */
    public ObservableList<String> annotators() {
        return annotators;
    }

    public ObjectProperty<@Nullable String> annotatorProperty() {
        return annotator;
    }

    /** How far the writing is, 0 to 1; not a number when none is under way. */
    public ReadOnlyDoubleProperty writingProperty() {
        return writing.getReadOnlyProperty();
    }

    /** Why nothing can be written now; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Says why nothing can be written at all. */
    final void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }

    final void check() {
        if (!Double.isNaN(writing.get())) {
            whyNot.set(texts.get("bundle.why.writing"));
        } else if (annotators.size() > 1 && annotator.get() == null) {
            whyNot.set(texts.get("open.why.annotator"));
        } else {
            whyNot.set(ready.get() ? whyNotYet() : texts.get("progress.loading"));
        }
    }

    /** Writes in the background, among the jobs that are listed. */
    final <T> void write(Background.Work<T> job, Consumer<T> written) {
        if (!whyNot.get().isEmpty()) {
            return;
        }
        problem.set(null);
        writing.set(0);
        check();
        running = work.run(
                job,
                done -> {
                    ended();
                    written.accept(done);
                },
                failure -> {
                    ended();
                    failed(failure);
                },
                (fraction, message) -> {
                    if (!Double.isNaN(writing.get())) {
                        writing.set(Math.max(0, fraction));
                    }
                });
    }

    private void ended() {
        writing.set(Double.NaN);
        check();
    }

    public void cancel() {
        if (running != null) {
            running.cancel();
        }
    }
}
