package org.sideport.cli.people;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Person;
import org.sideport.store.Workspace;
import picocli.CommandLine.Command;

@Command(name = "list", description = "Who there is, in which roles.")
final class PeopleListCommand implements Callable<Integer> {

    private final Console console;

    PeopleListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Person> people = PeopleViews.job(workspace).list();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "people", people.stream().map(PeopleViews::json).toList()));
            } else if (people.isEmpty()) {
                console.say("Nobody signs in here: whoever opens the workspace may do all. Begin with:"
                        + " sideport people add CODE --role director --choose");
            } else {
                TextTable table = new TextTable("Code", "Roles", "State");
                people.forEach(p -> table.row(p.code(), PeopleViews.words(p.roles()), state(p)));
                table.print(console::say);
            }
        }
        return 0;
    }

    private static String state(Person person) {
        if (!person.active()) {
            return "blocked";
        }
        return person.mustChange() ? "first password not changed yet" : "";
    }
}
