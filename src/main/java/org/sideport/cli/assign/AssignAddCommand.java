package org.sideport.cli.assign;

import java.util.List;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.Assignment;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.consent.ConsentDoubt;
import org.sideport.workflow.consent.ConsentDoubts;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "add",
        description = {
            "Gives cases to an assessor to mark, all of them or none. A case without the consent that marking needs is"
                    + " refused, or noted, by the rules of the unit (keeping rules).",
            "Example: sideport assign add --assessor A2 --case C-12,C-13 --due 2026-04-30"
        })
final class AssignAddCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--assessor", paramLabel = "A", required = true, description = "Code of the assessor.")
    String assessor;

    @Option(names = "--case", paramLabel = "C", required = true, split = ",", description = "Codes of the cases.")
    List<String> cases;

    @Option(
            names = "--purpose",
            paramLabel = "WHAT",
            defaultValue = "first",
            description = "first, second, third or practice. Default: ${DEFAULT-VALUE}.")
    String purpose;

    @Mixin
    TermsOptions terms = new TermsOptions();

    AssignAddCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            List<Assignment> given = new Assignments(workspace, Day.clock())
                    .give(cases, assessor, terms.of(Assignment.Purpose.parse(purpose)));
            List<ConsentDoubt> doubts = new ConsentDoubts(workspace)
                    .ofGiven(given.stream().map(Assignment::caseCode).toList());
            doubts.forEach(doubt -> console.note(doubt.text()));
            if (console.isJson()) {
                console.printJson(Json.object(
                        "assignments",
                        given.stream()
                                .map(a -> AssignViews.of(a, a.caseCode(), Day.today()))
                                .toList()));
            } else {
                console.say(Plural.of(given.size(), "case") + " given to " + assessor + ":");
                given.forEach(a -> console.say("  " + a.caseCode() + (a.isBlinded() ? " as " + a.label() : "")));
            }
        }
        return 0;
    }
}
