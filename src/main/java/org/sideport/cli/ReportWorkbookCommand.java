package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.WriteWorkbook;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "workbook", description = "Writes the competency workbook of all cases.")
final class ReportWorkbookCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "OUT.xlsx")
    Path out;

    ReportWorkbookCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            new WriteWorkbook(workspace).write(out, console.progress());
            if (console.isJson()) {
                console.printJson(Json.object("workbook", out.toAbsolutePath().toString()));
            } else {
                console.say("Wrote " + out.toAbsolutePath() + ".");
            }
        }
        return 0;
    }
}
