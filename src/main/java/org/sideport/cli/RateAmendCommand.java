package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "amend",
        description = "Signs a corrected rating in the place of a signed one, which stays, superseded.")
final class RateAmendCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code;

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Code of the assessor.")
    String assessor;

    @Option(names = "--self", description = "The trainee's mark of the own case.")
    boolean self;

    @Option(names = "--reason", paramLabel = "TEXT", required = true, description = "Why the marks change.")
    String reason;

    @Parameters(paramLabel = "RATING.json")
    Path file;

    RateAmendCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Rubric rubric = new Vocabularies(workspace)
                    .rubric(RatingReader.rubricOf(file).id())
                    .rubric();
            Rating rating = RateCommand.by(RatingReader.read(file, rubric), assessor, self);
            MarkCase.Rated rated = new MarkCase(workspace).amend(code, rating, reason);
            RateCommand.show(console, code, rubric, rating, rated);
        }
        return 0;
    }
}
