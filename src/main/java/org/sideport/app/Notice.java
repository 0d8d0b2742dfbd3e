package org.sideport.app;

import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/**
 * Something the user must know.
 *
 * @param what what is wrong or done
 * @param where file, case or item, or {@code null}
 * @param remedy what to do about it, or {@code null}
 * @param failure where the details are, or {@code null}
 */
public record Notice(
        Tone tone,
        String what,
        @Nullable String where,
        @Nullable String remedy,
        @Nullable Throwable failure) {

    public Notice(Tone tone, String what, @Nullable String where, @Nullable String remedy) {
        this(tone, what, where, remedy, null);
    }

    public enum Tone {
        DONE,
        HINT,
        PROBLEM
    }

    public static Notice done(String what, @Nullable String where) {
        return new Notice(Tone.DONE, what, where, null);
    }

    /** All of it in one line. */
    public String text() {
        return (where == null ? "" : where + ": ") + what + (remedy == null ? "" : " — " + remedy);
    }

    /** What to show for a failure; {@code null} for work that the user cancelled. */
    public static @Nullable Notice of(Throwable failure, Texts texts) {
        if (failure instanceof CancellationException) {
            return null;
        }
        if (failure instanceof InputException input) {
            String where = input.where();
            String remedy = input.remedy();
            return new Notice(
                    Tone.PROBLEM,
                    texts.said(input.what()),
                    where == null ? null : texts.said(where),
                    remedy == null ? null : texts.said(remedy),
                    failure);
        }
        if (failure instanceof OutOfMemoryError) {
            return new Notice(
                    Tone.PROBLEM, texts.get("notice.memory"), null, texts.get("notice.memory.remedy"), failure);
        }
        String detail = failure.getMessage();
        return new Notice(
                Tone.PROBLEM,
                texts.get("notice.fault"),
                detail == null ? failure.getClass().getSimpleName() : detail,
                texts.get("notice.fault.remedy"),
                failure);
    }
}
