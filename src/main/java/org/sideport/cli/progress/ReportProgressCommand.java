package org.sideport.cli.progress;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.report.AtomicFile;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.FollowProgress.Question;
import org.sideport.workflow.FollowProgress.Subject;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.progress.ChartExport;
import org.sideport.workflow.progress.ProgressCharts;
import org.sideport.workflow.progress.ProgressWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "progress",
        sortOptions = false,
        description = {
            "How a trainee comes along: times of each phase over the case number with the fitted curve, the latest"
                    + " cases",
            "against those before, others without names, references; marks, own marks less the assessors', comments"
                    + " that",
            "wait for an answer, complications case by case.",
            "Formative: speed is not competence, and nothing here is a verdict.",
            "Example: sideport report progress --trainee T01 --out T01-progress --json"
        })
final class ReportProgressCommand implements Callable<Integer> {

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
            names = "--recent",
            paramLabel = "K",
            defaultValue = "" + FollowProgress.USUAL_RECENT,
            description = "How many latest cases are compared with those before; default: ${DEFAULT-VALUE}.")
    int recent = FollowProgress.USUAL_RECENT;

    @Option(
            names = "--log-complete",
            description = "You state that every operation of the trainee is here, in turn. Only then are complications"
                    + " charted.")
    boolean logComplete;

    @Option(
            names = "--language",
            paramLabel = "en|de",
            defaultValue = "en",
            description = "Of the charts and sentences; default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Folder for each chart as SVG, PNG and CSV, and for the figures as progress.json.")
    @Nullable
    Path out;

    ReportProgressCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            FollowProgress progress = new FollowProgress(workspace);
            ProgressView view = progress.show(new Question(trainee, procedure(progress), rubric, recent, logComplete));
            ProgressWords words = new ProgressWords(locale());
            Map<String, @Nullable Object> json = ProgressJson.of(view, words);
            List<String> files = out == null ? List.of() : write(view, words, out, json);
            if (console.isJson()) {
                json.put("files", files);
                console.printJson(json);
            } else {
                ProgressText.print(view, words, console);
                if (out != null) {
                    console.say("Wrote " + Plural.of(files.size(), "file") + " to " + out.toAbsolutePath() + ".");
                }
            }
        }
        return 0;
    }

    private Locale locale() {
        return switch (language) {
            case "en" -> Locale.UK;
            case "de" -> Locale.GERMANY;
            default -> throw new InputException("no words in \"" + language + "\"", "--language", "write en or de");
        };
    }

    private String procedure(FollowProgress progress) {
        if (procedure != null) {
            return procedure;
        }
        return progress.subjects().stream()
                .filter(s -> s.trainee().equals(trainee))
                .max(java.util.Comparator.comparingInt(Subject::cases))
                .map(Subject::procedure)
                .orElseThrow(() -> new InputException(
                        "there is no case of " + trainee + " that you may see",
                        "--trainee",
                        "see the codes with: sideport case list"));
    }

    private static List<String> write(
            ProgressView view, ProgressWords words, Path folder, Map<String, @Nullable Object> json) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException("the folder cannot be made", folder.toString(), "choose another place", e);
        }
        List<String> files = new ArrayList<>();
        for (Chart chart : new ProgressCharts(view, words).all()) {
            for (ChartExport.Format format : ChartExport.Format.values()) {
                String name = chart.id() + "." + format.ending();
                ChartExport.write(chart, folder.resolve(name), format);
                files.add(name);
            }
        }
        byte[] text = Json.write(json).getBytes(StandardCharsets.UTF_8);
        AtomicFile.write(folder.resolve("progress.json"), to -> to.write(text));
        files.add("progress.json");
        return files;
    }
}
