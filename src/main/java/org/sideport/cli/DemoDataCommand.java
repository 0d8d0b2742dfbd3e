package org.sideport.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.demo.DemoGenerator;
import org.sideport.model.InputException;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "demo-data", description = "For developers: draws the demo's recordings and invents its cohort anew.")
final class DemoDataCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--out", paramLabel = "DIR", required = true, description = "The folder to write to.")
    Path out;

    DemoDataCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try {
            new DemoGenerator()
                    .writeAll(
                            out,
                            Vocabularies.shippedOnly()
                                    .rubric("phaco-competency")
                                    .rubric(),
                            console.progress());
        } catch (IOException e) {
            throw new InputException(
                    "the demo's files cannot be written: " + e.getMessage(),
                    out.toString(),
                    "choose another folder",
                    e);
        }
        console.say("Wrote " + out.toAbsolutePath() + ".");
        return 0;
    }
}
