package org.sideport.cli.console;

import java.io.Console;
import java.util.Arrays;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** Passwords: out of the environment, else asked on the terminal without echo; never an argument, which others can read. */
public final class Secrets {

    /** Names the password of who signs in. */
    public static final String PASSWORD = "SIDEPORT_PASSWORD";

    /** Names the password that somebody chooses. */
    public static final String NEW_PASSWORD = "SIDEPORT_NEW_PASSWORD";

    private final Map<String, String> environment;

    Secrets(Map<String, String> environment) {
        this.environment = environment;
    }

    /**
     * @param prompt such as "Password of A1"
     * @throws InputException if it is in neither place
     */
    public char[] password(String prompt) {
        String given = environment.get(PASSWORD);
        return given != null ? given.toCharArray() : asked(PASSWORD, prompt);
    }

    /**
     * A password that is chosen: asked twice.
     *
     * @throws InputException if it is in neither place, or the two differ
     */
    public char[] newPassword(String prompt) {
        String given = environment.get(NEW_PASSWORD);
        if (given != null) {
            return given.toCharArray();
        }
        char[] once = asked(NEW_PASSWORD, prompt);
        char[] again = asked(NEW_PASSWORD, prompt + " again");
        boolean same = Arrays.equals(once, again);
        Arrays.fill(again, '\0');
        if (!same) {
            Arrays.fill(once, '\0');
            throw new InputException("the two passwords differ", null, "type the same one twice");
        }
        return once;
    }

    /** From Java 22 on there is a console where nobody watches, too; it then reads nothing. */
    @SuppressWarnings("SystemConsoleNull")
    private static char[] asked(String variable, String prompt) {
        Console console = System.console();
        char @Nullable [] typed = console == null ? null : console.readPassword("%s: ", prompt);
        if (typed == null) {
            throw new InputException(
                    "a password is needed and there is no terminal to ask on",
                    null,
                    "put it into the variable " + variable);
        }
        return typed;
    }
}
