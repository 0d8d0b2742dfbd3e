package org.sideport.media;

import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** A media file that cannot be used, with a machine-readable reason. */
public final class MediaException extends InputException {

    private static final long serialVersionUID = 1L;

    /** Why. */
    public enum Reason {
        NOT_FOUND,
        EMPTY,
        NO_VIDEO,
        /** an MP4 or MOV file whose table of contents was never written */
        UNFINISHED,
        UNREADABLE,
        /** the drive or network share went away while the file was being read */
        LOST,
        CUT_SHORT
    }

    private final Reason reason;

    public MediaException(Reason reason, String what, String where, @Nullable String remedy) {
        super(what, where, remedy);
        this.reason = reason;
    }

    public Reason reason() {
        return reason;
    }
}
