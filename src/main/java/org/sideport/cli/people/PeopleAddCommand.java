package org.sideport.cli.people;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Role;
import org.sideport.store.Workspace;
import org.sideport.workflow.People;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "add",
        description = {
            "Adds a person by a code. The first one must be a director; from then on everybody signs in.",
            "A first password is made and shown once; it is changed at the first sign-in.",
            "Example: sideport people add D1 --role director --choose",
            "Example: sideport people add T03 --role trainee --as D1"
        })
final class PeopleAddCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "CODE", description = "Code of the person, never a name.")
    String code;

    @Option(
            names = "--role",
            paramLabel = "ROLE",
            required = true,
            split = ",",
            description = "trainee, assessor or director; several with commas.")
    List<Role> roles;

    @Option(
            names = "--choose",
            description = "The person chooses the password now: it is asked for, or taken from SIDEPORT_NEW_PASSWORD.")
    boolean choose;

    PeopleAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            People people = PeopleViews.job(workspace);
            if (!choose) {
                PeopleViews.show(console, people.add(code, EnumSet.copyOf(roles)));
                return 0;
            }
            char[] chosen = console.secrets().newPassword("New password of " + code);
            try {
                PeopleViews.show(console, people.add(code, EnumSet.copyOf(roles), chosen));
            } finally {
                Arrays.fill(chosen, '\0');
            }
        }
        return 0;
    }
}
