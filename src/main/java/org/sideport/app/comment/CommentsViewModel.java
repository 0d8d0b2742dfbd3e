package org.sideport.app.comment;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.PicturePoint;
import org.sideport.model.Rubric;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.Vocabularies;

/** The comments on the open case. Each edit is in the store when it shows; a comment is kept from its first word or line on. */
public final class CommentsViewModel {

    private final CurrentCase current;
    private final PictureDesk desk;
    private final ReadOnlyStringProperty person;
    private final CommentCase job;
    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final Texts texts;

    private final ObservableList<CommentThread> all = FXCollections.observableArrayList();
    private final ObservableList<CommentThread> shown = FXCollections.observableArrayList();
    private final ObservableList<ItemChoice> items = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable CommentTone> tone = new SimpleObjectProperty<>(null);
    private final BooleanProperty unreadOnly = new SimpleBooleanProperty(false);
    private final ObjectProperty<DrawnMark.@Nullable Kind> tool = new SimpleObjectProperty<>(null);
    private final ObjectProperty<MarkColour> colour = new SimpleObjectProperty<>(MarkColour.YELLOW);
    private final ReadOnlyObjectWrapper<@Nullable CommentDraft> draft = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyIntegerWrapper unread = new ReadOnlyIntegerWrapper(0);
    private final ReadOnlyBooleanWrapper canUndo = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper canRedo = new ReadOnlyBooleanWrapper(false);
    private final OnPicture onPicture;
    private @Nullable CommentSession session;

    private record State(List<CommentThread> threads, boolean canUndo, boolean canRedo) {}

    private record Opening(@Nullable CommentSession session, State state, List<ItemChoice> items) {}

    /** @param person code of who is at work */
    public CommentsViewModel(
            CurrentCase current,
            PictureDesk desk,
            ReadOnlyStringProperty person,
            CommentCase job,
            Vocabularies vocabularies,
            Background work,
            Notices notices,
            Texts texts) {
        this.current = current;
        this.desk = desk;
        this.person = person;
        this.job = job;
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        current.openedProperty().addListener((property, old, now) -> open());
        person.addListener((property, old, now) -> open());
        tone.addListener((property, old, now) -> filter());
        unreadOnly.addListener((property, old, now) -> filter());
        desk.playingProperty().addListener((property, old, now) -> {
            if (now) {
                tool.set(null);
            }
        });
        onPicture = new OnPicture(desk, all, draft.getReadOnlyProperty());
        open();
    }

    // ---- what is to be seen

    /** What passes the filters, by time. */
    public ObservableList<CommentThread> shown() {
        return shown;
    }

    /** All threads by time, whatever the filters. */
    public ObservableList<CommentThread> all() {
        return all;
    }

    /** Items of the procedure's rubrics, first none. */
    public ObservableList<ItemChoice> items() {
        return items;
    }

    public String titleOf(ItemLink link) {
        return items.stream()
                .filter(choice -> link.equals(choice.link()))
                .map(ItemChoice::title)
                .findFirst()
                .orElse(link.item());
    }

    /** Only comments of this tone; {@code null} for all. */
    public ObjectProperty<@Nullable CommentTone> toneProperty() {
        return tone;
    }

    public BooleanProperty unreadOnlyProperty() {
        return unreadOnly;
    }

    /** Whether comments are shown on the picture at their time. */
    public BooleanProperty onPictureProperty() {
        return onPicture.wantedProperty();
    }

    /** What the mouse draws on the picture; {@code null} for nothing. */
    public ObjectProperty<DrawnMark.@Nullable Kind> toolProperty() {
        return tool;
    }

    public ObjectProperty<MarkColour> colourProperty() {
        return colour;
    }

    /** The comment that is being written, or {@code null}. */
    public ReadOnlyObjectProperty<@Nullable CommentDraft> draftProperty() {
        return draft.getReadOnlyProperty();
    }

    /** Comments to be shown on the picture now; not the one that is being written. */
    public ReadOnlyObjectProperty<List<Comment>> visibleProperty() {
        return onPicture.visibleProperty();
    }

    /** What is drawn already in the comment that is being written, while its own frame stands on the screen; else empty. */
    public ReadOnlyObjectProperty<List<DrawnMark>> drawnProperty() {
        return onPicture.drawnProperty();
    }

    /** How many threads hold something new. */
    public ReadOnlyIntegerProperty unreadProperty() {
        return unread.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canUndoProperty() {
        return canUndo.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty canRedoProperty() {
        return canRedo.getReadOnlyProperty();
    }

    public boolean isOwn(String author) {
        return !author.isEmpty() && author.equals(person.get());
    }

    /** Whether the drawing that is being written belongs to the frame on the screen. */
    public boolean isOnFrameOfDraft() {
        return onPicture.isOnFrameOfDraft();
    }

    // ---- opening

    private void open() {
        session = null;
        draft.set(null);
        tool.set(null);
        took(new State(List.of(), false, false));
        CurrentCase.Opened opened = current.opened();
        if (opened == null) {
            return;
        }
        String who = person.get();
        work.run(
                never -> read(opened, who),
                opening -> {
                    if (opened.equals(current.opened()) && who.equals(person.get())) {
                        session = opening.session();
                        items.setAll(opening.items());
                        took(opening.state());
                    }
                },
                notices::failed);
    }

    private Opening read(CurrentCase.Opened opened, String who) {
        List<ItemChoice> choices = new ArrayList<>();
        choices.add(new ItemChoice(null, texts.get("comments.item.none")));
        for (Rubric rubric : vocabularies.rubrics(opened.procedure().id())) {
            rubric.items()
                    .forEach(item -> choices.add(new ItemChoice(new ItemLink(rubric.id(), item.id()), item.title())));
        }
        if (who.isEmpty()) {
            List<CommentThread> read = job.of(opened.code()).stream()
                    .map(t -> new CommentThread(t.comment(), t.replies(), false))
                    .toList();
            return new Opening(null, new State(read, false, false), choices);
        }
        CommentSession fresh = job.open(opened.code(), who);
        return new Opening(fresh, state(fresh), choices);
    }

    private static State state(CommentSession of) {
        return new State(of.threads(), of.canUndo(), of.canRedo());
    }

    private void took(State state) {
        all.setAll(state.threads());
        canUndo.set(state.canUndo());
        canRedo.set(state.canRedo());
        unread.set((int) all.stream().filter(CommentThread::unread).count());
        filter();
    }

    private void filter() {
        shown.setAll(all.stream()
                .filter(t -> tone.get() == null || t.comment().tone() == tone.get())
                .filter(t -> !unreadOnly.get() || t.unread())
                .toList());
    }

    /** Why nothing can be written now; empty if it can. */
    public String whyNot() {
        CurrentCase.Opened opened = current.opened();
        if (opened == null) {
            return texts.get("review.why.noCase");
        }
        if (opened.recording() == null) {
            return texts.get("comments.why.noRecording");
        }
        return person.get().isEmpty() ? texts.get("comments.why.noCode") : "";
    }

    /** Says why nothing can be written now. @return false if it can */
    public boolean refused() {
        String why = whyNot();
        if (!why.isEmpty()) {
            notices.hint(why);
        }
        return !why.isEmpty();
    }

    private void run(Consumer<CommentSession> change) {
        run(change, () -> {});
    }

    private void run(Consumer<CommentSession> change, Runnable then) {
        CommentSession now = session;
        if (now == null) {
            refused();
            return;
        }
        work.run(
                never -> {
                    change.accept(now);
                    return state(now);
                },
                state -> {
                    if (session == now) {
                        took(state);
                        then.run();
                    }
                },
                notices::failed);
    }

    // ---- writing

    /** Stands still on the frame of this moment and starts a comment on it. */
    public void begin() {
        if (refused()) {
            return;
        }
        end();
        desk.pause();
        desk.stamp(frame -> {
            draft.set(CommentDraft.empty(CommentSession.newId(), frame.start()));
            tool.set(null);
        });
    }

    /** Writes on at an own comment. */
    public void change(Comment comment) {
        if (!isOwn(comment.author())) {
            notices.hint(texts.get("comments.why.notOwn", comment.author()));
            return;
        }
        end();
        desk.scrub(comment.from());
        draft.set(CommentDraft.of(comment));
    }

    /** Ends drawing, or else writing. What was written is kept already. @return false if neither was going on */
    public boolean end() {
        if (tool.get() != null) {
            tool.set(null);
            return true;
        }
        boolean writing = draft.get() != null;
        draft.set(null);
        return writing;
    }

    public void setText(String text) {
        edit(now -> now.withText(text.strip()));
    }

    public void setTone(CommentTone wanted) {
        edit(now -> now.withTone(wanted));
    }

    public void setItem(@Nullable ItemLink link) {
        edit(now -> now.withItem(link));
    }

    /** Lets the stretch end with the frame on the screen. */
    public void endHere() {
        desk.pause();
        desk.stamp(frame -> {
            CommentDraft now = draft.get();
            if (now == null) {
                return;
            }
            if (frame.start().isAfter(now.from())) {
                edit(writing -> writing.withTo(frame.end()));
            } else {
                notices.hint(texts.get("comments.why.notAfter"));
            }
        });
    }

    public void onlyMoment() {
        edit(now -> now.withTo(null));
    }

    /** Chooses what the mouse draws, on the frame of the comment. */
    public void draw(DrawnMark.@Nullable Kind kind) {
        CommentDraft now = draft.get();
        if (now == null) {
            return;
        }
        tool.set(kind);
        if (kind != null && !isOnFrameOfDraft()) {
            desk.scrub(now.from());
        }
    }

    /** Adds a mark with the tool and the colour chosen; too small a one is ignored. */
    public void addMark(List<PicturePoint> points, String words) {
        DrawnMark.Kind kind = tool.get();
        if (kind == null || !isOnFrameOfDraft()) {
            return;
        }
        boolean toWrite = kind == DrawnMark.Kind.WORDS;
        if (toWrite ? words.isBlank() : points.size() < 2 || points.get(0).equals(points.get(points.size() - 1))) {
            return;
        }
        String kept = words.strip();
        edit(now -> now.withMark(new DrawnMark(
                kind,
                colour.get(),
                points,
                toWrite ? kept.substring(0, Math.min(kept.length(), DrawnMark.LONGEST_WORDS)) : "")));
    }

    private void edit(UnaryOperator<CommentDraft> change) {
        CommentDraft before = draft.get();
        if (before == null) {
            return;
        }
        CommentDraft now = change.apply(before);
        if (now.equals(before)) {
            return;
        }
        draft.set(now);
        CommentSession open = session;
        if (open == null || now.isEmpty()) {
            return;
        }
        run(s -> s.save(now.by(s.person())));
    }

    /** Keeps a comment of one's own that was made elsewhere; {@code then} once it is in the store. */
    public void keep(Comment comment, Runnable then) {
        run(s -> s.save(comment), then);
    }

    public void remove(Comment comment) {
        CommentDraft writing = draft.get();
        run(s -> s.remove(comment), () -> {
            if (writing != null && writing.id().equals(comment.id())) {
                draft.set(null);
                tool.set(null);
            }
        });
    }

    public void answer(Comment comment, String text) {
        if (!refused() && !text.isBlank()) {
            run(s -> {
                s.answer(comment, text);
                s.markSeen(comment);
            });
        }
    }

    public void removeAnswer(CommentReply reply) {
        run(s -> s.removeAnswer(reply));
    }

    public void undo() {
        run(CommentSession::undo, this::refreshDraft);
    }

    public void redo() {
        run(CommentSession::redo, this::refreshDraft);
    }

    /** What is being written follows undo and redo. */
    private void refreshDraft() {
        CommentDraft writing = draft.get();
        if (writing != null) {
            draft.set(all.stream()
                    .map(CommentThread::comment)
                    .filter(c -> c.id().equals(writing.id()))
                    .findFirst()
                    .map(CommentDraft::of)
                    .orElseGet(writing::cleared));
        }
    }

    // ---- reading

    /** Goes to a comment's frame; it is read then. */
    public void go(CommentThread thread) {
        desk.scrub(thread.comment().from());
        if (thread.unread()) {
            run(s -> s.markSeen(thread.comment()));
        }
    }

    public void markAllRead() {
        List<Comment> fresh = all.stream()
                .filter(CommentThread::unread)
                .map(CommentThread::comment)
                .toList();
        if (!fresh.isEmpty()) {
            run(s -> fresh.forEach(s::markSeen));
        }
    }

    public void markUnread(CommentThread thread) {
        run(s -> s.markUnseen(Objects.requireNonNull(thread).comment()));
    }
}
