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
import org.sideport.workflow.assign.CalibrationSet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "reference",
        description = {
            "Keeps reference marks of a case, as a panel agreed upon them. Then give it: sideport assign add --purpose"
                    + " practice",
            "Example: sideport calibrate reference --case R-1 --by P1,A1,A2 --why \"panel in March\" AGREED.json"
        })
final class CalibrateReferenceCommand implements Callable<Integer> {

    private final Console console;

    @Mixin
    AgreeOptions agreed = new AgreeOptions();

    @Parameters(paramLabel = "RATING.json")
    Path file;

    CalibrateReferenceCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Rubric rubric = new Vocabularies(workspace)
                    .rubric(RatingReader.rubricOf(file).id())
                    .rubric();
            Rating rating = RatingReader.read(file, rubric);
            CalibrationSet.Reference kept =
                    new CalibrationSet(workspace, Day.clock()).setReference(agreed.code, rating, agreed.by, agreed.why);
            AgreeOptions.show(console, kept.mark(), kept.score(), null);
        }
        return 0;
    }
}
