package org.sideport.cli.keeping;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;

/** The commands of the group {@code keeping}. */
public final class KeepingCommands {

    private KeepingCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new KeepingListCommand(console),
                new KeepingRulesCommand(console),
                new KeepingExtendCommand(console),
                new KeepingDoneCommand(console),
                new KeepingDeleteCommand(console),
                new KeepingTakeBackCommand(console));
    }

    static LocalDate day(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeParseException e) {
            throw new InputException("\"" + text + "\" is no day", null, "write it as 2027-01-31", e);
        }
    }
}
