package org.sideport.cli.cuts;

import java.util.List;
import org.sideport.cli.console.Console;
import org.sideport.model.CutState;

/** The commands of the group {@code cuts}. */
public final class CutCommands {

    private CutCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new CutsFindCommand(console),
                new CutsListCommand(console),
                new Accept(console),
                new Dismiss(console),
                new Reopen(console),
                new CutsAddCommand(console));
    }

    @picocli.CommandLine.Command(
            name = "accept",
            description = {
                "Says that time is missing there: times across it are marked as unsure.",
                "Example: sideport cuts accept --case C-12 --at 3:41 --by A1"
            })
    private static final class Accept extends CutsDecideCommand {
        Accept(Console console) {
            super(console, CutState.ACCEPTED);
        }
    }

    @picocli.CommandLine.Command(
            name = "dismiss",
            description = {
                "Says that nothing is missing there.",
                "Example: sideport cuts dismiss --case C-12 --at 3:41 --by A1"
            })
    private static final class Dismiss extends CutsDecideCommand {
        Dismiss(Console console) {
            super(console, CutState.DISMISSED);
        }
    }

    @picocli.CommandLine.Command(
            name = "reopen",
            description = {
                "Takes a decision back; the cut is a proposal again.",
                "Example: sideport cuts reopen --case C-12 --at 3:41"
            })
    private static final class Reopen extends CutsDecideCommand {
        Reopen(Console console) {
            super(console, CutState.PROPOSED);
        }
    }
}
