package org.sideport.cli.keeping;

import java.time.Instant;
import java.time.LocalDate;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
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
    String until = "";

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who decides.")
    String by = "";

    KeepingExtendCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        LocalDate day = KeepingCommands.day(until);
        try (Workspace workspace = console.open()) {
            new CaseKeeping(workspace)
                    .extend(code, day, by, Instant.now(), LocalDate.now(java.time.ZoneId.systemDefault()));
            if (console.isJson()) {
                console.printJson(Json.object("case", code, "review_by", day.toString()));
            } else {
                console.say("Case " + code + " is kept until " + day + ".");
            }
        }
        return 0;
    }
}
