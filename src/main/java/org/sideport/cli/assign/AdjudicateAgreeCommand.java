package org.sideport.cli.assign;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.assign.Adjudication;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "agree",
        description = {
            "Records marks that were agreed upon. The assessors' own marks stay as they were signed.",
            "Example: sideport adjudicate agree --case C-12 --by P1,A1,A2 --why \"watched together\" AGREED.json"
        })
final class AdjudicateAgreeCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    AgreeOptions agreed = new AgreeOptions();

    @Parameters(paramLabel = "RATING.json")
    Path file;

    AdjudicateAgreeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Rubric rubric = new Vocabularies(workspace)
                    .rubric(RatingReader.rubricOf(file).id())
                    .rubric();
            Rating rating = RatingReader.read(file, rubric);
            Adjudication.Settled settled =
                    new Adjudication(workspace, Day.clock()).agree(agreed.code, rating, agreed.by, agreed.why);
            AgreeOptions.show(console, settled.mark(), settled.score(), settled.standing());
        }
        return 0;
    }
}
