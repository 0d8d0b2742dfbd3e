package org.sideport.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.timing.TagTable;
import org.sideport.workflow.TagExchange;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Takes in tags from a CSV file: all of it, or nothing.",
            "Its first row is case,annotator,phase,start,end,operator or case,annotator,event,at,severity,note."
        })
final class TagsImportCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE.csv")
    Path file;

    @Option(names = "--annotator", paramLabel = "A", description = "Whose tags they are; by default as the file says.")
    @Nullable
    String annotator;

    @Option(names = "--replace", description = "Put them in the place of phases (or events) that are there already.")
    boolean replace;

    TagsImportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<TagExchange.Imported> done = new TagExchange(workspace).importCsv(file, annotator, replace);
            List<Object> views = new ArrayList<>();
            for (TagExchange.Imported one : done) {
                String noun = one.kind() == TagTable.Kind.PHASES ? "phase" : "event";
                views.add(Json.object(
                        "case", one.caseCode(),
                        "annotator", one.annotator(),
                        "kind", one.kind().name().toLowerCase(Locale.ROOT),
                        "count", one.count()));
                if (!console.isJson()) {
                    console.say(one.caseCode() + ": " + Plural.of(one.count(), noun) + " by " + one.annotator());
                }
            }
            if (console.isJson()) {
                console.printJson(Json.object("imported", views));
            } else if (done.isEmpty()) {
                console.say("The file holds no rows.");
            }
        }
        return 0;
    }
}
