package org.sideport.cli.people;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.store.Workspace;
import org.sideport.workflow.People;
import picocli.CommandLine.Parameters;

/** Blocks a person, or takes that back. */
abstract class PeopleBlockCommand implements Callable<Integer> {

    private final Console console;
    private final boolean block;

    @Parameters(paramLabel = "CODE", description = "Code of the person.")
    String code;

    PeopleBlockCommand(Console console, boolean block) {
        this.console = console;
        this.block = block;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            People people = PeopleViews.job(workspace);
            PeopleViews.show(console, block ? people.block(code) : people.unblock(code));
        }
        return 0;
    }
}
