package org.sideport.cli.assign;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.Assignment;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "withdraw", description = "Takes an open assignment back; marks begun stay a draft.")
final class AssignWithdrawCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "LABEL", description = "Label or id of the assignment, see: sideport assign list.")
    String label;

    AssignWithdrawCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Assignment taken = new Assignments(workspace, Day.clock()).withdraw(label);
            if (console.isJson()) {
                console.printJson(AssignViews.of(taken, taken.caseCode(), Day.today()));
            } else {
                console.say(taken.caseCode() + " is no longer given to " + taken.assessor() + ".");
            }
        }
        return 0;
    }
}
