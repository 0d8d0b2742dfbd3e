package org.sideport.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;

@Command(
        name = "list",
        description = "Lists the rubrics at hand: shipped ones and those in the workspace's folder rubrics.")
final class RubricListCommand implements Callable<Integer> {

    private final Console console;

    RubricListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Rubric> rubrics = new Vocabularies(workspace)
                    .rubricTexts().stream().map(Vocabularies.RubricText::rubric).toList();
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubrics",
                        rubrics.stream()
                                .map(r -> Json.object(
                                        "id", r.id(),
                                        "version", r.version(),
                                        "title", r.title(),
                                        "procedure", r.procedure(),
                                        "items", r.items().size()))
                                .toList()));
                return 0;
            }
            TextTable table = new TextTable("Id", "Version", "Procedure", ">Items", "Title");
            rubrics.forEach(r -> table.row(
                    r.id(), r.version(), r.procedure(), String.valueOf(r.items().size()), r.title()));
            table.print(console::say);
        }
        return 0;
    }
}
