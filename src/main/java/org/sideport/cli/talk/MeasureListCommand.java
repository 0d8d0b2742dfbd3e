package org.sideport.cli.talk;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Measurement;
import org.sideport.store.Workspace;
import org.sideport.workflow.MeasureCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "list",
        description = {
            "What was measured on stills of a case. All sizes are apparent ones.",
            "Example: sideport measure list --case C-12"
        })
final class MeasureListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    MeasureListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Measurement> all = new MeasureCase(workspace).of(code);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case",
                        code,
                        "measurements",
                        all.stream().map(MeasureViews::of).toList()));
                return 0;
            }
            if (all.isEmpty()) {
                console.say("Nothing was measured on stills of " + code + ".");
            }
            for (Measurement one : all) {
                console.say(
                        "  " + one.frame().toClockText() + "  " + one.shape().id() + " by " + one.author());
                one.values().forEach(value -> console.say(MeasureViews.line(value)));
                console.say("    " + one.method());
                one.warnings().forEach(warning -> console.say("    note: " + warning));
            }
        }
        return 0;
    }
}
