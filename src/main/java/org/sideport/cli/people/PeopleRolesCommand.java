package org.sideport.cli.people;

import java.util.EnumSet;
import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Role;
import org.sideport.store.Workspace;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "roles",
        description = {
            "Gives a person these roles and no others. There is always an active director.",
            "Example: sideport people roles A2 --role assessor,director --as D1"
        })
final class PeopleRolesCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "CODE", description = "Code of the person.")
    String code;

    @Option(
            names = "--role",
            paramLabel = "ROLE",
            required = true,
            split = ",",
            description = "trainee, assessor or director; several with commas.")
    List<Role> roles;

    PeopleRolesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            PeopleViews.show(console, PeopleViews.job(workspace).setRoles(code, EnumSet.copyOf(roles)));
        }
        return 0;
    }
}
