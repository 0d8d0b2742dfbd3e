package org.sideport.app.cases;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
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
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import javafx.collections.ObservableMap;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.media.MediaWarning;
import org.sideport.model.Procedure;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.RecordingPreview;
import org.sideport.workflow.Vocabularies;

/** A case that is being added: who, when, what, and the files of its recording in order. */
public final class AddCaseViewModel {

    private final ImportRecording importer;
    private final Background work;
    private final Texts texts;
    private final Consumer<SurgicalCase> added;

    private final StringProperty code = new SimpleStringProperty("");
    private final StringProperty trainee = new SimpleStringProperty("");
    private final ObjectProperty<@Nullable LocalDate> date;
    private final ObservableList<Procedure> procedures = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Procedure> procedure = new SimpleObjectProperty<>(null);
    private final ObservableMap<String, String> descriptors = FXCollections.observableMap(new LinkedHashMap<>());
    private final ObservableList<Segment> files = FXCollections.observableArrayList();
    private final ObservableList<MediaWarning> warnings = FXCollections.observableArrayList();
    private final BooleanProperty acceptsCutShort = new SimpleBooleanProperty(false);
    private final ReadOnlyDoubleWrapper measuring = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper measured = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private final StringBinding whyNot;
    private final ObjectProperty<@Nullable RecordingPreview> preview = new SimpleObjectProperty<>(null);
    private Background.@Nullable Job job;
    private @Nullable Path recordings;

    /** @param added told when the case is in the store */
    public AddCaseViewModel(
            ImportRecording importer,
            Vocabularies vocabularies,
            Background work,
            Texts texts,
            LocalDate today,
            Consumer<SurgicalCase> added) {
        this.importer = importer;
        this.work = work;
        this.texts = texts;
        this.added = added;
        this.date = new SimpleObjectProperty<>(today);
        this.whyNot = Bindings.createStringBinding(
                this::whyNotNow, code, trainee, date, procedure, measuring, warnings, acceptsCutShort);
        work.run(
                progress -> vocabularies.procedures(),
                found -> {
                    procedures.setAll(found);
                    procedure.set(found.isEmpty() ? null : found.get(0));
                },
                this::failed);
    }

    /** Where choosing files begins; {@code null} for anywhere. */
    public @Nullable Path recordings() {
        return recordings;
    }

    /** Lets choosing files begin in a folder, if there is one by that name now. */
    public void beginIn(String folder) {
        try {
            Path path = Path.of(folder);
            recordings = !folder.isEmpty() && Files.isDirectory(path) ? path : null;
        } catch (InvalidPathException wrong) {
            recordings = null;
        }
    }

    public StringProperty codeProperty() {
        return code;
    }

    public StringProperty traineeProperty() {
        return trainee;
    }

    public ObjectProperty<@Nullable LocalDate> dateProperty() {
        return date;
    }

    public ObservableList<Procedure> procedures() {
        return procedures;
    }

    public ObjectProperty<@Nullable Procedure> procedureProperty() {
        return procedure;
    }

    /** Values by descriptor id; a descriptor without a value is absent. */
    public ObservableMap<String, String> descriptors() {
        return descriptors;
    }

    /** The files in the order in which they make up the recording. */
    public ObservableList<Segment> files() {
        return files;
    }

    /** What a person has to look at or listen to, whatever was found; empty without files. */
    public List<String> reminders() {
        RecordingPreview now = preview.get();
        return now == null ? List.of() : now.reminders();
    }

    public ObservableList<MediaWarning> warnings() {
        return warnings;
    }

    /** True if the user takes what can be read of a file that ends too early. */
    public BooleanProperty acceptsCutShortProperty() {
        return acceptsCutShort;
    }

    public boolean isCutShort() {
        return warnings.stream().anyMatch(w -> w.code() == MediaWarning.Code.CUT_SHORT);
    }

    /** How far the measuring of files is; not a number when none is under way. */
    public ReadOnlyDoubleProperty measuringProperty() {
        return measuring.getReadOnlyProperty();
    }

    public ReadOnlyStringProperty measuredProperty() {
        return measured.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Why the case cannot be added yet; empty if it can. */
    public StringBinding whyNotProperty() {
        return whyNot;
    }

    private String whyNotNow() {
        if (isMeasuring()) {
            return texts.get("add.why.measuring");
        }
        if (code.get().isBlank()) {
            return texts.get("add.why.code");
        }
        if (trainee.get().isBlank()) {
            return texts.get("add.why.trainee");
        }
        if (date.get() == null) {
            return texts.get("add.why.date");
        }
        if (procedure.get() == null) {
            return texts.get("add.why.procedure");
        }
        return isCutShort() && !acceptsCutShort.get() ? texts.get("add.why.cutShort") : "";
    }

    public boolean isMeasuring() {
        return !Double.isNaN(measuring.get());
    }

    // ---- files

    /** Adds files; all of them together are put into natural order. */
    public void addFiles(List<Path> more) {
        List<Path> wanted = new ArrayList<>(files.stream().map(Segment::file).toList());
        more.stream().map(Path::toAbsolutePath).filter(f -> !wanted.contains(f)).forEach(wanted::add);
        measure(wanted);
    }

    private void measure(List<Path> wanted) {
        if (wanted.isEmpty() || isMeasuring()) {
            return;
        }
        problem.set(null);
        measuring.set(0);
        job = work.run(
                progress -> importer.preview(wanted, progress),
                found -> {
                    measuring.set(Double.NaN);
                    took(found);
                },
                failure -> {
                    measuring.set(Double.NaN);
                    failed(failure);
                },
                (fraction, message) -> {
                    if (isMeasuring()) {
                        measuring.set(Math.max(0, fraction));
                        measured.set(message);
                    }
                });
    }

    private void took(RecordingPreview found) {
        preview.set(found);
        files.setAll(found.segments());
        warnings.setAll(found.warnings());
    }

    public void cancelMeasuring() {
        if (job != null) {
            job.cancel();
        }
    }

    /** Moves a file to an earlier place ({@code by} below 0) or a later one. */
    public void move(Segment file, int by) {
        RecordingPreview now = preview.get();
        int from = files.indexOf(file);
        int to = from + by;
        if (now == null || isMeasuring() || from < 0 || to < 0 || to >= files.size()) {
            return;
        }
        List<Path> order = new ArrayList<>(files.stream().map(Segment::file).toList());
        order.add(to, order.remove(from));
        work.run(progress -> importer.reorder(now, order), this::took, this::failed);
    }

    public void remove(Segment file) {
        RecordingPreview now = preview.get();
        if (now == null || isMeasuring()) {
            return;
        }
        int removed = files.indexOf(file);
        List<Segment> left = files.stream().filter(s -> !s.equals(file)).toList();
        if (left.isEmpty()) {
            preview.set(null);
            files.clear();
            warnings.clear();
            return;
        }
        List<MediaWarning> still = now.warnings().stream()
                .filter(w -> w.segment() == null || w.segment() != removed)
                .map(w -> {
                    Integer place = w.segment();
                    return place != null && place > removed ? new MediaWarning(w.code(), w.text(), place - 1, null) : w;
                })
                .toList();
        took(new RecordingPreview(left, still));
    }

    // ---- saving

    public void save() {
        Procedure of = procedure.get();
        LocalDate on = date.get();
        if (!whyNotNow().isEmpty() || of == null || on == null) {
            return;
        }
        Map<String, String> known = new LinkedHashMap<>();
        of.descriptors().stream()
                .sorted(Comparator.comparing(Procedure.Descriptor::id))
                .forEach(descriptor -> {
                    String value = descriptors.getOrDefault(descriptor.id(), "").strip();
                    if (!value.isEmpty()) {
                        known.put(descriptor.id(), value);
                    }
                });
        NewCase details = new NewCase(code.get().strip(), trainee.get().strip(), on, of.id(), known);
        RecordingPreview recording = preview.get();
        boolean cutShort = acceptsCutShort.get();
        problem.set(null);
        work.run(progress -> importer.addCase(details, recording, cutShort), added, this::failed);
    }

    private void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }
}
