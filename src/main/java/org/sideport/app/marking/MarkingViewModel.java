package org.sideport.app.marking;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.review.TaggedLanes;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rubric;
import org.sideport.workflow.AmendMark;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MarkSession;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.Vocabularies;

/** An assessor marks a case item by item. Each mark is in the store when it shows. */
public final class MarkingViewModel implements ItemMarking {

    static final String ASSESSOR_SETTING = "assessor";

    private final CurrentCase current;
    private final PictureDesk desk;
    private final MarkCase marking;
    private final Amendment amendment;
    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Settings settings;

    private final ReadOnlyStringWrapper assessor;
    private final ObservableList<Rubric> rubrics = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<@Nullable Rubric> rubric = new ReadOnlyObjectWrapper<>(null);
    private final OpenDraft draft;
    private final ReadOnlyIntegerWrapper focused = new ReadOnlyIntegerWrapper(0);
    private final ItemsInRecording recording;
    private boolean mayMark = true;

    /** What is read when a case comes. */
    private record Material(List<Rubric> rubrics, ItemsInRecording.Tags tags) {}

    public MarkingViewModel(
            CurrentCase current,
            PictureDesk desk,
            MarkCase marking,
            AmendMark amending,
            Vocabularies vocabularies,
            TagRecording tagging,
            Background work,
            Notices notices,
            Texts texts,
            Settings settings) {
        this.current = current;
        this.desk = desk;
        this.marking = marking;
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.settings = settings;
        this.draft = new OpenDraft(work, notices);
        this.amendment = new Amendment(draft, amending, () -> mayMark, this::begin, work, notices);
        this.recording = new ItemsInRecording(current, desk, tagging, notices, texts);
        this.assessor = new ReadOnlyStringWrapper(settings.get(ASSESSOR_SETTING, ""));
        current.openedProperty().addListener((property, old, now) -> refresh());
        refresh();
    }

    // ---- state

    public PictureDesk desk() {
        return desk;
    }

    public CurrentCase current() {
        return current;
    }

    public ReadOnlyStringProperty assessorProperty() {
        return assessor.getReadOnlyProperty();
    }

    public ObservableList<Rubric> rubrics() {
        return rubrics;
    }

    public ReadOnlyObjectProperty<@Nullable Rubric> rubricProperty() {
        return rubric.getReadOnlyProperty();
    }

    /** {@code null} while nothing can be marked. */
    public ReadOnlyObjectProperty<@Nullable Marks> marksProperty() {
        return draft.marksProperty();
    }

    /** Position in the rubric of the item that the keys mark. */
    public ReadOnlyIntegerProperty focusedProperty() {
        return focused.getReadOnlyProperty();
    }

    @Override
    public ReadOnlyObjectProperty<TaggedLanes> laneProperty() {
        return recording.laneProperty();
    }

    /** True if the assessor marks an operation of their own. */
    public boolean isSelf() {
        CurrentCase.Opened open = current.opened();
        return open != null && open.overview().surgicalCase().trainee().equals(assessor.get());
    }

    /** Why nothing can be marked now, or {@code null} if it can. */
    @Override
    public @Nullable String whyNoMarking() {
        if (current.opened() == null) {
            return texts.get("marking.why.noCase");
        }
        if (assessor.get().isEmpty()) {
            return texts.get("marking.why.noAssessor");
        }
        if (rubrics.isEmpty()) {
            return texts.get("marking.why.noRubric");
        }
        if (!mayMark) {
            return texts.get("marking.why.role");
        }
        Marks now = draft.marks();
        return now != null && now.isSigned() ? texts.get("marking.why.signed") : null;
    }

    /** Why it cannot be signed now, or {@code null} if it can. */
    public @Nullable String whyNoSigning() {
        String why = whyNoMarking();
        Marks now = draft.marks();
        if (why != null || now == null) {
            return why;
        }
        int missing = now.score().missing().size();
        return missing == 0 ? null : texts.get("marking.why.missing", missing);
    }

    // ---- opening

    /** Reads rubrics and tags again: to be called when the screen comes up. */
    public void refresh() {
        CurrentCase.Opened open = current.opened();
        if (open == null) {
            rubrics.clear();
            rubric.set(null);
            recording.forget();
            draft.close();
            return;
        }
        work.run(
                progress -> new Material(
                        vocabularies.rubrics(open.procedure().id()),
                        recording.read(open, List.of(settings.get("annotator", ""), assessor.get()))),
                material -> {
                    if (!open.equals(current.opened())) {
                        return;
                    }
                    recording.take(material.tags());
                    if (!rubrics.equals(material.rubrics())) {
                        rubrics.setAll(material.rubrics());
                        rubric.set(rubrics.isEmpty() ? null : rubrics.get(0));
                    }
                    begin();
                },
                notices::failed);
    }

    public void setAssessor(String code) {
        String wanted = code.strip();
        if (!wanted.equals(assessor.get())) {
            assessor.set(wanted);
            settings.put(ASSESSOR_SETTING, wanted);
            begin();
        }
    }

    public void setRubric(Rubric wanted) {
        if (!wanted.equals(rubric.get())) {
            rubric.set(wanted);
            focused.set(0);
            begin();
        }
    }

    /** The code that one tagged as, which is offered before the first mark; empty if there is none. */
    public String suggestedCode() {
        return assessor.get().isEmpty() ? settings.get("annotator", "") : "";
    }

    /** True if who signed in marks under the own code, which is not to be changed. */
    public boolean isAssessorFixed() {
        return settings.isFixed(ASSESSOR_SETTING);
    }

    private void begin() {
        mayMark = true;
        draft.close();
        CurrentCase.Opened open = current.opened();
        Rubric by = rubric.get();
        String as = assessor.get();
        if (open == null || by == null || as.isEmpty()) {
            return;
        }
        boolean self = isSelf();
        work.run(
                progress -> marking.isOffered(open.code(), self)
                        ? Optional.of(Marks.of(marking.open(open.code(), as, self, by)))
                        : Optional.<Marks>empty(),
                found -> {
                    mayMark = found.isPresent();
                    Marks opened = found.orElse(null);
                    if (opened != null
                            && open.equals(current.opened())
                            && as.equals(assessor.get())
                            && by.equals(rubric.get())) {
                        // what was begun in an earlier version goes on in it
                        rubric.set(opened.session().rubric());
                        draft.open(opened);
                        String warning = opened.session().consentWarning();
                        if (!warning.isEmpty()) {
                            notices.hint(texts.get("marking.consent", open.code()));
                        }
                        int last = opened.session().rubric().items().size() - 1;
                        focused.set(Math.min(focused.get(), Math.max(0, last)));
                    }
                },
                notices::failed);
    }

    /** @param item that it marks, or {@code null} */
    private void edit(Rubric.@Nullable Item item, Consumer<MarkSession> change) {
        String why = whyNoMarking();
        if (why != null) {
            notices.hint(why);
        } else {
            draft.write(item == null ? "" : item.id(), change);
        }
    }

    private void edit(Consumer<MarkSession> change) {
        edit(null, change);
    }

    // ---- marking

    public Rubric.@Nullable Item focusedItem() {
        Rubric now = rubric.get();
        return now == null || now.items().isEmpty() ? null : now.items().get(focused.get());
    }

    /** Goes to the next item that has neither mark nor reason, from the top again after the last one. */
    public void focusNextMissing() {
        Rubric now = rubric.get();
        if (now == null) {
            return;
        }
        int items = now.items().size();
        for (int i = 1; i <= items; i++) {
            int next = (focused.get() + i) % items;
            if (scoreOf(now.items().get(next)) == null) {
                focused.set(next);
                return;
            }
        }
        notices.hint(texts.get("marking.noneMissing"));
    }

    public void focus(int item) {
        Rubric now = rubric.get();
        if (now != null && !now.items().isEmpty()) {
            focused.set(Math.max(0, Math.min(now.items().size() - 1, item)));
        }
    }

    @Override
    public void focus(Rubric.Item item) {
        Rubric now = rubric.get();
        if (now != null) {
            focus(now.items().indexOf(item));
        }
    }

    @Override
    public @Nullable ItemScore scoreOf(Rubric.Item item) {
        Marks now = draft.marks();
        return now == null ? null : now.rating().score(item.id()).orElse(null);
    }

    @Override
    public boolean isComing(Rubric.Item item) {
        return draft.isComing(item.id());
    }

    /** Why nothing can be written for the item in focus, or {@code null} if it can. */
    @Nullable
    String whyNoComment() {
        Rubric.Item item = focusedItem();
        boolean waits = item != null && !item.kind().isNumber() && scoreOf(item) == null && !isComing(item);
        String why = whyNoMarking();
        return why != null || !waits ? why : texts.get("marking.why.markFirst");
    }

    void say(String why) {
        notices.hint(why);
    }

    @Override
    public boolean isCriticalFailure(Rubric.Item item) {
        Marks now = draft.marks();
        return now != null && now.score().criticalFailures().contains(item.id());
    }

    @Override
    public void mark(Rubric.Item item, int points) {
        edit(item, session -> session.mark(item.id(), points));
    }

    /** Marks by a number as it was written; what is no number is said. */
    @Override
    public void markValue(Rubric.Item item, String written) {
        String text = written.strip().replace(',', '.');
        if (text.isEmpty()) {
            return;
        }
        try {
            double value = Double.parseDouble(text);
            edit(item, session -> session.markValue(item.id(), value));
        } catch (NumberFormatException e) {
            notices.hint(texts.get("item.value.noNumber", written));
        }
    }

    /** Marks by the time of the item's phase in the tags that are shown. */
    @Override
    public void markFromTags(Rubric.Item item) {
        edit(item, session -> session.markFromTags(item.id(), recording.taggedBy()));
    }

    /** Adds the moment on the screen to what the item's mark rests on, or takes it away. */
    @Override
    public void toggleEvidence(Rubric.Item item) {
        if (whyNoMarking() == null && scoreOf(item) == null && !isComing(item)) {
            notices.hint(texts.get("marking.why.markFirst"));
            return;
        }
        toggleEvidence(item, desk.timeProperty().get());
    }

    @Override
    public void toggleEvidence(Rubric.Item item, MediaTime moment) {
        edit(session -> session.toggleEvidence(item.id(), moment));
    }

    /** Keeps what was agreed to work on next, if it changed. */
    public void agree(List<String> actions) {
        List<String> kept =
                actions.stream().map(String::strip).filter(a -> !a.isEmpty()).toList();
        Marks now = draft.marks();
        if (now != null
                && !now.isSigned()
                && draft.isNew("actions", now.rating().actions(), kept)) {
            edit(session -> session.agree(kept));
        }
    }

    @Override
    public void excuse(Rubric.Item item, NotApplicable reason) {
        edit(item, session -> session.excuse(item.id(), reason));
    }

    @Override
    public void clear(Rubric.Item item) {
        draft.forget("item " + item.id());
        edit(session -> session.clear(item.id()));
    }

    /** Keeps a comment, if it changed. */
    @Override
    public void comment(Rubric.Item item, String text) {
        ItemScore now = scoreOf(item);
        boolean open = now != null || isComing(item);
        if (open && draft.isNew("item " + item.id(), now == null ? "" : now.comment(), text.strip())) {
            edit(session -> session.comment(item.id(), text.strip()));
        }
    }

    public void overallComment(String text) {
        Marks now = draft.marks();
        if (now != null
                && !now.isSigned()
                && draft.isNew("overall", now.rating().comment(), text.strip())) {
            edit(session -> session.overallComment(text.strip()));
        }
    }

    /** Marks the focused item. @return false if it cannot be given these points */
    public boolean markFocused(int points) {
        Rubric.Item item = focusedItem();
        Rubric now = rubric.get();
        if (item != null && item.kind() == Rubric.Kind.COUNT) {
            markValue(item, Integer.toString(points));
            return true;
        }
        if (item == null
                || now == null
                || item.kind().isNumber()
                || !now.pointsOf(item).contains(points)) {
            return false;
        }
        mark(item, points);
        return true;
    }

    /** Leaves out the focused item; says so if the rubric does not allow the reason. */
    public void excuseFocused(NotApplicable reason) {
        Rubric.Item item = focusedItem();
        if (item != null && item.notApplicable().contains(reason)) {
            excuse(item, reason);
        } else if (item != null) {
            notices.hint(texts.get("marking.why.reason"));
        }
    }

    public void clearFocused() {
        Rubric.Item item = focusedItem();
        if (item != null && scoreOf(item) != null) {
            clear(item);
        }
    }

    /** Says that the digest of what was signed has been copied. */
    void digestCopied(String digest) {
        notices.hint(texts.get("score.digest.copied", digest));
    }

    /** Signs: nothing can be changed afterwards. The caller has asked. */
    public void sign() {
        String why = whyNoSigning();
        if (why != null) {
            notices.hint(why);
        } else {
            edit(MarkSession::sign);
        }
    }

    /** Correcting what was signed. */
    Amendment amendment() {
        return amendment;
    }

    // ---- the recording

    /** Where the item is to be seen, in time order. */
    public List<PhaseSpan> episodesOf(Rubric.Item item) {
        return recording.episodesOf(item);
    }

    @Override
    public @Nullable String whyNoJump(Rubric.Item item) {
        return recording.whyNoJump(item);
    }

    @Override
    public void jump(Rubric.Item item) {
        recording.jump(item);
    }

    public void scrub(MediaTime time) {
        desk.scrub(time);
    }

    @Override
    public void seek(MediaTime time) {
        desk.seek(time);
    }
}
