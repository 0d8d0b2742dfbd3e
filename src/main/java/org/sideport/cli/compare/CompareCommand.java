package org.sideport.cli.compare;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Exemplar;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.timing.TimeMap;
import org.sideport.workflow.CompareCases;
import org.sideport.workflow.CompareCases.Choice;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.Comparison.Row;
import org.sideport.workflow.Comparison.Side;
import org.sideport.workflow.Comparison.Time;
import org.sideport.workflow.ComputeTimings.Level;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "compare",
        description = {
            "The phase times of two cases beside each other, and how their recordings lie against one another.",
            "Example: sideport compare --left C-12 --right C-03 --annotator A1"
        })
public final class CompareCommand implements Callable<Integer> {

    private static final String UNKNOWN = "-";

    private final Console console;

    @Option(names = "--left", paramLabel = "C", required = true, description = "Code of the case that is looked at.")
    String left;

    @Option(names = "--right", paramLabel = "C", required = true, description = "Code of the case it is compared with.")
    String right;

    @Option(
            names = "--annotator",
            paramLabel = "A",
            description = "Whose tags are taken, of both cases; else those of somebody who tagged both.")
    @Nullable
    String annotator;

    @Option(
            names = "--level",
            paramLabel = "LEVEL",
            description = "phase or step (the default); where one side has only the phase, its steps are added up.")
    Level level = Level.STEP;

    public CompareCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Comparison found = new CompareCases(workspace)
                    .compare(new Choice(left, annotator), new Choice(right, annotator), null, level);
            if (console.isJson()) {
                console.printJson(CompareViews.of(found));
            } else {
                print(found);
            }
        }
        return 0;
    }

    private void print(Comparison found) {
        console.say("Left   " + title(found.left()));
        console.say("Right  " + title(found.right()));
        console.say("");
        TextTable table =
                new TextTable("phase", ">left", ">right", ">difference", ">left/right", ">exemplars longer", ">of");
        for (Row row : found.rows()) {
            row(table, row, row.name());
        }
        for (Row row : found.totals()) {
            row(
                    table,
                    row,
                    switch (row.id()) {
                        case Comparison.OPERATING -> "first start to last end";
                        case Comparison.ACTIVE -> "in phases";
                        default -> "idle between";
                    });
        }
        table.print(console::say);
        console.say("");
        notes(found);
    }

    private static String title(Side side) {
        var one = side.surgicalCase();
        Exemplar exemplar = side.exemplar();
        return one.code()
                + (one.hidden().isEmpty() ? ", trainee " + one.trainee() + ", " + one.date() : "")
                + ", tags of " + side.annotator()
                + (exemplar == null ? "" : ", exemplar: " + exemplar.title());
    }

    private static void row(TextTable table, Row row, String name) {
        var standing = row.standing();
        Double ratio = row.ratio();
        table.row(
                name,
                text(row.left()),
                text(row.right()),
                difference(row),
                ratio == null ? UNKNOWN : String.format(Locale.ROOT, "%.2f", ratio),
                standing == null ? "" : Integer.toString(standing.longer()),
                standing == null ? "" : Integer.toString(standing.n()));
    }

    private static String text(@Nullable Time time) {
        if (time == null) {
            return UNKNOWN;
        }
        Long us = time.us();
        return us == null
                ? "?"
                : (time.unsure() ? ">= " : "") + MediaTime.ofMicros(us).toClockText();
    }

    private static String difference(Row row) {
        Long us = row.differenceUs();
        return us == null
                ? UNKNOWN
                : (us < 0 ? "-" : "+") + MediaTime.ofMicros(Math.abs(us)).toClockText() + (row.unsure() ? " ?" : "");
    }

    private void notes(Comparison found) {
        TimeMap map = found.aligned();
        console.say(
                map.matched() == 0
                        ? "No phase is found on both sides: the recordings are put side by side by the clock."
                        : Plural.of(map.matched(), "episode") + " matched.");
        only(found, TimeMap.Kind.LEFT_ONLY, "Episodes only on the left: ");
        only(found, TimeMap.Kind.RIGHT_ONLY, "Episodes only on the right: ");
        if (found.rows().stream().anyMatch(Row::unsure)
                || found.totals().stream().anyMatch(Row::unsure)) {
            console.say(">= marks times that a cut of the recording lies in: they may be longer.");
        }
        if (!found.left().timing().style().equals(found.right().timing().style())) {
            console.say("One of them was tagged by starts only: its pauses count within its phases.");
        }
        console.say("Speed is not competence: a difference of times says nothing about how well it was done.");
    }

    private void only(Comparison found, TimeMap.Kind kind, String words) {
        List<String> names = found.aligned().pieces().stream()
                .filter(p -> p.kind() == kind && p.label() != null)
                .map(p -> found.nameOf(Objects.requireNonNull(p.label())))
                .toList();
        if (!names.isEmpty()) {
            console.say(words + names.stream().collect(Collectors.joining(", ")) + ".");
        }
    }
}
