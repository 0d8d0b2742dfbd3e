package org.sideport.app.review;

import java.util.Comparator;
import java.util.Objects;
import java.util.Set;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.keys.PhaseKeys;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.timing.Boundary;
import org.sideport.timing.CaseTiming;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.TagSession;

/** What the annotator does while watching. Every tag is set on an exact frame and is in the store when it shows. */
public final class ReviewViewModel {

    static final String ANNOTATOR_SETTING = "annotator";

    private final CurrentCase current;
    private final PictureDesk desk;
    private final TagRecording tagging;
    private final Notices notices;
    private final Texts texts;
    private final Settings settings;
    private final TagWork edits;
    private final TagStamps stamps;
    private final TagHabits habits;
    private final PhaseKeys keys;
    private final OtherPhase otherPhase;
    private final EventWriting events;

    private final ReadOnlyStringWrapper annotator;
    private final ReadOnlyObjectWrapper<@Nullable Procedure> procedure = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<@Nullable Tagging> tags = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<Set<Boundary>> confirmed = new ReadOnlyObjectWrapper<>(Set.of());
    private final ReadOnlyObjectWrapper<TaggedLanes> lane = new ReadOnlyObjectWrapper<>(TaggedLanes.EMPTY);
    private final ReadOnlyObjectWrapper<@Nullable CaseTiming> timing = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyBooleanWrapper canUndo = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper canRedo = new ReadOnlyBooleanWrapper(false);
    private final ObjectProperty<Operator> operator = new SimpleObjectProperty<>(Operator.TRAINEE);
    private final ObjectProperty<@Nullable PhaseSpan> selectedSpan = new SimpleObjectProperty<>(null);
    private final ObjectProperty<@Nullable PointEvent> selectedEvent = new SimpleObjectProperty<>(null);
    private final ObservableList<TagRow> rows = FXCollections.observableArrayList();
    private final StringBinding runningTerm;
    private final ReadOnlyStringWrapper lookingAt = new ReadOnlyStringWrapper("");
    /** The annotator's own work, kept with its undo steps while somebody else's is looked at. */
    private @Nullable TagSession own;

    public ReviewViewModel(
            CurrentCase current,
            PictureDesk desk,
            TagRecording tagging,
            ComputeTimings timings,
            Background work,
            Notices notices,
            Texts texts,
            Settings settings) {
        this.current = current;
        this.desk = desk;
        this.tagging = tagging;
        this.notices = notices;
        this.texts = texts;
        this.settings = settings;
        this.edits = new TagWork(timings, work, notices, this::refused, this::took);
        this.habits = new TagHabits(settings);
        this.keys = new PhaseKeys(settings);
        this.stamps = new TagStamps(desk, edits, habits, tags::get);
        this.events = new EventWriting(desk, this::edit);
        this.otherPhase = new OtherPhase(stamps, edits, this::refused, tags::get, notices, texts);
        this.annotator = new ReadOnlyStringWrapper(settings.get(ANNOTATOR_SETTING, ""));
        this.runningTerm = Bindings.createStringBinding(this::termNow, tags, desk.timeProperty());
        current.openedProperty().addListener((property, old, now) -> caseChanged(now));
        selectedSpan.addListener((property, old, now) -> relayPlayed());
        desk.durationProperty().addListener((property, old, now) -> relay());
        caseChanged(current.opened());
        keys.onChange(() -> {
            CurrentCase.Opened open = current.opened();
            procedure.set(open == null ? null : keys.applied(open.procedure()));
            relay();
        });
    }

    // ---- state

    public PictureDesk desk() {
        return desk;
    }

    public CurrentCase current() {
        return current;
    }

    public TagHabits habits() {
        return habits;
    }

    public PhaseKeys keys() {
        return keys;
    }

    /** For saying that another phase runs than was tagged. */
    public OtherPhase otherPhase() {
        return otherPhase;
    }

    /** The boundaries of {@link #taggingProperty()} that are confirmed on their frame; set just before it. */
    public ReadOnlyObjectProperty<Set<Boundary>> confirmedProperty() {
        return confirmed.getReadOnlyProperty();
    }

    public ReadOnlyStringProperty annotatorProperty() {
        return annotator.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Procedure> procedureProperty() {
        return procedure.getReadOnlyProperty();
    }

    /** {@code null} while nothing can be tagged. */
    public ReadOnlyObjectProperty<@Nullable Tagging> taggingProperty() {
        return tags.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<TaggedLanes> laneProperty() {
        return lane.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable CaseTiming> timingProperty() {
        return timing.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canUndoProperty() {
        return canUndo.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canRedoProperty() {
        return canRedo.getReadOnlyProperty();
    }

    /** Not {@code null} while an event is being written. */
    public ReadOnlyObjectProperty<@Nullable EventDraft> eventDraftProperty() {
        return events.draftProperty();
    }

    /** Whose hands the next phase is given to. */
    public ObjectProperty<Operator> operatorProperty() {
        return operator;
    }

    public ObjectProperty<ComputeTimings.Level> levelProperty() {
        return edits.levelProperty();
    }

    public ObjectProperty<@Nullable PhaseSpan> selectedSpanProperty() {
        return selectedSpan;
    }

    public ObjectProperty<@Nullable PointEvent> selectedEventProperty() {
        return selectedEvent;
    }

    public ObservableList<TagRow> rows() {
        return rows;
    }

    /** Id of the phase or step that covers the picture on the screen; {@code null} in idle time. */
    public StringBinding runningTermProperty() {
        return runningTerm;
    }

    private @Nullable String termNow() {
        Tagging now = tags.get();
        PhaseSpan span = now == null ? null : now.spanAt(desk.timeProperty().get());
        return span == null ? null : span.phase();
    }

    /** Why nothing can be tagged now, or {@code null} if it can. */
    public @Nullable String whyNoTagging() {
        CurrentCase.Opened open = current.opened();
        if (open == null) {
            return texts.get("review.why.noCase");
        }
        if (open.recording() == null) {
            return texts.get("review.why.noRecording");
        }
        if (!lookingAt.get().isEmpty()) {
            return texts.get("review.why.looking", lookingAt.get());
        }
        return annotator.get().isEmpty() ? texts.get("review.why.noAnnotator") : null;
    }

    /** What an empty lane of phases says: whose it is and what to do; empty where there are phases, or no case. */
    public String whyNoPhases() {
        CurrentCase.Opened open = current.opened();
        if (open == null || !lane.get().tagging().spans().isEmpty()) {
            return "";
        }
        if (!lookingAt.get().isEmpty()) {
            return texts.get("lane.empty.other", lookingAt.get());
        }
        if (!annotator.get().isEmpty()) {
            return texts.get("lane.empty.own", annotator.get());
        }
        return texts.get(open.overview().annotators().isEmpty() ? "lane.empty.nobody" : "lane.empty.choose");
    }

    // ---- opening

    private void caseChanged(CurrentCase.@Nullable Opened open) {
        lookingAt.set("");
        otherPhase.cancel();
        procedure.set(open == null ? null : keys.applied(open.procedure()));
        begin();
    }

    /** Tags as {@code code} from now on. */
    public void setAnnotator(String code) {
        String wanted = code.strip();
        if (wanted.equals(annotator.get())) {
            return;
        }
        lookingAt.set("");
        operator.set(Operator.TRAINEE);
        annotator.set(wanted);
        settings.put(ANNOTATOR_SETTING, wanted);
        begin();
    }

    /** Whose tags are shown only to look at; empty while they are the annotator's own. */
    public ReadOnlyStringProperty lookingAtProperty() {
        return lookingAt.getReadOnlyProperty();
    }

    /** Shows somebody else's tags, which cannot be changed then; empty text goes back to the own ones. */
    public void lookAt(String code) {
        if (!code.equals(lookingAt.get())) {
            lookingAt.set(code);
            begin();
        }
    }

    private String shownAnnotator() {
        return lookingAt.get().isEmpty() ? annotator.get() : lookingAt.get();
    }

    private void begin() {
        edits.close();
        confirmed.set(Set.of());
        tags.set(null);
        timing.set(null);
        canUndo.set(false);
        canRedo.set(false);
        select(null, null);
        relay();
        CurrentCase.Opened open = current.opened();
        String as = shownAnnotator();
        if (open == null || open.recording() == null || as.isEmpty()) {
            return;
        }
        TagSession kept = own;
        boolean resume = kept != null
                && kept.annotator().equals(as)
                && kept.surgicalCase().code().equals(open.code());
        edits.open(
                () -> kept != null && resume
                        ? kept
                        : habits.begun(tagging.of(open.code(), as, as.equals(annotator.get()))),
                () -> open.equals(current.opened()) && as.equals(shownAnnotator()),
                session -> {
                    if (lookingAt.get().isEmpty()) {
                        own = session;
                    }
                });
    }

    /** Tags in this style from now on; where idle time would be lost, that is refused with the reason. */
    public void setStyle(TaggingStyle style) {
        Tagging now = tags.get();
        if (now == null || now.isEmpty()) {
            habits.styleProperty().set(style);
        }
        if (now != null && now.style() != style) {
            edit(session -> session.setStyle(style));
        }
    }

    private void took(TagWork.Outcome outcome) {
        confirmed.set(outcome.confirmed());
        tags.set(outcome.tagging());
        canUndo.set(outcome.canUndo());
        canRedo.set(outcome.canRedo());
        timing.set(outcome.timing());
        if (!outcome.tagging().spans().contains(selectedSpan.get())) {
            selectedSpan.set(null);
        }
        if (!outcome.tagging().events().contains(selectedEvent.get())) {
            selectedEvent.set(null);
        }
        relay();
    }

    private void relay() {
        Procedure terms = procedure.get();
        Tagging now = tags.get();
        if (terms == null) {
            lane.set(TaggedLanes.EMPTY);
            relayPlayed();
            rows.clear();
            return;
        }
        Tagging shown = now == null ? Tagging.EMPTY : now;
        lane.set(TaggedLanes.of(
                terms,
                shown,
                desk.recordingProperty().get(),
                desk.durationProperty().get()));
        relayPlayed();
        rows.setAll(TagRow.of(terms, shown));
    }

    /** Tells the desk what can be played on its own: the selected stretch, and all that is tagged. */
    private void relayPlayed() {
        PhaseSpan selected = selectedSpan.get();
        desk.options().chosenProperty().set(selected == null ? null : lane.get().stretch(selected));
        desk.options().markedProperty().set(lane.get().stretches());
    }

    /** Reckons the times anew, after something other than a tag has changed them. */
    void timesChanged() {
        edits.timesChanged();
    }

    /** A change of the tags, in the background. */
    public void edit(Consumer<TagSession> change) {
        edits.edit(change);
    }

    // ---- tagging

    /** Does what the procedure's key stands for. @return false if it stands for nothing */
    public boolean tagByKey(String key) {
        Term term = PhaseKeys.termOf(procedure.get(), key).orElse(null);
        if (term != null) {
            tag(term);
        }
        return term != null;
    }

    /** Starts a phase or step at the frame on the screen; the idle phase ends what runs. */
    public void tag(Term term) {
        if (refused()) {
            return;
        }
        Operator hands = operator.get();
        stamps.stamp((session, at) -> {
            if (term.phase().idle()) {
                session.endPhase(at);
            } else {
                session.startPhase(term.id(), at, hands);
            }
        });
    }

    private boolean refused() {
        String why = whyNoTagging();
        if (why != null) {
            notices.hint(why);
        }
        return why != null;
    }

    /** Stands still on the frame of this moment and starts writing an event on it. */
    public void beginEvent() {
        if (refused()) {
            return;
        }
        events.begin();
    }

    public void changeEvent(PointEvent event) {
        events.change(event);
    }

    public void cancelEvent() {
        events.cancel();
    }

    /** Keeps the event that is being written. */
    public void saveEvent(String kind, @Nullable Severity severity, String note) {
        events.save(kind, severity, note);
    }

    public void deleteSelected() {
        PhaseSpan span = selectedSpan.get();
        PointEvent event = selectedEvent.get();
        if (span != null) {
            edit(session -> session.removeSpan(span));
        } else if (event != null) {
            edit(session -> session.removeEvent(event));
        } else {
            selectFirst();
        }
    }

    /** Says that something must be selected first. */
    void selectFirst() {
        notices.hint(texts.get("review.why.nothingSelected"));
    }

    public void relabel(PhaseSpan span, String term) {
        edit(session -> session.relabel(span, term));
    }

    public void setOperator(PhaseSpan span, @Nullable Operator hands) {
        edit(session -> session.setOperator(span, hands));
    }

    /** Trainee, trainer, assisted, and round again. */
    public void nextOperator() {
        operator.set(
                switch (operator.get()) {
                    case TRAINEE -> Operator.TRAINER;
                    case TRAINER -> Operator.ASSISTED;
                    case ASSISTED -> Operator.TRAINEE;
                });
    }

    public void undo() {
        edit(TagSession::undo);
    }

    public void redo() {
        edit(TagSession::redo);
    }

    // ---- going places

    /** Goes to the nearest start or end after the picture on the screen, or before it. */
    public void goToBoundary(boolean forward) {
        MediaTime now = desk.timeProperty().get();
        lane.get().boundaries().stream()
                .filter(b -> forward ? b.isAfter(now) : b.isBefore(now))
                .min(Comparator.comparingLong(b -> Math.abs(b.micros() - now.micros())))
                .ifPresent(desk::seek);
    }

    public void go(TagRow row) {
        if (row instanceof TagRow.Span span) {
            select(span.span(), null);
        } else if (row instanceof TagRow.Event event) {
            select(null, event.event());
        }
        desk.seek(row.at());
    }

    public void scrub(MediaTime time) {
        desk.scrub(time);
    }

    public void seek(MediaTime time) {
        desk.seek(time);
    }

    public void select(@Nullable PhaseSpan span, @Nullable PointEvent event) {
        selectedSpan.set(span);
        selectedEvent.set(event);
    }

    public void dragBoundary(MediaTime boundary, MediaTime to) {
        desk.scrub(to);
    }

    /** Moves the boundary to the start of the frame that is on the screen at {@code to}. */
    public void dropBoundary(MediaTime boundary, MediaTime to) {
        if (refused()) {
            return;
        }
        desk.frameAt(to, frame -> {
            MediaTime earliest = lane.get().earliestFor(boundary);
            MediaTime snapped = frame.start().isBefore(earliest) ? frame.end() : frame.start();
            if (!Objects.equals(snapped, boundary)) {
                edit(session -> session.moveBoundary(boundary, snapped));
            }
        });
    }
}
