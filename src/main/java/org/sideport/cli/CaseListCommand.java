package org.sideport.cli;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseFilter;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "list", description = "Lists the cases.")
final class CaseListCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--trainee", paramLabel = "T", description = "Only this trainee's.")
    String trainee = "";

    @Option(
            names = "--search",
            paramLabel = "WORDS",
            description = "Each word must occur in a code, the date or a descriptor.")
    String words = "";

    @Option(names = "--from", paramLabel = "ISO", description = "Operated on this day or later.")
    @Nullable
    LocalDate from;

    @Option(names = "--to", paramLabel = "ISO", description = "Operated on this day or earlier.")
    @Nullable
    LocalDate to;

    @Option(
            names = "--state",
            paramLabel = "STATE",
            split = ",",
            description = "How far it has come; all of: ${COMPLETION-CANDIDATES}.")
    List<CaseFilter.State> states = List.of();

    @Option(
            names = "--consent",
            paramLabel = "STATE",
            split = ",",
            description = "State of the consent; one of those named: ${COMPLETION-CANDIDATES}.")
    List<ConsentState> consents = List.of();

    @Option(names = "--review-due", description = "Only those whose recording is due to be looked at for deletion.")
    boolean reviewDue;

    CaseListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CaseFilter filter = filter();
            CaseList list = new CaseList(workspace);
            Set<String> wanted = list.newest(-1).stream()
                    .filter(filter.predicate())
                    .map(CaseSummary::code)
                    .collect(Collectors.toSet());
            List<CaseOverview> cases = list.all().stream()
                    .filter(c -> wanted.contains(c.surgicalCase().code()))
                    .toList();
            if (console.isJson()) {
                console.printJson(
                        Json.object("cases", cases.stream().map(CaseViews::of).toList()));
                return 0;
            }
            if (cases.isEmpty()) {
                console.say(
                        filter.equals(CaseFilter.ALL)
                                ? "No cases yet. Add one with: sideport case add --code C --trainee T --date ISO"
                                        + " FILE..."
                                : "No case matches.");
                return 0;
            }
            TextTable table = new TextTable("Case", "Trainee", "Date", ">Recording", "Tagged by", "Marks");
            for (CaseOverview c : cases) {
                SurgicalCase one = c.surgicalCase();
                Recording recording = one.recording();
                table.row(
                        one.code(),
                        Words.orHidden(one.traineeOrNull()),
                        Words.orHidden(one.dateOrNull()),
                        recording == null
                                ? "–"
                                : recording.duration().toClockText() + (c.mediaFound() ? "" : " (missing)"),
                        String.join(", ", c.annotators()),
                        String.join(
                                ", ", c.ratings().stream().map(CaseViews::brief).toList()));
            }
            table.print(console::say);
        }
        return 0;
    }

    private CaseFilter filter() {
        return new CaseFilter(
                words.strip(),
                trainee.isEmpty() ? null : trainee,
                from,
                to,
                Set.copyOf(states),
                null,
                null,
                Set.copyOf(consents),
                reviewDue ? Day.today() : null);
    }
}
