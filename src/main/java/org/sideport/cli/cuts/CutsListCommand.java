package org.sideport.cli.cuts;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.store.Workspace;
import org.sideport.workflow.RecordingCuts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "The known cuts of a recording, and what was decided about them.")
final class CutsListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    CutsListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CutViews.show(console, code, new RecordingCuts(workspace).of(code));
        }
        return 0;
    }
}
