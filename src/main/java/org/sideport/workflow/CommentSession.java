package org.sideport.workflow;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.store.CommentStore;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * A person who comments on a case and answers comments. Each edit is in the store when its call returns, undo and redo
 * included; an edit that throws has changed nothing. Only one's own words can be changed. What others write meanwhile
 * stays: undo takes back one's own edits only. Thread-safe: calls wait for one another.
 */
public final class CommentSession {

    /** An own comment before and after an edit, or an own answer; {@code null} where it is not there. */
    private sealed interface Edit {

        Edit reversed();

        record OfComment(@Nullable Comment before, @Nullable Comment after) implements Edit {
            @Override
            public Edit reversed() {
                return new OfComment(after, before);
            }
        }

        record OfReply(
                @Nullable CommentReply before, @Nullable CommentReply after) implements Edit {
            @Override
            public Edit reversed() {
                return new OfReply(after, before);
            }
        }
    }

    private final Workspace workspace;
    private final SurgicalCase surgicalCase;
    private final String person;
    private final Deque<Edit> undo = new ArrayDeque<>();
    private final Deque<Edit> redo = new ArrayDeque<>();

    CommentSession(Workspace workspace, SurgicalCase surgicalCase, String person) {
        this.workspace = workspace;
        this.surgicalCase = surgicalCase;
        this.person = person;
    }

    public String person() {
        return person;
    }

    public SurgicalCase surgicalCase() {
        return surgicalCase;
    }

    /** All comments by time, read anew, with what is new to this person. */
    public List<CommentThread> threads() {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, surgicalCase.code());
            return stores.comments().threads(surgicalCase.code(), person);
        });
    }

    /** An id for a new comment or answer. */
    public static String newId() {
        return UUID.randomUUID().toString();
    }

    /**
     * Keeps a comment of one's own: a new one, or in the place of the one with its id.
     *
     * @throws InputException if it is somebody else's, its time lies beyond the recording, or there is no such rubric item
     */
    public synchronized void save(Comment comment) {
        requireOwn(comment.author());
        requireTimes(comment);
        requireItem(comment.item());
        Comment before =
                workspace.read(stores -> stores.comments().find(comment.id()).orElse(null));
        if (comment.equals(before)) {
            return;
        }
        if (before != null) {
            requireOwn(before.author());
        }
        apply(new Edit.OfComment(before, comment));
    }

    /**
     * @throws InputException if it is somebody else's, is gone, or has answers
     */
    public synchronized void remove(Comment comment) {
        requireOwn(comment.author());
        Comment before =
                workspace.read(stores -> stores.comments().find(comment.id())).orElseThrow(CommentSession::gone);
        apply(new Edit.OfComment(before, null));
    }

    /** Answers a comment, one's own or somebody else's. */
    public synchronized CommentReply answer(Comment comment, String text) {
        CommentReply reply = new CommentReply(newId(), comment.id(), person, text);
        apply(new Edit.OfReply(null, reply));
        return reply;
    }

    /**
     * @throws InputException if it is somebody else's, or is gone
     */
    public synchronized void changeAnswer(CommentReply reply, String text) {
        CommentReply before = own(reply);
        CommentReply after = before.withText(text);
        if (!after.equals(before)) {
            apply(new Edit.OfReply(before, after));
        }
    }

    /**
     * @throws InputException if it is somebody else's, or is gone
     */
    public synchronized void removeAnswer(CommentReply reply) {
        apply(new Edit.OfReply(own(reply), null));
    }

    private CommentReply own(CommentReply reply) {
        requireOwn(reply.author());
        return workspace.read(stores -> stores.comments().findReply(reply.id())).orElseThrow(CommentSession::gone);
    }

    /** Notes that this person has seen the thread as it is now. */
    public void markSeen(Comment comment) {
        workspace.change(stores -> {
            requireMay(stores);
            stores.comments().markSeen(surgicalCase.code(), comment.id(), person);
        });
    }

    public void markUnseen(Comment comment) {
        workspace.change(stores -> {
            requireMay(stores);
            stores.comments().markUnseen(comment.id(), person);
        });
    }

    public synchronized boolean canUndo() {
        return !undo.isEmpty();
    }

    public synchronized boolean canRedo() {
        return !redo.isEmpty();
    }

    /**
     * Takes back one's last edit; nothing if there is none.
     *
     * @throws InputException if others have answered what would vanish
     */
    public synchronized void undo() {
        Edit last = undo.peek();
        if (last != null) {
            store(last.reversed());
            redo.push(undo.pop());
        }
    }

    /** Does again what was taken back last; nothing if there is none. */
    public synchronized void redo() {
        Edit next = redo.peek();
        if (next != null) {
            store(next);
            undo.push(redo.pop());
        }
    }

    private void apply(Edit edit) {
        store(edit);
        undo.push(edit);
        redo.clear();
    }

    private void requireMay(Stores stores) {
        Access.requireOwn(stores.caller(), person);
        Access.require(stores, Permission.COMMENT, surgicalCase.code());
    }

    private void store(Edit edit) {
        workspace.change(stores -> {
            requireMay(stores);
            CommentStore comments = stores.comments();
            if (edit instanceof Edit.OfComment comment) {
                store(comments, comment);
            } else if (edit instanceof Edit.OfReply reply) {
                store(comments, reply);
            }
        });
    }

    private void store(CommentStore comments, Edit.OfComment edit) {
        Comment after = edit.after();
        Comment before = edit.before();
        if (after != null) {
            comments.save(surgicalCase.code(), after);
        } else if (before != null) {
            if (!comments.replies(before.id()).isEmpty()) {
                throw new InputException(
                        "the comment has been answered, and the answers would go with it",
                        null,
                        "change its text instead, or remove the answers first");
            }
            comments.delete(before);
        }
    }

    private void store(CommentStore comments, Edit.OfReply edit) {
        CommentReply after = edit.after();
        CommentReply before = edit.before();
        if (after != null) {
            if (comments.find(after.comment()).isEmpty()) {
                throw gone();
            }
            comments.save(surgicalCase.code(), after);
        } else if (before != null) {
            comments.delete(before);
        }
    }

    private static InputException gone() {
        return new InputException("that comment is no longer there", null, "look at the list again");
    }

    private void requireOwn(String author) {
        if (!author.equals(person)) {
            throw new InputException("these are the words of " + author, null, "answer them instead");
        }
    }

    private void requireTimes(Comment comment) {
        Recording recording = surgicalCase.recording();
        MediaTime to = comment.to();
        if (recording == null) {
            return;
        }
        MediaTime end = recording.duration();
        if (!comment.from().isBefore(end) || (to != null && to.isAfter(end))) {
            throw new InputException(
                    (comment.from().isBefore(end) && to != null ? to : comment.from()).toClockText()
                            + " lies beyond the end of the recording at " + end.toClockText(),
                    null,
                    "choose a time within it");
        }
    }

    private void requireItem(@Nullable ItemLink link) {
        if (link == null) {
            return;
        }
        Rubric rubric = new Vocabularies(workspace).rubric(link.rubric()).rubric();
        if (rubric.items().stream().noneMatch(item -> item.id().equals(link.item()))) {
            throw new InputException(
                    "the rubric " + rubric.id() + " has no item \"" + link.item() + "\"",
                    null,
                    "choose one of: "
                            + String.join(
                                    ", ",
                                    rubric.items().stream().map(Rubric.Item::id).toList()));
        }
    }
}
