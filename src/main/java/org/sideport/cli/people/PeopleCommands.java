package org.sideport.cli.people;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands of the group {@code people}. */
public final class PeopleCommands {

    private PeopleCommands() {}

    public static List<Object> all(Console console) {
        return List.of(
                new PeopleAddCommand(console),
                new PeopleListCommand(console),
                new PeopleRolesCommand(console),
                new Block(console),
                new Unblock(console),
                new PeoplePasswordCommand(console));
    }

    @picocli.CommandLine.Command(
            name = "block",
            description = {
                "Blocks a person: no more sign-in; what they did stays.",
                "Example: sideport people block T03 --as D1"
            })
    private static final class Block extends PeopleBlockCommand {
        Block(Console console) {
            super(console, true);
        }
    }

    @picocli.CommandLine.Command(
            name = "unblock",
            description = {"Lets a blocked person sign in again.", "Example: sideport people unblock T03 --as D1"})
    private static final class Unblock extends PeopleBlockCommand {
        Unblock(Console console) {
            super(console, false);
        }
    }
}
