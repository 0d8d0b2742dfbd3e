package org.sideport.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.RatingReader;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "rate", description = "Stores a rating of a case as a draft; then sign it.")
final class RateCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", description = "Code of the case.")
    @Nullable
    String code;

    @Option(names = "--assessor", paramLabel = "A", description = "Code of the assessor.")
    @Nullable
    String assessor;

    @Option(names = "--self", description = "The trainee marks the own case.")
    boolean self;

    @Parameters(paramLabel = "RATING.json", arity = "0..1")
    @Nullable
    Path file;

    RateCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (code == null || assessor == null || file == null) {
            throw new InputException(
                    "a rating needs a case, an assessor and a file",
                    null,
                    "sideport rate --case C --assessor A [--self] RATING.json");
        }
        try (Workspace workspace = console.open()) {
            Rubric rubric = new Vocabularies(workspace)
                    .rubric(RatingReader.rubricOf(file).id())
                    .rubric();
            Rating rating = by(RatingReader.read(file, rubric), assessor, self);
            MarkCase.Rated rated = new MarkCase(workspace).rate(code, rating);
            show(console, code, rubric, rating, rated);
        }
        return 0;
    }

    /** The rating as this assessor's, whoever the file names. */
    static Rating by(Rating read, String assessor, boolean self) {
        return new Rating(
                read.rubric(),
                read.rubricVersion(),
                assessor,
                self,
                read.blind(),
                read.scores(),
                read.comment(),
                read.actions());
    }

    static void show(Console console, String code, Rubric rubric, Rating rating, MarkCase.Rated rated) {
        if (!rated.warning().isEmpty()) {
            console.note(rated.warning());
        }
        if (console.isJson()) {
            console.printJson(Json.object(
                    "id", rated.id(),
                    "case", code,
                    "assessor", rating.assessor(),
                    "self", rating.self(),
                    "state", rated.state().id(),
                    "score", ScoreViews.of(rated.score())));
        } else {
            console.say("Rating " + rated.id() + " of case " + code + " by " + rating.assessor() + ": "
                    + rated.state().id());
            ScoreViews.print(rubric, rated.score(), console::say);
        }
    }
}
