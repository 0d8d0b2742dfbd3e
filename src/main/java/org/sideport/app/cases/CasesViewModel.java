package org.sideport.app.cases;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
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
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.CaseSummary;
import org.sideport.model.RatingState;
import org.sideport.workflow.CaseFilter;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.CaseOverview.RatingOverview;
import org.sideport.workflow.CompleteLogs;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.WriteWorkbook;
import org.sideport.workflow.handout.WriteFeedback;

/** The list of cases: filtered, sorted, and the one that is selected with all that is known of it. */
public final class CasesViewModel {

    /** How many of the newest cases are shown at once, while the others are still being read. */
    private static final int FIRST = 200;

    /** The selected case in full. */
    public record Detail(CaseOverview overview, EditCase.Sheet sheet) {}

    private final CaseList cases;
    private final EditCase sheets;
    private final WriteWorkbook workbook;
    private final CompleteLogs logs;
    private final WriteFeedback feedback;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final LocalDate today;

    /** As the store gives them: newest first, then by code. */
    private List<CaseSummary> all = List.of();

    private List<CaseSummary> ordered = List.of();
    private @Nullable Comparator<CaseSummary> order;

    /** What {@link #shown} was made with, and of. */
    private CaseFilter filtered = CaseFilter.ALL;

    private @Nullable List<CaseSummary> filteredFrom;
    private final ObservableList<CaseSummary> shown = FXCollections.observableArrayList();
    private final ObservableList<String> trainees = FXCollections.observableArrayList();
    private final ObservableList<String> procedures = FXCollections.observableArrayList();
    private final StringProperty words = new SimpleStringProperty("");
    private final ObjectProperty<CaseFilter> filter = new SimpleObjectProperty<>(CaseFilter.ALL);
    private final ReadOnlyStringWrapper count = new ReadOnlyStringWrapper("");
    private final ObjectProperty<@Nullable CaseSummary> selected = new SimpleObjectProperty<>(null);
    private final ReadOnlyObjectWrapper<@Nullable Detail> detail = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyBooleanWrapper begun = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper empty = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyStringWrapper whyNoExport = new ReadOnlyStringWrapper("");
    private final ReadOnlyDoubleWrapper exporting = new ReadOnlyDoubleWrapper(Double.NaN);
    private Background.@Nullable Job exportJob;
    private @Nullable String wanted;

    /** When to read the cases that are not among the newest. */
    private Consumer<Runnable> afterFirst = Runnable::run;

    /** @param today the day against which a review is due */
    public CasesViewModel(
            CaseList cases,
            EditCase sheets,
            WriteWorkbook workbook,
            CompleteLogs logs,
            WriteFeedback feedback,
            Background work,
            Notices notices,
            Texts texts,
            LocalDate today) {
        this.cases = cases;
        this.sheets = sheets;
        this.logs = logs;
        this.workbook = workbook;
        this.feedback = feedback;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.today = today;
        whyNoExport.set(whyNoExport(true));
        words.addListener((property, old, now) -> filterAgain());
        filter.addListener((property, old, now) -> filterAgain());
        selected.addListener((property, old, now) -> readDetail(now));
    }

    // ---- the list

    /** The cases that the filter lets through, in the order that was asked for. */
    public ObservableList<CaseSummary> shown() {
        return shown;
    }

    /** What the list can be narrowed down to, alphabetical. */
    public ObservableList<String> trainees() {
        return trainees;
    }

    public ObservableList<String> procedures() {
        return procedures;
    }

    /** Words of which each must occur somewhere in a case. */
    public StringProperty wordsProperty() {
        return words;
    }

    /** All of the filter but its words. */
    public ObjectProperty<CaseFilter> filterProperty() {
        return filter;
    }

    public void narrow(UnaryOperator<CaseFilter> change) {
        filter.set(change.apply(filter.get()));
    }

    /** Lets every case through again. */
    public void clearFilter() {
        words.set("");
        filter.set(CaseFilter.ALL);
    }

    public boolean isFiltered() {
        return !words.get().isBlank() || !filter.get().equals(CaseFilter.ALL);
    }

    /** "12 of 340 cases". */
    public ReadOnlyStringProperty countProperty() {
        return count.getReadOnlyProperty();
    }

    public LocalDate today() {
        return today;
    }

    /** Sorts the list; {@code null} gives newest first, and so do cases that compare equal. */
    public void sort(@Nullable Comparator<CaseSummary> wantedOrder) {
        order = wantedOrder;
        orderAgain();
        filterAgain();
    }

    private void orderAgain() {
        Comparator<CaseSummary> by = order;
        if (by == null) {
            ordered = all;
        } else {
            List<CaseSummary> sorted = new ArrayList<>(all);
            sorted.sort(by);
            ordered = sorted;
        }
    }

    private void filterAgain() {
        CaseFilter parts = filter.get();
        CaseFilter whole = CaseFilters.words(parts, words.get());
        // with more letters of the same search only fewer can match: look among those that did
        List<CaseSummary> among = narrows(whole) ? List.copyOf(shown) : ordered;
        List<CaseSummary> through = among;
        if (!whole.equals(CaseFilter.ALL)) {
            Predicate<CaseSummary> test = whole.predicate();
            List<CaseSummary> found = new ArrayList<>();
            for (CaseSummary one : among) {
                if (test.test(one)) {
                    found.add(one);
                }
            }
            through = found;
        }
        filtered = whole;
        filteredFrom = ordered;
        if (!areSame(through, shown)) {
            shown.setAll(through);
        }
        tellCount();
    }

    @SuppressWarnings("ReferenceEquality") // the same list, not an equal one: cheap, and only ever a reason to do more
    private boolean narrows(CaseFilter whole) {
        return filteredFrom == ordered
                && whole.words().startsWith(filtered.words())
                && CaseFilters.words(whole, "").equals(CaseFilters.words(filtered, ""));
    }

    @SuppressWarnings(
            "ReferenceEquality") // the very lines: to compare what they hold would take longer than showing them
    private static boolean areSame(List<CaseSummary> one, List<CaseSummary> other) {
        if (one.size() != other.size()) {
            return false;
        }
        for (int i = 0; i < one.size(); i++) {
            if (one.get(i) != other.get(i)) {
                return false;
            }
        }
        return true;
    }

    private void tellCount() {
        count.set(all.isEmpty() ? "" : texts.get("cases.count", shown.size(), all.size()));
    }

    /** True once the newest cases are in the list, or could not be read. */
    public ReadOnlyBooleanProperty begunProperty() {
        return begun.getReadOnlyProperty();
    }

    /** True once the store has been read as a whole. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    /** True if the store was read and holds no case. */
    public ReadOnlyBooleanProperty emptyProperty() {
        return empty.getReadOnlyProperty();
    }

    /** @param drawn runs what it is given once the newest cases are on the screen: a long list must not delay its first rows */
    void readRestAfter(Consumer<Runnable> drawn) {
        afterFirst = drawn;
    }

    /** Reads the store again and keeps the selection; the newest cases come at once, the others when they are read. */
    public void refresh() {
        if (loaded.get()) {
            readAll();
        } else {
            work.run(progress -> cases.newest(FIRST), this::tookFirst, failure -> {
                begun.set(true);
                notices.failed(failure);
            });
        }
    }

    private void readAll() {
        work.run(progress -> cases.newest(-1), this::took, notices::failed);
    }

    private void tookFirst(List<CaseSummary> newest) {
        if (!loaded.get()) {
            all = newest;
            orderAgain();
            filterAgain();
        }
        begun.set(true);
        afterFirst.accept(this::readAll);
    }

    private void took(List<CaseSummary> fresh) {
        CaseSummary before = selected.get();
        loaded.set(true);
        empty.set(fresh.isEmpty());
        whyNoExport.set(whyNoExport(fresh.isEmpty()));
        boolean same = fresh.equals(all);
        all = fresh;
        if (!same) {
            orderAgain();
            filterAgain();
        } else {
            tellCount();
        }
        trainees.setAll(
                fresh.stream().map(CaseSummary::trainee).distinct().sorted().toList());
        procedures.setAll(
                fresh.stream().map(CaseSummary::procedure).distinct().sorted().toList());
        String code = wanted != null ? wanted : before == null ? null : before.code();
        wanted = null;
        if (code != null) {
            select(code);
            readDetail(selected.get());
        }
    }

    // ---- the selected case

    public ObjectProperty<@Nullable CaseSummary> selectedProperty() {
        return selected;
    }

    /** The selected case in full; {@code null} while it is being read. */
    public ReadOnlyObjectProperty<@Nullable Detail> detailProperty() {
        return detail.getReadOnlyProperty();
    }

    private void readDetail(@Nullable CaseSummary one) {
        Detail now = detail.get();
        if (one == null || (now != null && !now.sheet().surgicalCase().code().equals(one.code()))) {
            detail.set(null);
        }
        if (one != null) {
            String code = one.code();
            work.run(
                    progress -> new Detail(cases.one(code), sheets.open(code)),
                    read -> {
                        CaseSummary still = selected.get();
                        if (still != null && still.code().equals(code)) {
                            detail.set(read);
                        }
                    },
                    notices::failed);
        }
    }

    /** Selects a case as soon as the store has been read again. */
    public void selectWhenRead(String code) {
        wanted = code;
        refresh();
    }

    public void select(String code) {
        selected.set(all.stream().filter(o -> o.code().equals(code)).findFirst().orElse(null));
    }

    /** The marks that count: signed ones, or else drafts; never superseded ones. */
    static List<RatingOverview> current(CaseOverview overview) {
        return overview.ratings().stream()
                .filter(r -> r.state() != RatingState.SUPERSEDED)
                .toList();
    }

    // ---- workbook

    private String whyNoExport(boolean noCases) {
        if (!workbook.isOffered()) {
            return texts.get("cases.why.role");
        }
        return noCases ? texts.get("cases.why.noCases") : "";
    }

    /** Why nothing can be exported now; empty if it can. */
    public ReadOnlyStringProperty whyNoExportProperty() {
        return whyNoExport.getReadOnlyProperty();
    }

    /** How far the export is, 0 to 1; not a number when none is under way. */
    public ReadOnlyDoubleProperty exportingProperty() {
        return exporting.getReadOnlyProperty();
    }

    /** @param shared true for one to be passed on: no single cases, small counts hidden */
    public void export(Path file, boolean shared) {
        exporting.set(0);
        WriteWorkbook.Wish wish = new WriteWorkbook.Wish(texts.locale().getLanguage(), shared, logs);
        exportJob = work.named("jobs.export")
                .run(
                        progress -> {
                            workbook.write(file, wish, progress);
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

    /** True if whoever is here may hand out feedback on some case. */
    public boolean isFeedbackOffered() {
        return feedback.isOffered();
    }

    /**
     * Writes the feedback on a case in the language of the screens.
     *
     * @param file a page (html) with a folder beside it, or paper (pdf)
     */
    public void exportFeedback(String code, Path file) {
        exporting.set(0);
        exportJob = work.named("jobs.feedback")
                .run(
                        progress -> feedback.write(
                                WriteFeedback.Wanted.of(code, texts.locale().getLanguage()), file, progress),
                        written -> {
                            exporting.set(Double.NaN);
                            notices.show(new Notice(
                                    Notice.Tone.DONE,
                                    texts.get(
                                            written.media() == null ? "feedback.written" : "feedback.written.media",
                                            written.marks(),
                                            written.comments()),
                                    written.file().toString(),
                                    written.warnings().isEmpty() ? null : String.join(" ", written.warnings())));
                        },
                        failure -> {
                            exporting.set(Double.NaN);
                            notices.failed(failure);
                        },
                        (fraction, message) -> exporting.set(Math.max(0, fraction)));
    }

    public void cancelExport() {
        Objects.requireNonNullElse(exportJob, (Background.Job) () -> {}).cancel();
    }
}
