package org.sideport.cli.standard;

import java.util.List;
import org.sideport.cli.console.Console;
import org.sideport.cli.stats.StatsCommands;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/** The commands of the groups {@code standard}, {@code decision} and {@code cohort}. */
public final class StandardCommands {

    private StandardCommands() {}

    /** The group {@code round} within {@code standard}. */
    @Command(
            name = "round",
            description = "Rounds of judges who say, item by item, what a person who only just passes would get.")
    static final class RoundGroup implements Runnable {

        @CommandLine.Spec
        CommandSpec spec;

        @Override
        public void run() {
            throw new CommandLine.ParameterException(spec.commandLine(), "Name one of its commands.");
        }
    }

    public static List<Object> standards(Console console) {
        CommandLine round = new CommandLine(new RoundGroup());
        round.addSubcommand(new RoundOpenCommand(console));
        round.addSubcommand(new RoundJudgeCommand(console));
        round.addSubcommand(new RoundCloseCommand(console));
        round.addSubcommand(new RoundShowCommand(console));
        return List.of(
                round,
                new StandardSetCommand(console),
                new StandardListCommand(console),
                new StandardShowCommand(console));
    }

    public static List<Object> decisions(Console console) {
        return List.of(
                new DecisionShowCommand(console), new DecisionRecordCommand(console), new DecisionListCommand(console));
    }

    public static List<Object> cohort(Console console) {
        return List.of(new CohortShowCommand(console), StatsCommands.severityOfCohort(console));
    }
}
