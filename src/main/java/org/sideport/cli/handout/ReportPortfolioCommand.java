package org.sideport.cli.handout;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.store.Workspace;
import org.sideport.workflow.handout.WritePortfolio;
import org.sideport.workflow.handout.WritePortfolio.Wanted;
import org.sideport.workflow.handout.WritePortfolio.Written;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "portfolio",
        sortOptions = false,
        description = {
            "What a trainee has to show, as PDF: cases, signed marks with their digests and how to verify them,"
                    + " progress.",
            "For that trainee and for directors. Formative: nothing in it is a verdict.",
            "Example: sideport report portfolio --trainee T01 T01.pdf"
        })
final class ReportPortfolioCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee = "";

    @Option(
            names = "--procedure",
            paramLabel = "ID",
            description = "By default the one that the trainee has most cases of.")
    @Nullable
    String procedure;

    @Option(names = "--rubric", paramLabel = "R", description = "By default the one with most signed marks.")
    @Nullable
    String rubric;

    @Option(
            names = "--log-complete",
            description = "You state that every operation of the trainee is here, in turn. Only then are complications"
                    + " charted.")
    boolean logComplete;

    @Option(
            names = "--language",
            paramLabel = "en|de",
            defaultValue = "en",
            description = "Of the paper; default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Parameters(paramLabel = "OUT.pdf")
    Path out;

    ReportPortfolioCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Written written = new WritePortfolio(workspace)
                    .write(new Wanted(trainee, procedure, rubric, logComplete, language), out, console.progress());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "file", written.file().toString(), "cases", written.cases(), "marks", written.marks()));
            } else {
                console.say("Wrote " + written.file() + ".");
            }
        }
        return 0;
    }
}
