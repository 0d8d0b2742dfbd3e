package org.sideport.app.rubric;

import java.util.ArrayDeque;
import java.util.Deque;
import org.jspecify.annotations.Nullable;
import org.sideport.rubric.RubricDraft;

/** The drafts that were; what is typed into one field in a row is one step. */
final class DraftHistory {

    private final Deque<RubricDraft> before = new ArrayDeque<>();
    private final Deque<RubricDraft> after = new ArrayDeque<>();
    private RubricDraft now;
    private @Nullable String typing;

    DraftHistory(RubricDraft now) {
        this.now = now;
    }

    RubricDraft now() {
        return now;
    }

    /** @param field in which it was typed; {@code null} for a change that stands by itself */
    void change(RubricDraft next, @Nullable String field) {
        if (next.equals(now)) {
            return;
        }
        if (field == null || !field.equals(typing)) {
            before.push(now);
        }
        typing = field;
        after.clear();
        now = next;
    }

    /** What is typed from now on is another step. */
    void pause() {
        typing = null;
    }

    boolean canUndo() {
        return !before.isEmpty();
    }

    boolean canRedo() {
        return !after.isEmpty();
    }

    RubricDraft undo() {
        if (canUndo()) {
            after.push(now);
            now = before.pop();
        }
        typing = null;
        return now;
    }

    RubricDraft redo() {
        if (canRedo()) {
            before.push(now);
            now = after.pop();
        }
        typing = null;
        return now;
    }
}
