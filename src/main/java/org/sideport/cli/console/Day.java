package org.sideport.cli.console;

import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import org.sideport.model.InputException;
import picocli.CommandLine;

/** Days on the command line: written year-month-day, the same for every option, and which is today. */
public final class Day {

    private Day() {}

    /** By the clock and the time zone of this computer, in which its people say "today". */
    public static Clock clock() {
        return Clock.system(ZoneId.systemDefault());
    }

    public static LocalDate today() {
        return LocalDate.now(clock());
    }

    /** So that options can be of type {@link LocalDate}. */
    public static void register(CommandLine root) {
        root.registerConverter(LocalDate.class, text -> {
            try {
                return parse(text);
            } catch (InputException e) {
                throw new CommandLine.TypeConversionException(e.getMessage());
            }
        });
    }

    /**
     * @throws InputException if it is no day
     */
    public static LocalDate parse(String text) {
        try {
            return LocalDate.parse(text.strip());
        } catch (DateTimeParseException e) {
            throw new InputException(
                    "\"" + text + "\" is no date", null, "write year-month-day, such as 2026-03-09", e);
        }
    }
}
