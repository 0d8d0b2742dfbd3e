package org.sideport.app.cases;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import javafx.collections.transformation.FilteredList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.RatingState;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.CaseOverview.RatingOverview;
import org.sideport.workflow.WriteWorkbook;

/** The list of cases. */
public final class CasesViewModel {

    private final CaseList cases;
    private final WriteWorkbook workbook;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final ObservableList<CaseOverview> all = FXCollections.observableArrayList();
    private final FilteredList<CaseOverview> shown = new FilteredList<>(all);
    private final StringProperty filter = new SimpleStringProperty("");
    private final BooleanProperty onlyRecorded = new SimpleBooleanProperty(false);
    private final ObjectProperty<@Nullable CaseOverview> selected = new SimpleObjectProperty<>(null);
    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyDoubleWrapper exporting = new ReadOnlyDoubleWrapper(Double.NaN);
    private Background.@Nullable Job exportJob;
    private @Nullable String wanted;

    public CasesViewModel(CaseList cases, WriteWorkbook workbook, Background work, Notices notices, Texts texts) {
        this.cases = cases;
        this.workbook = workbook;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        filter.addListener((property, old, now) -> filterAgain());
        onlyRecorded.addListener((property, old, now) -> filterAgain());
    }

    private void filterAgain() {
        String words = filter.get();
        boolean recorded = onlyRecorded.get();
        shown.setPredicate(o -> (!recorded || o.surgicalCase().recording() != null) && matches(o, words));
    }

    public ObservableList<CaseOverview> all() {
        return all;
    }

    public FilteredList<CaseOverview> shown() {
        return shown;
    }

    public StringProperty filterProperty() {
        return filter;
    }

    /** Shows only cases that have a recording. */
    public BooleanProperty onlyRecordedProperty() {
        return onlyRecorded;
    }

    public ObjectProperty<@Nullable CaseOverview> selectedProperty() {
        return selected;
    }

    /** True once the store has been read. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    /** How far the export is, 0 to 1; not a number when none is under way. */
    public ReadOnlyDoubleProperty exportingProperty() {
        return exporting.getReadOnlyProperty();
    }

    /** Every word of the filter must occur in the code, the trainee, the date, an annotator or an assessor. */
    static boolean matches(CaseOverview overview, String filter) {
        var wanted = overview.surgicalCase();
        StringBuilder text = new StringBuilder();
        text.append(wanted.code())
                .append(' ')
                .append(wanted.trainee())
                .append(' ')
                .append(wanted.date());
        wanted.descriptors().values().forEach(value -> text.append(' ').append(value));
        overview.annotators().forEach(code -> text.append(' ').append(code));
        overview.ratings().forEach(rating -> text.append(' ').append(rating.assessor()));
        String haystack = text.toString().toLowerCase(Locale.ROOT);
        for (String word : filter.toLowerCase(Locale.ROOT).strip().split("\\s+")) {
            if (!haystack.contains(word)) {
                return false;
            }
        }
        return true;
    }

    /** Reads the store again and keeps the selection. */
    public void refresh() {
        work.run(progress -> cases.all(), this::took, notices::failed);
    }

    private void took(List<CaseOverview> fresh) {
        CaseOverview before = selected.get();
        all.setAll(fresh);
        loaded.set(true);
        if (wanted != null) {
            select(wanted);
            wanted = null;
        } else if (before != null) {
            select(before.surgicalCase().code());
        }
    }

    /** Selects a case as soon as the store has been read again. */
    public void selectWhenRead(String code) {
        wanted = code;
        refresh();
    }

    public void select(String code) {
        selected.set(all.stream()
                .filter(o -> o.surgicalCase().code().equals(code))
                .findFirst()
                .orElse(null));
    }

    /** Where the case stands, in a word or two. */
    public String stateOf(CaseOverview overview) {
        if (!overview.mediaFound()) {
            return texts.get("cases.state.missing");
        }
        if (overview.ratings().stream().anyMatch(r -> r.state() == RatingState.SIGNED)) {
            return texts.get("cases.state.signed");
        }
        if (!overview.ratings().isEmpty()) {
            return texts.get("cases.state.marking");
        }
        return texts.get(overview.annotators().isEmpty() ? "cases.state.fresh" : "cases.state.tagged");
    }

    /** The marks that count: signed ones, or else drafts; never superseded ones. */
    static List<RatingOverview> current(CaseOverview overview) {
        return overview.ratings().stream()
                .filter(r -> r.state() != RatingState.SUPERSEDED)
                .toList();
    }

    // ---- workbook

    /** Why nothing can be exported now, or {@code null} if it can. */
    public @Nullable String whyNoExport() {
        return all.isEmpty() ? texts.get("cases.why.noCases") : null;
    }

    public void export(Path file) {
        exporting.set(0);
        exportJob = work.run(
                progress -> {
                    workbook.write(file, progress);
                    return file;
                },
                written -> {
                    exporting.set(Double.NaN);
                    notices.show(Notice.done(texts.get("cases.exported"), written.toString()));
                },
                failure -> {
                    exporting.set(Double.NaN);
                    notices.failed(failure);
                },
                (fraction, message) -> exporting.set(Math.max(0, fraction)));
    }

    public void cancelExport() {
        if (exportJob != null) {
            exportJob.cancel();
        }
    }
}
