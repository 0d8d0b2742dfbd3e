package org.sideport.cli.cuts;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;
import org.sideport.store.Workspace;
import org.sideport.workflow.RecordingCuts;
import picocli.CommandLine.Option;

/** Decides about one cut; which way is the subclass's name. */
abstract class CutsDecideCommand implements Callable<Integer> {

    private final Console console;
    private final CutState decision;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(
            names = "--at",
            paramLabel = "TIME",
            required = true,
            description = "Where the cut is: seconds or h:mm:ss.sss, to within half a second.")
    String at;

    @Option(names = "--by", paramLabel = "A", description = "Code of the person who decides.")
    String person = "";

    CutsDecideCommand(Console console, CutState decision) {
        this.console = console;
        this.decision = decision;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Cut decided = new RecordingCuts(workspace).decide(code, MediaTime.parse(at), decision, person);
            if (console.isJson()) {
                console.printJson(CutViews.of(decided));
            } else {
                console.say(CutViews.line(decided).strip());
            }
        }
        return 0;
    }
}
