package org.sideport.cli.keeping;

import java.time.Instant;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.CaseKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "done", description = "Notes that a case was looked at and may stay; takes its day away.")
final class KeepingDoneCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who decides.")
    String by = "";

    KeepingDoneCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            new CaseKeeping(workspace).done(code, by, Instant.now());
            if (console.isJson()) {
                console.printJson(Json.object("case", code, "review_by", null));
            } else {
                console.say("Case " + code + " stays, without a day to look at it again.");
            }
        }
        return 0;
    }
}
