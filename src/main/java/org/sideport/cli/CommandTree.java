package org.sideport.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.sideport.cli.assign.AssignCommands;
import org.sideport.cli.bench.BenchCommand;
import org.sideport.cli.compare.CompareCommand;
import org.sideport.cli.compare.CompareCommands;
import org.sideport.cli.console.Console;
import org.sideport.cli.copy.CopyCommands;
import org.sideport.cli.cuts.CutCommands;
import org.sideport.cli.exchange.ExchangeCommands;
import org.sideport.cli.exchange.RubricFormCommand;
import org.sideport.cli.keeping.KeepingCommands;
import org.sideport.cli.people.PeopleCommands;
import org.sideport.cli.progress.ProgressCommands;
import org.sideport.cli.standard.StandardCommands;
import org.sideport.cli.stats.StatsCommands;
import org.sideport.cli.talk.TalkCommands;
import org.sideport.cli.upkeep.UpkeepCommands;
import org.sideport.model.InputException;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** All commands, and what becomes of an exception. */
final class CommandTree {

    static final int FINDING = 1;
    static final int BAD_INPUT = 2;
    static final int FAULT = 3;

    private final Console console;

    CommandTree(Console console) {
        this.console = console;
    }

    @Command(
            name = "sideport",
            description = "Turns recordings of trainees' cataract operations into fair, repeatable assessments.",
            version = "Sideport 0.1.0",
            mixinStandardHelpOptions = true,
            scope = ScopeType.INHERIT,
            footer = {
                "",
                "Exit codes: 0 done, 1 a finding, 2 bad usage or input, 3 a fault of the program.",
                "Formative use only; no medical device; speed is not competence."
            })
    static final class Root {

        private final Console console;

        Root(Console console) {
            this.console = console;
        }

        @Option(
                names = "--workspace",
                paramLabel = "DIR",
                scope = ScopeType.INHERIT,
                description = "The workspace folder; by default the last used, else ~/Sideport.")
        void workspace(Path dir) {
            console.useWorkspace(dir);
        }

        @Option(
                names = "--as",
                paramLabel = "CODE",
                scope = ScopeType.INHERIT,
                description = "Who you are, where people sign in; the password is asked for, or taken from"
                        + " SIDEPORT_PASSWORD.")
        void person(String code) {
            console.signInAs(code);
        }

        @Option(
                names = "--json",
                scope = ScopeType.INHERIT,
                description = "Machine-readable result on standard output, messages on standard error.")
        void json(boolean wanted) {
            console.useJson(wanted);
        }
    }

    /** A command that only groups others. */
    @Command
    static final class Group implements Runnable {

        @CommandLine.Spec
        CommandSpec spec;

        @Override
        public void run() {
            throw new CommandLine.ParameterException(spec.commandLine(), "Name one of its commands.");
        }
    }

    int run(String[] args) {
        CommandLine root = new CommandLine(new Root(console));
        root.addSubcommand("demo", new DemoCommand(console));
        root.addSubcommand("open", new OpenCommand(console));
        root.addSubcommand(
                "workspace",
                group(
                        "Make and look after workspaces.",
                        Stream.concat(
                                        Stream.of(new WorkspaceInitCommand(console)),
                                        UpkeepCommands.workspace(console).stream())
                                .toList()));
        root.addSubcommand("audit", group("Who did what when.", UpkeepCommands.audit(console)));
        root.addSubcommand(
                "people", group("Who signs in to the workspace, in which roles.", PeopleCommands.all(console)));
        root.addSubcommand("probe", new ProbeCommand(console));
        root.addSubcommand("frame", new FrameCommand(console));
        CopyCommands.all(console).forEach(root::addSubcommand);
        root.addSubcommand("traces", new TracesCommand(console));
        root.addSubcommand(
                "track",
                group(
                        "The eye and the tip of an instrument in the pictures.",
                        List.of(new TrackEyeCommand(console), new TrackTipCommand(console))));
        root.addSubcommand(
                "case",
                group(
                        "Cases and their recordings.",
                        List.of(
                                new CaseAddCommand(console),
                                new CaseImportCommand(console),
                                new CaseEditCommand(console),
                                new CaseListCommand(console),
                                new CaseShowCommand(console))));
        root.addSubcommand(
                "keeping",
                group(
                        "Consent, how long cases are kept, deleting for good. Local law decides; these are aids.",
                        KeepingCommands.all(console)));
        root.addSubcommand(
                "tags",
                group(
                        "Phases and events that an annotator tagged.",
                        List.of(new TagsImportCommand(console), new TagsExportCommand(console))));
        root.addSubcommand(
                "cuts",
                group(
                        "Places where a recording may lack time; times across an accepted one are unsure.",
                        CutCommands.all(console)));
        root.addSubcommand(
                "comments", group("Comments tied to moments, and answers to them.", TalkCommands.comments(console)));
        root.addSubcommand("measure", TalkCommands.measure(console));
        root.addSubcommand("timing", new TimingCommand(console));
        root.addSubcommand("compare", new CompareCommand(console));
        root.addSubcommand(
                "exemplar", group("Cases that show how a procedure is done.", CompareCommands.exemplars(console)));
        root.addSubcommand(
                "rubric",
                group(
                        "Rubrics.",
                        List.of(
                                new RubricCheckCommand(console),
                                new RubricScoreCommand(console),
                                new RubricListCommand(console),
                                new RubricShowCommand(console),
                                new RubricFormCommand(console))));
        CommandLine rate = new CommandLine(new RateCommand(console));
        rate.addSubcommand(new RateSignCommand(console));
        rate.addSubcommand(new RateAmendCommand(console));
        rate.addSubcommand(UpkeepCommands.verify(console));
        AssignCommands.rate(console).forEach(rate::addSubcommand);
        rate.addSubcommand(new RateImportCommand(console));
        root.addSubcommand("rate", rate);
        root.addSubcommand("assign", group("Cases given to assessors to mark.", AssignCommands.assign(console)));
        root.addSubcommand(
                "adjudicate",
                group("Marks that differ too much, and what stands.", AssignCommands.adjudicate(console)));
        root.addSubcommand(
                "calibrate", group("Practice on cases with reference marks.", AssignCommands.calibrate(console)));
        root.addSubcommand(
                "stats",
                group(
                        "Agreement, reliability, learning, monitoring, standards: each on a plain CSV file.",
                        StatsCommands.all(console)));
        root.addSubcommand(
                "standard",
                group(
                        "Standards: rounds of judges, cuts from what the workspace holds, what people agreed.",
                        StandardCommands.standards(console)));
        root.addSubcommand(
                "decision",
                group(
                        "What a panel looks at, and what it decided. The program decides nothing.",
                        StandardCommands.decisions(console)));
        root.addSubcommand(
                "cohort",
                group(
                        "A cohort by one rubric, and the rule for what is told of others.",
                        Stream.concat(
                                        StandardCommands.cohort(console).stream(),
                                        ProgressCommands.cohort(console).stream())
                                .toList()));
        root.addSubcommand(
                "report",
                group(
                        "What people take away.",
                        Stream.concat(
                                        Stream.of(new ReportWorkbookCommand(console)),
                                        ProgressCommands.report(console).stream())
                                .toList()));
        root.addSubcommand(
                "exchange", group("Cases between stores, and a person's own data.", ExchangeCommands.all(console)));
        root.addSubcommand("demo-data", new DemoDataCommand(console));
        root.addSubcommand("bench", new BenchCommand(console));
        root.setOut(console.out());
        root.setErr(console.err());
        root.setExpandAtFiles(false);
        root.registerConverter(Double.class, CommandTree::number);
        root.registerConverter(double.class, CommandTree::number);
        root.setCaseInsensitiveEnumValuesAllowed(true);
        root.setExecutionExceptionHandler((exception, command, parsed) -> explain(exception));
        root.setParameterExceptionHandler((exception, arguments) -> {
            console.err().println("sideport: " + exception.getMessage());
            CommandLine command = exception.getCommandLine();
            console.err().println("See: " + command.getCommandSpec().qualifiedName() + " --help");
            return BAD_INPUT;
        });
        if (args.length == 0) {
            root.usage(console.out());
            return BAD_INPUT;
        }
        return root.execute(args);
    }

    private static CommandLine group(String description, List<Object> commands) {
        CommandLine group = new CommandLine(new Group());
        group.getCommandSpec().usageMessage().description(description);
        commands.forEach(group::addSubcommand);
        return group;
    }

    private int explain(Exception exception) {
        if (exception instanceof InputException) {
            console.err().println("sideport: " + exception.getMessage());
            return BAD_INPUT;
        }
        if (exception instanceof CancellationException) {
            console.err().println("sideport: cancelled; nothing was changed");
            return FINDING;
        }
        LoggerFactory.getLogger(CommandTree.class).error("command failed", exception);
        console.err().println("sideport: this is a fault of the program, not of your input: " + exception);
        for (StackTraceElement frame : exception.getStackTrace()) {
            if (frame.getClassName().startsWith("org.sideport")) {
                console.err().println("  at " + frame);
            }
        }
        return FAULT;
    }

    private static Double number(String text) {
        try {
            return Double.valueOf(text.strip().replace('−', '-'));
        } catch (NumberFormatException e) {
            throw new CommandLine.TypeConversionException(
                    "'" + text + "' is no number; write for instance 0.05 (for 5 %) or 12.5");
        }
    }
}
