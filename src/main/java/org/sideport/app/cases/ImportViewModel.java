package org.sideport.app.cases;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.media.MediaWarning;
import org.sideport.media.NaturalOrder;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CaseDraft;
import org.sideport.workflow.ImportCases;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.ProposeCases;

/** Cases proposed for dropped files: corrected by a person, then measured, then stored all at once. */
public final class ImportViewModel {

    private final ImportCases job;
    private final Background work;
    private final Texts texts;
    private final Consumer<Map<String, SurgicalCase>> stored;
    private final ObservableList<ProposedRow> rows = FXCollections.observableArrayList();
    private final StringProperty procedure = new SimpleStringProperty("phaco");
    private final ReadOnlyDoubleWrapper measuring = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper measured = new ReadOnlyStringWrapper("");
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private Background.@Nullable Job running;

    /** @param stored told when the cases are in the store */
    public ImportViewModel(
            ImportCases job,
            List<ProposeCases.Proposal> proposals,
            Background work,
            Texts texts,
            Consumer<Map<String, SurgicalCase>> stored) {
        this.job = job;
        this.work = work;
        this.texts = texts;
        this.stored = stored;
        proposals.forEach(proposal -> rows.add(watched(new ProposedRow(proposal))));
        check();
    }

    private ProposedRow watched(ProposedRow row) {
        row.codeProperty().addListener((property, old, now) -> changed(row));
        row.traineeProperty().addListener((property, old, now) -> changed(row));
        row.dateProperty().addListener((property, old, now) -> changed(row));
        row.wantedProperty().addListener((property, old, now) -> changed(row));
        return row;
    }

    private void changed(ProposedRow row) {
        row.problemProperty().set("");
        check();
    }

    ObservableList<ProposedRow> rows() {
        return rows;
    }

    /** Id of the procedure of all of them. */
    public StringProperty procedureProperty() {
        return procedure;
    }

    /** How far the measuring of files is; not a number when none is under way. */
    public ReadOnlyDoubleProperty measuringProperty() {
        return measuring.getReadOnlyProperty();
    }

    public ReadOnlyStringProperty measuredProperty() {
        return measured.getReadOnlyProperty();
    }

    /** Why they cannot be taken in yet; empty if they can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    public boolean isMeasuring() {
        return !Double.isNaN(measuring.get());
    }

    private void check() {
        whyNot.set(whyNotNow());
    }

    private String whyNotNow() {
        if (isMeasuring()) {
            return texts.get("add.why.measuring");
        }
        List<ProposedRow> wanted = wanted();
        if (wanted.isEmpty()) {
            return texts.get("import.why.nothing");
        }
        Set<String> codes = new HashSet<>();
        for (ProposedRow row : wanted) {
            String code = row.codeProperty().get().strip();
            if (code.isEmpty()) {
                return texts.get("import.why.code");
            }
            if (row.traineeProperty().get().isBlank()) {
                return texts.get("import.why.trainee", code);
            }
            if (row.dateProperty().get() == null) {
                return texts.get("import.why.date", code);
            }
            if (!codes.add(code.toLowerCase(Locale.ROOT))) {
                return texts.get("import.why.twice", code);
            }
        }
        return "";
    }

    private List<ProposedRow> wanted() {
        return rows.stream().filter(row -> row.wantedProperty().get()).toList();
    }

    /** Gives every row without a trainee this one. */
    public void fillTrainee(String code) {
        rows.stream()
                .filter(row -> row.traineeProperty().get().isBlank())
                .forEach(row -> row.traineeProperty().set(code.strip()));
    }

    /** Makes a case of each file. */
    void split(ProposedRow row) {
        int at = rows.indexOf(row);
        if (at < 0 || row.files().size() < 2 || isMeasuring()) {
            return;
        }
        LocalDate day = Objects.requireNonNullElse(row.dateProperty().get(), LocalDate.EPOCH);
        List<ProposedRow> parts = new ArrayList<>();
        for (int i = 0; i < row.files().size(); i++) {
            String code = row.codeProperty().get();
            ProposedRow part = watched(new ProposedRow(new ProposeCases.Proposal(
                    code.isEmpty() ? "" : code + "-" + (i + 1),
                    day,
                    List.of(row.files().get(i)),
                    row.hints())));
            part.traineeProperty().set(row.traineeProperty().get());
            parts.add(part);
        }
        rows.remove(at);
        rows.addAll(at, parts);
        check();
    }

    /** Adds the files of a row to the one above it: they are one operation. */
    void join(ProposedRow row) {
        int at = rows.indexOf(row);
        if (at < 1 || isMeasuring()) {
            return;
        }
        ProposedRow above = rows.get(at - 1);
        List<Path> files = new ArrayList<>(above.files());
        files.addAll(row.files());
        above.files().setAll(NaturalOrder.sorted(files));
        above.problemProperty().set("");
        rows.remove(at);
        check();
    }

    /** Measures all files; where nothing is wrong, stores the cases. */
    public void take() {
        if (!whyNotNow().isEmpty()) {
            return;
        }
        problem.set(null);
        List<ProposedRow> wanted = wanted();
        List<CaseDraft> drafts = new ArrayList<>();
        for (ProposedRow row : wanted) {
            NewCase details = new NewCase(
                    row.codeProperty().get().strip(),
                    row.traineeProperty().get().strip(),
                    Objects.requireNonNull(row.dateProperty().get()),
                    procedure.get(),
                    Map.of());
            drafts.add(new CaseDraft(details.code(), details, row.files()));
        }
        measuring.set(0);
        check();
        running = work.run(
                progress -> job.look(drafts, progress),
                looked -> looked(wanted, looked),
                this::failed,
                (fraction, message) -> {
                    if (isMeasuring()) {
                        measuring.set(Math.max(0, fraction));
                        measured.set(message);
                    }
                });
    }

    private void looked(List<ProposedRow> wanted, List<ImportCases.Looked> looked) {
        measuring.set(Double.NaN);
        boolean good = true;
        for (int i = 0; i < looked.size(); i++) {
            InputException fault = looked.get(i).fault();
            Notice refused = fault == null ? null : Notice.of(fault, texts);
            wanted.get(i).problemProperty().set(refused == null ? "" : refused.text());
            wanted.get(i)
                    .warningProperty()
                    .set(looked.get(i).warnings().stream()
                            .map(MediaWarning::text)
                            .collect(Collectors.joining("\n")));
            good &= fault == null;
        }
        check();
        if (good) {
            work.run(progress -> job.store(looked), stored, this::failed);
        } else {
            problem.set(new Notice(Notice.Tone.PROBLEM, texts.get("import.faults"), null, texts.get("import.remedy")));
        }
    }

    public void cancel() {
        if (running != null) {
            running.cancel();
        }
    }

    private void failed(Throwable failure) {
        measuring.set(Double.NaN);
        problem.set(Notice.of(failure, texts));
        check();
    }
}
