package org.sideport.cli.cuts;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.RecordingCuts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "find",
        description = {
            "Looks through a recording for places where the recorder may have stood still, for a person to accept or"
                    + " dismiss.",
            "Example: sideport cuts find --case C-12"
        })
final class CutsFindCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    CutsFindCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Cut> cuts = new RecordingCuts(workspace).find(code, console.progress());
            CutViews.show(console, code, cuts);
            long open =
                    cuts.stream().filter(c -> c.state() == CutState.PROPOSED).count();
            if (open > 0) {
                console.note(Plural.of(open, "cut") + " to decide on: look at the picture there, then"
                        + " sideport cuts accept or dismiss. Jumps can be missed; add one that you see.");
            }
        }
        return 0;
    }
}
