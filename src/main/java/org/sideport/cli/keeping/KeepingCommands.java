package org.sideport.cli.keeping;

import java.util.List;
import org.sideport.cli.console.Console;

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
}
