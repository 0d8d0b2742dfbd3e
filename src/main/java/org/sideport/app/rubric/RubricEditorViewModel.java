package org.sideport.app.rubric;

import java.util.List;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.UnaryOperator;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.model.Procedure;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;
import org.sideport.workflow.RubricWorkshop;
import org.sideport.workflow.RubricWorkshop.Opened;
import org.sideport.workflow.RubricWorkshop.Shelf;

/** The rubrics at hand, and the one that is being written. */
public final class RubricEditorViewModel {

    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final RubricWorkshop workshop;
    private final Background work;
    private final Notices notices;
    private final Texts texts;

    private final ObservableList<Shelf> shelves = FXCollections.observableArrayList();
    private List<Procedure> procedures = List.of();
    private final ReadOnlyObjectWrapper<@Nullable RubricDraft> draft = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<List<Finding>> findings = new ReadOnlyObjectWrapper<>(List.of());
    private final ReadOnlyObjectWrapper<Part> part = new ReadOnlyObjectWrapper<>(Part.FORM);
    private final ReadOnlyStringWrapper language = new ReadOnlyStringWrapper("");
    private final ReadOnlyBooleanWrapper canUndo = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper canRedo = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyStringWrapper whyNoSaving = new ReadOnlyStringWrapper("");
    private final AtomicReference<@Nullable RubricDraft> wanted = new AtomicReference<>();

    private @Nullable Opened opened;
    private @Nullable DraftHistory history;
    private @Nullable RubricDraft saved;
    /** Place that is being typed into; empty otherwise. */
    private String typing = "";

    private record Material(List<Shelf> shelves, List<Procedure> procedures) {}

    public RubricEditorViewModel(RubricWorkshop workshop, Background work, Notices notices, Texts texts) {
        this.workshop = workshop;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
    }

    // ---- state

    /** The rubrics at hand. */
    public ObservableList<Shelf> shelves() {
        return shelves;
    }

    /** What rubrics can be for. */
    public List<Procedure> procedures() {
        return procedures;
    }

    /** {@code null} while none is open. */
    public ReadOnlyObjectProperty<@Nullable RubricDraft> draftProperty() {
        return draft.getReadOnlyProperty();
    }

    /** Every fault of the draft. */
    public ReadOnlyObjectProperty<List<Finding>> findingsProperty() {
        return findings.getReadOnlyProperty();
    }

    ReadOnlyObjectProperty<Part> partProperty() {
        return part.getReadOnlyProperty();
    }

    /** Language whose words stand beside the rubric's own; empty for none. */
    public ReadOnlyStringProperty languageProperty() {
        return language.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canUndoProperty() {
        return canUndo.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canRedoProperty() {
        return canRedo.getReadOnlyProperty();
    }

    /** Why it cannot be saved now; empty if it can. */
    public ReadOnlyStringProperty whyNoSavingProperty() {
        return whyNoSaving.getReadOnlyProperty();
    }

    /** The procedure that the draft is for, if there is one of that id. */
    @Nullable
    Procedure procedure() {
        RubricDraft now = draft.get();
        return now == null
                ? null
                : procedures.stream()
                        .filter(p -> p.id().equals(now.text("/procedure")))
                        .findFirst()
                        .orElse(null);
    }

    /** True if something would be lost by closing. */
    public boolean isChanged() {
        return draft.get() != null && !Objects.equals(draft.get(), saved);
    }

    /** What is to be known of the version that is open; empty if nothing is. */
    public String versionNote() {
        RubricDraft now = draft.get();
        Opened from = opened;
        if (now == null || from == null || now.earlier() == null) {
            return "";
        }
        String before = now.earlier().version();
        return from.file() != null
                ? texts.get("rubrics.note.again", before)
                : from.ratings() == 0
                        ? texts.get("rubrics.note.shipped", before)
                        : texts.get("rubrics.note.used", before, from.ratings());
    }

    // ---- opening

    /** True once what there is was read: before that nothing is known to be empty. */
    public ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    /** Reads the rubrics at hand anew. */
    public void refresh() {
        work.run(
                progress -> new Material(workshop.shelf(), workshop.procedures()),
                read -> {
                    procedures = read.procedures();
                    // rows that are the same stay as they are, under a click that is just being made too
                    if (!shelves.equals(read.shelves())) {
                        shelves.setAll(read.shelves());
                    }
                    loaded.set(true);
                },
                notices::failed);
    }

    public void fresh(Procedure procedure) {
        open(progress -> workshop.fresh(procedure.id()));
    }

    public void copy(Shelf of) {
        open(progress -> workshop.copy(of));
    }

    public void change(Shelf shelf) {
        open(progress -> workshop.open(shelf));
    }

    private void open(Background.Work<Opened> way) {
        work.run(
                way,
                made -> {
                    notices.clear();
                    begin(made);
                },
                notices::failed);
    }

    private void begin(Opened made) {
        opened = made;
        history = new DraftHistory(made.draft());
        // a copy or a fresh one is on no disk yet
        saved = made.text() == null && made.draft().earlier() == null ? null : made.draft();
        language.set("");
        part.set(Part.FORM);
        findings.set(List.of());
        show();
    }

    /** Goes back to the list; what was not saved is gone. The caller has asked. */
    public void close() {
        opened = null;
        history = null;
        saved = null;
        wanted.set(null);
        draft.set(null);
        findings.set(List.of());
        refresh();
    }

    void go(Part to) {
        pause();
        part.set(to);
    }

    /** The part after or before the one that is shown. */
    void step(int by) {
        RubricDraft now = draft.get();
        if (now != null) {
            List<Part> all = Part.all(now);
            go(all.get(Math.floorMod(all.indexOf(part.get()) + by, all.size())));
        }
    }

    public void setLanguage(String tag) {
        language.set(tag.strip());
    }

    // ---- changing

    /** Place that is being typed into; empty if the draft changed otherwise. */
    String typing() {
        return typing;
    }

    /** Keeps what was typed at a place. */
    public void type(String path, String text) {
        DraftHistory steps = history;
        if (steps != null && !steps.now().text(path).equals(text)) {
            typing = path;
            steps.change(steps.now().with(path, text), path);
            show();
            typing = "";
        }
    }

    /** Changes the draft in one step. */
    public void edit(UnaryOperator<RubricDraft> change) {
        DraftHistory steps = history;
        if (steps != null) {
            steps.change(change.apply(steps.now()), null);
            show();
        }
    }

    /** What is typed next is another step. */
    void pause() {
        if (history != null) {
            history.pause();
        }
    }

    /** Adds an item to the domain of the part that is shown, or to the last one, and goes to it. */
    public void addItem() {
        RubricDraft now = draft.get();
        if (now == null) {
            return;
        }
        List<String> domains = now.texts("/domains", "id");
        String domain = part.get().kind() == Part.Kind.ITEM
                ? now.text(part.get().path() + "/domain")
                : domains.isEmpty() ? "" : domains.get(domains.size() - 1);
        List<String> before = now.texts("/items", "id");
        edit(d -> d.addItem(domain));
        List<String> ids = Objects.requireNonNull(draft.get()).texts("/items", "id");
        ids.stream().filter(id -> !before.contains(id)).findFirst().ifPresent(id -> go(Part.item(ids.indexOf(id))));
    }

    void removeItem(int index) {
        edit(d -> d.without("/items", index));
        go(Part.FORM);
    }

    void moveItem(int index, int by) {
        RubricDraft now = draft.get();
        if (now != null) {
            String id = now.text("/items/" + index + "/id");
            edit(d -> d.moved("/items", index, by));
            go(Part.item(
                    Objects.requireNonNull(draft.get()).texts("/items", "id").indexOf(id)));
        }
    }

    public void undo() {
        DraftHistory steps = history;
        if (steps != null) {
            steps.undo();
            show();
        }
    }

    public void redo() {
        DraftHistory steps = history;
        if (steps != null) {
            steps.redo();
            show();
        }
    }

    private void show() {
        DraftHistory steps = history;
        if (steps == null) {
            return;
        }
        RubricDraft now = steps.now();
        if (!Part.all(now).contains(part.get())) {
            part.set(Part.FORM);
        }
        canUndo.set(steps.canUndo());
        canRedo.set(steps.canRedo());
        draft.set(now);
        wanted.set(now);
        List<Procedure> known = procedures;
        work.run(
                // what is typed quickly is checked once
                progress -> now.equals(wanted.get()) ? RubricWorkshop.check(now, known) : List.<Finding>of(),
                found -> {
                    if (now.equals(wanted.get())) {
                        findings.set(found);
                        sayWhyNoSaving();
                    }
                },
                notices::failed);
    }

    private void sayWhyNoSaving() {
        long errors = findings.get().stream().filter(Finding::isError).count();
        whyNoSaving.set(
                errors > 0
                        ? texts.get("rubrics.why.faults", errors)
                        : isChanged() ? "" : texts.get("rubrics.why.unchanged"));
    }

    /** Writes the file; says where. */
    public void save() {
        Opened from = opened;
        RubricDraft now = draft.get();
        if (from == null || now == null) {
            return;
        }
        if (!whyNoSaving.get().isEmpty()) {
            notices.hint(whyNoSaving.get());
            return;
        }
        work.run(
                progress -> {
                    RubricWorkshop.Saved done = workshop.save(from, now);
                    return new Again(done, workshop.reopen(done));
                },
                done -> {
                    if (from.equals(opened)) {
                        opened = done.opened();
                        saved = now;
                        sayWhyNoSaving();
                    }
                    notices.show(Notice.done(
                            texts.get(
                                    "rubrics.saved",
                                    done.saved().rubric().title(),
                                    done.saved().rubric().version()),
                            String.valueOf(done.saved().file())));
                },
                notices::failed);
    }

    private record Again(RubricWorkshop.Saved saved, Opened opened) {}
}
