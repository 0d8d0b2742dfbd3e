package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.model.ConsentPurpose;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.OpenFormat;

/** A case on its way to another program: which format, whose tags. */
public final class OpenFormatViewModel {

    private final ExportOpen job;
    private final String code;
    private final Background work;
    private final Texts texts;
    private final Consumer<ExportOpen.Exported> written;
    private final ObservableList<String> annotators = FXCollections.observableArrayList();
    private final ObjectProperty<OpenFormat> format = new SimpleObjectProperty<>(OpenFormat.VTT);
    private final ObjectProperty<@Nullable String> annotator = new SimpleObjectProperty<>(null);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private boolean writing;

    /** @param written told when the file is there */
    public OpenFormatViewModel(
            ExportOpen job, String code, Background work, Texts texts, Consumer<ExportOpen.Exported> written) {
        this.job = job;
        this.code = code;
        this.work = work;
        this.texts = texts;
        this.written = written;
        annotator.addListener((property, old, now) -> check());
        work.run(
                progress -> job.annotators(code),
                found -> {
                    annotators.setAll(found);
                    annotator.set(found.size() == 1 ? found.get(0) : null);
                    check();
                },
                failure -> problem.set(Notice.of(failure, texts)));
    }

    public String code() {
        return code;
    }

    public List<OpenFormat> formats() {
        return List.of(OpenFormat.values());
    }

    /** What a format is called. */
    public String nameOf(OpenFormat one) {
        return texts.get("open.format." + one.name());
    }

    public ObjectProperty<OpenFormat> formatProperty() {
        return format;
    }

    /** Codes of who has tagged the case. */
    public ObservableList<String> annotators() {
        return annotators;
    }

    public ObjectProperty<@Nullable String> annotatorProperty() {
        return annotator;
    }

    /** Why nothing can be written now; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Says why nothing can be written at all. */
    void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }

    private void check() {
        if (writing) {
            whyNot.set(texts.get("open.why.writing"));
        } else {
            boolean open = annotators.size() > 1 && annotator.get() == null;
            whyNot.set(open ? texts.get("open.why.annotator") : "");
        }
    }

    String fileName() {
        return code + format.get().ending();
    }

    /** Writes the file, which is replaced if it is there. */
    public void write(Path file) {
        if (!whyNot.get().isEmpty()) {
            return;
        }
        problem.set(null);
        ExportOpen.Wanted wanted =
                new ExportOpen.Wanted(code, annotator.get(), format.get(), false, ConsentPurpose.TEACHING);
        writing = true;
        check();
        work.run(
                progress -> job.export(wanted, file),
                done -> {
                    writing = false;
                    check();
                    written.accept(done);
                },
                failure -> {
                    writing = false;
                    check();
                    problem.set(Notice.of(failure, texts));
                });
    }
}
