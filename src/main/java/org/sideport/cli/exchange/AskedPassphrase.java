package org.sideport.cli.exchange;

import java.io.Console;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.workflow.exchange.ExportCase;

/** A passphrase out of {@code SIDEPORT_PASSPHRASE}, or asked for without echo; never an argument, which others could see. */
final class AskedPassphrase {

    static final String VARIABLE = "SIDEPORT_PASSPHRASE";

    private AskedPassphrase() {}

    /** For a new file: {@code null} if there shall be none. */
    static char @Nullable [] forNew(@Nullable String fromEnvironment, boolean prompt) {
        char[] found = prompt ? ask(true) : fromEnvironment == null ? null : fromEnvironment.toCharArray();
        if (found == null || found.length == 0) {
            return null;
        }
        ExportCase.requireLong(found);
        return found;
    }

    /** For a file that is encrypted. */
    static char[] forOpening(@Nullable String fromEnvironment) {
        return fromEnvironment != null && !fromEnvironment.isEmpty() ? fromEnvironment.toCharArray() : ask(false);
    }

    /** From Java 22 on the launcher gives a console that is no terminal; reading from it would echo. */
    @SuppressWarnings("SystemConsoleNull")
    private static char[] ask(boolean twice) {
        Console terminal = System.console();
        if (terminal == null) {
            throw new InputException(
                    "a passphrase is needed, and there is no terminal to ask for it",
                    null,
                    "put it into the environment variable " + VARIABLE);
        }
        char[] typed = terminal.readPassword("Passphrase: ");
        if (typed == null) {
            throw new InputException("no passphrase was typed", null, "type it, or set " + VARIABLE);
        }
        if (twice && !Arrays.equals(typed, terminal.readPassword("Once more: "))) {
            throw new InputException("the two passphrases differ", null, "start again");
        }
        return typed;
    }
}
