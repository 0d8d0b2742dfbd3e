package org.sideport.cli.cuts;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.store.Workspace;
import org.sideport.workflow.RecordingCuts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "add",
        description = {
            "Keeps a cut that a person saw, as accepted.",
            "Example: sideport cuts add --case C-12 --at 3:41 --why \"the recorder was paused\" --by A1"
        })
final class CutsAddCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--at", paramLabel = "TIME", required = true, description = "Seconds or h:mm:ss.sss.")
    String at;

    @Option(names = "--why", paramLabel = "TEXT", required = true, description = "What speaks for it.")
    String why;

    @Option(names = "--by", paramLabel = "A", required = true, description = "Code of the person who saw it.")
    String person;

    CutsAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Cut added = new RecordingCuts(workspace).add(code, MediaTime.parse(at), why, person);
            if (console.isJson()) {
                console.printJson(CutViews.of(added));
            } else {
                console.say(CutViews.line(added).strip());
            }
        }
        return 0;
    }
}
