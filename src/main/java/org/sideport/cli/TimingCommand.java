package org.sideport.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.rubric.ProcedureReader;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTimer;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.SummaryRow;
import org.sideport.timing.TagCsvReader;
import org.sideport.timing.TagTable;
import org.sideport.timing.TimingSummary;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ComputeTimings.TimedCase;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.consent.LeftOut;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "timing",
        description = {
            "Phase timings of cases in the workspace, or straight from a tagging CSV with any phase names",
            "(first row case,annotator,phase,start,end,operator and any grouping columns)."
        })
final class TimingCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "FILE.csv", arity = "0..1", description = "A tagging CSV; no workspace is needed.")
    @Nullable
    Path file;

    @Option(names = "--case", paramLabel = "C", description = "One case of the workspace.")
    @Nullable
    String code;

    @Option(names = "--trainee", paramLabel = "T", description = "All cases of a trainee.")
    @Nullable
    String trainee;

    @Option(names = "--all", description = "All cases.")
    boolean all;

    @Option(names = "--annotator", paramLabel = "A", description = "Only this annotator's tags.")
    @Nullable
    String annotator;

    @Option(
            names = "--by",
            paramLabel = "COLUMN",
            description =
                    "Group the summary: a column of the CSV; in the workspace trainee, annotator or a case descriptor.")
    @Nullable
    String by;

    @Option(
            names = "--procedure",
            paramLabel = "FILE|ID",
            description = "With a CSV: the procedure that its names must belong to; steps are added up too.")
    @Nullable
    String procedure;

    TimingCommand(Console console) {
        this.console = console;
    }

    /** A case's timing as tagged, rolled up where there is a procedure, and its group. */
    private record Row(CaseTiming timing, @Nullable CaseTiming rolledUp, String group) {}

    @Override
    public Integer call() {
        int chosen = (file == null ? 0 : 1) + (code == null ? 0 : 1) + (trainee == null ? 0 : 1) + (all ? 1 : 0);
        if (chosen != 1) {
            throw new InputException(
                    chosen == 0 ? "say which cases" : "say only one of these",
                    null,
                    "give --case C, --trainee T, --all, or a CSV file");
        }
        if (file != null) {
            @Nullable Procedure known = procedure == null ? null : procedure(procedure);
            print(fromCsv(file, known), names(known));
        } else {
            try (Workspace workspace = console.open()) {
                List<Procedure> known = new Vocabularies(workspace).procedures();
                print(fromWorkspace(workspace), id -> nameIn(known, id));
            }
        }
        return 0;
    }

    private static String nameIn(List<Procedure> procedures, String id) {
        return procedures.stream()
                .flatMap(p -> p.find(id).stream())
                .map(Procedure.Term::name)
                .findFirst()
                .orElse(id);
    }

    private static UnaryOperator<String> names(@Nullable Procedure procedure) {
        return procedure == null ? UnaryOperator.identity() : id -> nameIn(List.of(procedure), id);
    }

    private Procedure procedure(String wanted) {
        Path path = Path.of(wanted);
        if (Files.exists(path) || wanted.toLowerCase(Locale.ROOT).endsWith(".json")) {
            return ProcedureReader.read(path);
        }
        return Vocabularies.shippedOnly().procedure(wanted);
    }

    private List<Row> fromCsv(Path csv, @Nullable Procedure known) {
        TagTable table = new TagCsvReader(known).read(csv);
        if (table.kind() != TagTable.Kind.PHASES) {
            throw new InputException(
                    "the file holds events, not phases", csv.toString(), "give the file with the phases");
        }
        CaseTimer asTagged = known == null ? CaseTimer.forAnyNames() : ComputeTimings.timer(known, Level.STEP);
        List<Row> rows = new ArrayList<>();
        for (TagTable.Entry entry : table.entries()) {
            String who = entry.annotator() == null ? "" : entry.annotator();
            if (annotator != null && !annotator.equals(who)) {
                continue;
            }
            rows.add(new Row(
                    asTagged.time(entry.caseCode(), who, entry.tagging(), null),
                    known == null
                            ? null
                            : ComputeTimings.timer(known, Level.PHASE)
                                    .time(entry.caseCode(), who, entry.tagging(), null),
                    group(csv, entry)));
        }
        return rows;
    }

    private String group(Path csv, TagTable.Entry entry) {
        if (by == null) {
            return "";
        }
        String column = by.toLowerCase(Locale.ROOT);
        if (column.equals("annotator")) {
            return entry.annotator() == null ? "" : entry.annotator();
        }
        String value = entry.groups().get(column);
        if (value == null) {
            throw new InputException(
                    "there is no column " + by,
                    csv + ", line 1",
                    entry.groups().isEmpty()
                            ? "the file has no grouping columns"
                            : "choose one of "
                                    + String.join(", ", entry.groups().keySet()));
        }
        return value;
    }

    private List<Row> fromWorkspace(Workspace workspace) {
        ComputeTimings job = new ComputeTimings(workspace);
        Map<String, CaseTiming> rolledUp = new HashMap<>();
        job.all(Level.PHASE).forEach(t -> rolledUp.put(key(t), t.timing()));
        // one case's own times may be looked at; figures over several are of those that count
        ComputeTimings.Counted counted =
                code == null ? job.counted(Level.STEP) : new ComputeTimings.Counted(job.all(Level.STEP), LeftOut.NONE);
        if (counted.leftOut().cases() > 0) {
            console.note(counted.leftOut().sentence());
        }
        List<TimedCase> timed = counted.cases().stream()
                .filter(t -> code == null || t.surgicalCase().code().equalsIgnoreCase(code))
                .filter(t -> trainee == null || t.surgicalCase().trainee().equals(trainee))
                .filter(t -> annotator == null || t.timing().annotator().equals(annotator))
                .toList();
        if (timed.isEmpty()) {
            String wanted = code;
            if (wanted != null) {
                // says that there is none, or that it is not for the caller
                new CaseList(workspace).one(wanted);
            }
            throw new InputException(
                    "nothing is tagged there yet",
                    null,
                    "tag a case first, or bring tags in with: sideport tags import");
        }
        Function<TimedCase, String> group = t -> by == null ? "" : groupOf(t, by);
        return timed.stream()
                .map(t -> new Row(t.timing(), rolledUp.get(key(t)), group.apply(t)))
                .toList();
    }

    private static String key(TimedCase t) {
        return t.surgicalCase().code() + "\n" + t.timing().annotator();
    }

    private static String groupOf(TimedCase t, String by) {
        return switch (by) {
            case "trainee" -> t.surgicalCase().trainee();
            case "annotator" -> t.timing().annotator();
            default -> t.surgicalCase().descriptors().getOrDefault(by, "");
        };
    }

    private void print(List<Row> rows, UnaryOperator<String> name) {
        List<SummaryRow> summary = summary(rows, false);
        List<SummaryRow> rolledUp = summary(rows, true);
        if (console.isJson()) {
            Map<String, @Nullable Object> view = Json.object(
                    "cases",
                    rows.stream()
                            .map(r -> TimingViews.of(r.timing(), r.rolledUp()))
                            .toList(),
                    "summary",
                    TimingViews.summary(summary));
            if (!rolledUp.isEmpty()) {
                view.put("summary_rolled_up", TimingViews.summary(rolledUp));
            }
            console.printJson(view);
            return;
        }
        if (rows.size() == 1 && by == null) {
            Row only = rows.get(0);
            TimingTables.printCase(only.timing(), name, console::say);
            CaseTiming phases = only.rolledUp();
            if (phases != null && !phases.phases().equals(only.timing().phases())) {
                console.say("");
                console.say("Steps added up by phase:");
                TimingTables.printCase(phases, name, console::say);
            }
            console.say("Speed is not competence: a timing alone never fails anyone.");
        } else {
            TimingTables.printSummary(rolledUp.isEmpty() ? summary : rolledUp, name, console::say);
        }
    }

    private static List<SummaryRow> summary(List<Row> rows, boolean rolledUp) {
        IdentityHashMap<CaseTiming, String> groups = new IdentityHashMap<>();
        List<CaseTiming> timings = new ArrayList<>();
        for (Row row : rows) {
            CaseTiming timing = rolledUp ? row.rolledUp() : row.timing();
            if (timing != null) {
                timings.add(timing);
                groups.put(timing, row.group());
            }
        }
        return TimingSummary.of(timings, timing -> groups.getOrDefault(timing, ""));
    }
}
