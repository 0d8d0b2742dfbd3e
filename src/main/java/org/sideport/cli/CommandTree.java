package org.sideport.cli;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.sideport.cli.assign.AssignCommands;
import org.sideport.cli.bench.BenchCommand;
import org.sideport.cli.cohort.CohortCommands;
import org.sideport.cli.compare.CompareCommand;
import org.sideport.cli.compare.CompareCommands;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.copy.CopyCommands;
import org.sideport.cli.cuts.CutCommands;
import org.sideport.cli.exchange.ExchangeCommands;
import org.sideport.cli.exchange.RubricFormCommand;
import org.sideport.cli.handout.HandoutCommands;
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
        Map<String, Supplier<Object>> all = commands();
        // all of them take a while to set up, and a named one needs no other
        Supplier<Object> named = args.length == 0 ? null : all.get(args[0]);
        if (named != null) {
            root.addSubcommand(args[0], named.get());
        } else {
            all.forEach((name, command) -> root.addSubcommand(name, command.get()));
        }
        HelpTexts.whole(root);
        root.setOut(console.out());
        root.setErr(console.err());
        root.setExpandAtFiles(false);
        root.registerConverter(Double.class, CommandTree::number);
        root.registerConverter(double.class, CommandTree::number);
        Day.register(root);
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

    /** By their names, in the order of the help. */
    private Map<String, Supplier<Object>> commands() {
        Map<String, Supplier<Object>> all = new LinkedHashMap<>();
        all.put("demo", () -> new DemoCommand(console));
        all.put("open", () -> new OpenCommand(console));
        all.put(
                "workspace",
                () -> group(
                        "Make and look after workspaces.",
                        Stream.concat(
                                        Stream.of(new WorkspaceInitCommand(console)),
                                        UpkeepCommands.workspace(console).stream())
                                .toList()));
        all.put("audit", () -> group("Who did what when.", UpkeepCommands.audit(console)));
        all.put("people", () -> group("Who signs in to the workspace, in which roles.", PeopleCommands.all(console)));
        all.put("probe", () -> new ProbeCommand(console));
        all.put("frame", () -> new FrameCommand(console));
        for (Object copy : CopyCommands.all(console)) {
            all.put(copy.getClass().getAnnotation(Command.class).name(), () -> copy);
        }
        all.put("traces", () -> new TracesCommand(console));
        all.put(
                "track",
                () -> group(
                        "The eye and the tip of an instrument in the pictures.",
                        List.of(new TrackEyeCommand(console), new TrackTipCommand(console))));
        all.put(
                "case",
                () -> group(
                        "Cases and their recordings.",
                        List.of(
                                new CaseAddCommand(console),
                                new CaseImportCommand(console),
                                new CaseEditCommand(console),
                                new CaseHideCommand(console),
                                new CaseListCommand(console),
                                new CaseShowCommand(console))));
        all.put(
                "keeping",
                () -> group(
                        "Consent, how long cases are kept, deleting for good. Local law decides; these are aids.",
                        KeepingCommands.all(console)));
        all.put(
                "tags",
                () -> group(
                        "Phases and events that an annotator tagged.",
                        List.of(
                                new TagsImportCommand(console),
                                new TagsExportCommand(console),
                                new TagsCompareCommand(console))));
        all.put(
                "cuts",
                () -> group(
                        "Places where a recording may lack time; times across an accepted one are unsure.",
                        CutCommands.all(console)));
        all.put(
                "comments",
                () -> group("Comments tied to moments, and answers to them.", TalkCommands.comments(console)));
        all.put("measure", () -> TalkCommands.measure(console));
        all.put("timing", () -> new TimingCommand(console));
        all.put("compare", () -> new CompareCommand(console));
        all.put(
                "exemplar",
                () -> group("Cases that show how a procedure is done.", CompareCommands.exemplars(console)));
        all.put(
                "rubric",
                () -> group(
                        "Rubrics.",
                        List.of(
                                new RubricCheckCommand(console),
                                new RubricScoreCommand(console),
                                new RubricListCommand(console),
                                new RubricShowCommand(console),
                                new RubricFormCommand(console))));
        all.put("rate", this::rate);
        all.put("assign", () -> group("Cases given to assessors to mark.", AssignCommands.assign(console)));
        all.put(
                "adjudicate",
                () -> group("Marks that differ too much, and what stands.", AssignCommands.adjudicate(console)));
        all.put("calibrate", () -> group("Practice on cases with reference marks.", AssignCommands.calibrate(console)));
        all.put(
                "stats",
                () -> group(
                        "Agreement, reliability, learning, monitoring, standards: each on a plain CSV file.",
                        StatsCommands.all(console)));
        all.put(
                "standard",
                () -> group(
                        "Standards: rounds of judges, cuts from what the workspace holds, what people agreed.",
                        StandardCommands.standards(console)));
        all.put(
                "decision",
                () -> group(
                        "What a panel looks at, and what it decided. The program decides nothing.",
                        StandardCommands.decisions(console)));
        all.put(
                "cohort",
                () -> group(
                        "A cohort by one rubric, and the rule for what is told of others.",
                        Stream.concat(
                                        Stream.concat(
                                                StandardCommands.cohort(console).stream(),
                                                CohortCommands.all(console).stream()),
                                        ProgressCommands.cohort(console).stream())
                                .toList()));
        all.put(
                "report",
                () -> group(
                        "What people take away.",
                        Stream.concat(
                                        Stream.of(new ReportWorkbookCommand(console)),
                                        Stream.concat(
                                                HandoutCommands.report(console).stream(),
                                                ProgressCommands.report(console).stream()))
                                .toList()));
        all.put(
                "exchange",
                () -> group(
                        "Cases between stores, published formats for other programs, teaching films, a person's own"
                                + " data.",
                        ExchangeCommands.all(console)));
        all.put("demo-data", () -> new DemoDataCommand(console));
        all.put("bench", () -> new BenchCommand(console));
        return all;
    }

    private CommandLine rate() {
        CommandLine rate = new CommandLine(new RateCommand(console));
        rate.addSubcommand(new RateSignCommand(console));
        rate.addSubcommand(new RateAmendCommand(console));
        rate.addSubcommand(UpkeepCommands.verify(console));
        AssignCommands.rate(console).forEach(rate::addSubcommand);
        rate.addSubcommand(new RateImportCommand(console));
        return rate;
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
