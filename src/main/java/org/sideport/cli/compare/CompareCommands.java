package org.sideport.cli.compare;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands of the group {@code exemplar}. */
public final class CompareCommands {

    private CompareCommands() {}

    public static List<Object> exemplars(Console console) {
        return List.of(
                new ExemplarAddCommand(console), new ExemplarListCommand(console), new ExemplarRemoveCommand(console));
    }
}
