package org.sideport.cli.exchange;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ImportBundle;
import org.sideport.workflow.exchange.ImportChoice;
import org.sideport.workflow.exchange.ImportPlan;
import org.sideport.workflow.exchange.ImportRemark;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "import",
        description = {
            "Takes a case bundle in: all of it or nothing; twice is as good as once. What differs from what is here is"
                    + " told",
            "line by line and stays as it is here, unless --prefer theirs lets drafts of the bundle go before yours."
                    + " Signed",
            "marks are never replaced. Exit code 1 if something differs.",
            "",
            "Files of other programs, too: tags and comments of a case (--case) from WebVTT (.vtt), SubRip (.srt),",
            "OpenTimelineIO (.otio) and Web Annotations (.jsonld), which become those of --by; what is called as a"
                    + " phase or an",
            "event is one, the rest are comments. Rubrics from 1EdTech CASE packages with --format case.",
            "",
            "Examples: sideport exchange import D-017.sideport-case.zip --by A1 --dry-run",
            "  sideport exchange import edited.otio --case D-017 --by A1",
            "  sideport exchange import framework.json --format case --by A1"
        })
final class ExchangeImportCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE")
    Path file = Path.of("");

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who takes it in.")
    String by = "";

    @Option(names = "--dry-run", description = "Only say what would happen.")
    boolean dryRun;

    @Option(
            names = "--format",
            paramLabel = "F",
            description = "bundle, vtt, srt, otio, annotation or case; by default what the file's ending says.")
    @Nullable
    String format;

    @Mixin
    OpenImportOptions open = new OpenImportOptions();

    @Option(
            names = "--prefer",
            paramLabel = "theirs|ours",
            defaultValue = "ours",
            description = "Whose drafts stay where they differ. Default: ${DEFAULT-VALUE}.")
    String prefer = "ours";

    @Option(names = "--case-as", paramLabel = "C", description = "Another code for the case here.")
    @Nullable
    String caseAs;

    @Option(names = "--trainee-as", paramLabel = "T", description = "The code that the bundle's trainee has here.")
    @Nullable
    String traineeAs;

    @Option(
            names = "--person-as",
            paramLabel = "OLD=NEW",
            description = "The code that another person of the bundle has here; may be repeated.")
    Map<String, String> people = new LinkedHashMap<>();

    ExchangeImportCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (new OpenImports(console, open, by, dryRun).run(file, format)) {
            return 0;
        }
        if (!prefer.equals("ours") && !prefer.equals("theirs")) {
            throw new InputException("\"" + prefer + "\" is neither", null, "--prefer ours, or --prefer theirs");
        }
        ImportChoice choice = new ImportChoice(caseAs, traineeAs, people, prefer.equals("theirs"), by);
        char[] passphrase = ImportBundle.needsPassphrase(file)
                ? AskedPassphrase.forOpening(System.getenv(AskedPassphrase.VARIABLE))
                : null;
        try (Workspace workspace = console.open()) {
            ImportBundle job = new ImportBundle(workspace);
            ImportPlan plan = dryRun
                    ? job.look(file, passphrase, choice, console.progress())
                    : job.take(file, passphrase, choice, console.progress());
            show(plan);
            return plan.conflicts().isEmpty() && plan.questions().isEmpty() ? 0 : 1;
        }
    }

    private void show(ImportPlan plan) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "case", plan.caseCode(),
                    "trainee", plan.trainee(),
                    "new_case", plan.newCase(),
                    "taken_in", !dryRun,
                    "made_at", plan.madeAt(),
                    "media_bytes", plan.mediaBytes(),
                    "lines",
                            plan.lines().stream()
                                    .map(l -> Json.object(
                                            "what",
                                            l.what().name().toLowerCase(Locale.ROOT),
                                            "name",
                                            l.name(),
                                            "state",
                                            l.state().name().toLowerCase(Locale.ROOT),
                                            "detail",
                                            l.detail()))
                                    .toList(),
                    "questions",
                            plan.questions().stream().map(ImportRemark::text).toList(),
                    "notes", plan.notes().stream().map(ImportRemark::text).toList()));
            return;
        }
        TextTable table = new TextTable("what", "which", dryRun ? "would be" : "is", "");
        plan.lines().stream()
                .filter(l -> l.state() != ImportPlan.State.SAME)
                .forEach(l ->
                        table.row(l.what().name().toLowerCase(Locale.ROOT), l.name(), word(l.state()), l.detail()));
        if (plan.bringsNothing() && plan.conflicts().isEmpty()) {
            console.say("Case " + plan.caseCode() + " is here already, just so: nothing to change.");
        } else {
            table.print(console::say);
            console.say((dryRun ? "Nothing was changed. " : "Taken in. ")
                    + Plural.of(plan.conflicts().size(), "difference") + " to what was here.");
        }
        plan.questions().forEach(q -> console.note("Question: " + q.text()));
        plan.notes().forEach(n -> console.note(n.text()));
    }

    private static String word(ImportPlan.State state) {
        return switch (state) {
            case NEW -> "new";
            case SAME -> "the same";
            case REPLACED -> "replaced by the bundle's";
            case KEPT -> "kept as it is here";
        };
    }
}
