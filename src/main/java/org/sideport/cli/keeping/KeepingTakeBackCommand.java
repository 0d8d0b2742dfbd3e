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

@Command(
        name = "take-back",
        description = "Takes back a withdrawal that was recorded by mistake: the case is there again, consent unknown.")
final class KeepingTakeBackCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who decides.")
    String by = "";

    KeepingTakeBackCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            new CaseKeeping(workspace).takeBack(code, by, Instant.now());
            if (console.isJson()) {
                console.printJson(Json.object("case", code, "consent", "unknown"));
            } else {
                console.say("Case " + code + " is there again; record its consent anew.");
            }
        }
        return 0;
    }
}
