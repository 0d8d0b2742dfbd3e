package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "score", description = "Scores a rating file; no workspace is needed.")
final class RubricScoreCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--rubric", paramLabel = "FILE", required = true, description = "The rubric file.")
    Path rubricFile;

    @Parameters(paramLabel = "RATING.json")
    Path ratingFile;

    RubricScoreCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Rubric rubric = RubricReader.read(rubricFile);
        Score score = Scorer.score(rubric, RatingReader.read(ratingFile, rubric));
        if (console.isJson()) {
            console.printJson(ScoreViews.of(score));
        } else {
            ScoreViews.print(rubric, score, console::say);
        }
        return 0;
    }
}
