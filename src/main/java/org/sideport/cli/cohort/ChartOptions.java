package org.sideport.cli.cohort;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.workflow.progress.ChartExport;
import org.sideport.workflow.progress.ProgressWords;
import picocli.CommandLine.Option;

/** In which words, and where charts go. */
final class ChartOptions {

    @Option(
            names = "--language",
            paramLabel = "en|de",
            defaultValue = "en",
            description = "Of the charts and sentences; default: ${DEFAULT-VALUE}.")
    String language = "en";

    @Option(names = "--out", paramLabel = "DIR", description = "Folder for each chart as SVG, PNG and CSV.")
    @Nullable
    Path out;

    ProgressWords words() {
        return new ProgressWords(
                switch (language) {
                    case "en" -> Locale.UK;
                    case "de" -> Locale.GERMANY;
                    default ->
                        throw new InputException("no words in \"" + language + "\"", "--language", "write en or de");
                });
    }

    /** @return the names of the files; none if none are wanted */
    List<String> write(List<Chart> charts) {
        Path folder = out;
        List<String> files = new ArrayList<>();
        if (folder == null) {
            return files;
        }
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException("the folder cannot be made", folder.toString(), "choose another place", e);
        }
        for (Chart chart : charts) {
            for (ChartExport.Format format : ChartExport.Format.values()) {
                String name = chart.id() + "." + format.ending();
                ChartExport.write(chart, folder.resolve(name), format);
                files.add(name);
            }
        }
        return files;
    }

    /** As people read it. */
    void print(List<Chart> charts, List<String> files, Console console) {
        charts.forEach(chart -> {
            console.say(chart.title());
            console.say(chart.sentence());
            console.say(chart.note());
        });
        wrote(files, console);
    }

    /** Says what was written, if that was asked for. */
    void wrote(List<String> files, Console console) {
        if (out != null && files.isEmpty()) {
            console.say("There is no chart to write.");
        } else if (out != null) {
            console.say("Wrote " + Plural.of(files.size(), "file") + " to " + out.toAbsolutePath() + ".");
        }
    }
}
