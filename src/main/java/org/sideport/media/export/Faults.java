package org.sideport.media.export;

import java.io.IOException;
import java.nio.file.Path;
import org.sideport.media.Ffmpeg;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;
import org.sideport.model.InputException;

/** Turns failures of reading and writing into what a person can mend. */
final class Faults {

    private Faults() {}

    static InputException notWritten(Path target, IOException cause) {
        return new InputException(
                "cannot be written: " + cause.getMessage(),
                target.toString(),
                "choose a folder that exists, may be written to and has room",
                cause);
    }

    /** @throws InputException if {@code code} is one of FFmpeg's error numbers */
    static void check(int code, String what, Path target) {
        if (code < 0) {
            throw new InputException(
                    "could not " + what + " (" + Ffmpeg.errorText(code) + ")",
                    target.toString(),
                    "choose a folder that may be written to and has room, or another kind of copy");
        }
    }

    static MediaException unreadable(Path file, String what) {
        return new MediaException(Reason.UNREADABLE, what, file.toString(), "copy the file again from the recorder");
    }

    /** A copy that was checked after writing and is not what it should be. */
    static InputException notFaithful(Path target, String what) {
        return new InputException(
                "the copy was checked and is not what it should be, so it was deleted: " + what,
                target.toString(),
                "keep the original; run repair on it first, or make another kind of copy");
    }
}
