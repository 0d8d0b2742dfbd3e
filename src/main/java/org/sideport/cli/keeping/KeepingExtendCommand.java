package org.sideport.cli.keeping;

import java.time.Instant;
import java.time.LocalDate;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.CaseKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "extend", description = "Keeps a case until another day, on which it has to be looked at again.")
final class KeepingExtendCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(names = "--until", paramLabel = "ISO", required = true, description = "The day.")
    LocalDate until;

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who decides.")
    String by = "";

    KeepingExtendCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            new CaseKeeping(workspace).extend(code, until, by, Instant.now(), Day.today());
            if (console.isJson()) {
                console.printJson(Json.object("case", code, "review_by", until.toString()));
            } else {
                console.say("Case " + code + " is kept until " + until + ".");
            }
        }
        return 0;
    }
}
