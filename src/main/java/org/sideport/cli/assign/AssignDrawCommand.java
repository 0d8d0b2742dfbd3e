package org.sideport.cli.assign;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.model.Assignment;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.SecondDraw;
import org.sideport.workflow.consent.ConsentDoubts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "draw",
        description = {
            "Draws who marks as second, so that all assessors hang together through cases that two of them marked, and"
                    + " the work is even. Cases without the consent that marking needs are left out. Exit code 1 if they"
                    + " do not hang together.",
            "Example: sideport assign draw --share 0.25 --seed 7 --due 2026-04-30"
        })
final class AssignDrawCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--assessors",
            paramLabel = "A",
            split = ",",
            description = "Among whom; by default all assessors of the unit.")
    List<String> assessors = List.of();

    @Option(
            names = "--share",
            paramLabel = "SHARE",
            defaultValue = "0.25",
            description = "Share of the marked cases to be marked twice, with those that are already. Default:"
                    + " ${DEFAULT-VALUE} (common practice: a sample; no source for its size).")
    double share;

    @Option(names = "--seed", paramLabel = "N", defaultValue = "1", description = "The same seed draws the same.")
    long seed;

    @Option(names = "--dry-run", description = "Shows the draw and gives nothing.")
    boolean dryRun;

    @Mixin
    TermsOptions terms = new TermsOptions();

    AssignDrawCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            SecondDraw.Drawn drawn = new Assignments(workspace, Day.clock())
                    .draw(assessors, share, seed, terms.of(Assignment.Purpose.SECOND), !dryRun);
            new ConsentDoubts(workspace)
                    .ofGiven(drawn.pairs().stream()
                            .map(SecondDraw.Pair::caseCode)
                            .toList())
                    .forEach(doubt -> console.note(doubt.text()));
            if (console.isJson()) {
                console.printJson(Json.object(
                        "given", !dryRun,
                        "pairs",
                                drawn.pairs().stream()
                                        .map(p -> Json.object("case", p.caseCode(), "second", p.second()))
                                        .toList(),
                        "connected", drawn.isConnected(),
                        "possible", drawn.possible(),
                        "groups", drawn.groups(),
                        "load", drawn.load(),
                        "left_out", LeftOutCases.json(drawn.leftOut())));
            } else {
                say(drawn);
            }
            return drawn.isConnected() ? 0 : 1;
        }
    }

    private void say(SecondDraw.Drawn drawn) {
        console.say(Plural.of(drawn.pairs().size(), "case") + (dryRun ? " drawn, not given:" : " given to seconds:"));
        LeftOutCases.say(drawn.leftOut(), console);
        drawn.pairs().forEach(p -> console.say("  " + p.caseCode() + " to " + p.second()));
        console.say("To mark then: "
                + drawn.load().entrySet().stream()
                        .map(l -> l.getKey() + " " + l.getValue())
                        .collect(Collectors.joining(", ")));
        if (!drawn.isConnected()) {
            console.note("The assessors do not hang together: "
                    + drawn.groups().stream().map(g -> String.join(", ", g)).collect(Collectors.joining("; "))
                    + " share no case, so that their severity cannot be compared. "
                    + (drawn.possible()
                            ? "Have more cases marked twice (--share)."
                            : "No draw from these cases can join them: name assessors who may mark cases of both"
                                    + " groups."));
        }
    }
}
