package org.sideport.cli;

import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.EditCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "edit",
        description = {
            "Changes the sheet of a case; what it was, who changed it and when is kept (see: case show).",
            "",
            "Example: sideport case edit C-17 --by A1 --descriptor ultrasound_time=42 --descriptor average_power=18"
        })
final class CaseEditCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code = "";

    @Option(names = "--by", paramLabel = "CODE", required = true, description = "Code of the person who changes it.")
    String by = "";

    @Option(names = "--trainee", paramLabel = "T", description = "Another trainee, as long as there are no marks.")
    @Nullable
    String trainee;

    @Option(names = "--date", paramLabel = "ISO", description = "Another day of the operation.")
    @Nullable
    LocalDate date;

    @Option(
            names = "--descriptor",
            paramLabel = "K=V",
            description = "A new value, such as nuclear_grade=2.5; K= takes it away; may be repeated.")
    Map<String, String> descriptors = new LinkedHashMap<>();

    @Option(
            names = "--consent",
            paramLabel = "STATE",
            description = "State of the consent: unknown, asked, given, refused, withdrawn.")
    @Nullable
    String consent;

    @Option(
            names = "--purpose",
            paramLabel = "LIST",
            description = "What the consent is for: assessment, teaching, research; commas between several.")
    @Nullable
    String purposes;

    @Option(names = "--consent-date", paramLabel = "ISO", description = "Day of the consent; default: today.")
    @Nullable
    LocalDate consentDate;

    @Option(
            names = "--review-by",
            paramLabel = "ISO",
            description = "Day by which the recording must be looked at again for deletion; none takes it away.")
    @Nullable
    String reviewBy;

    CaseEditCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        boolean drops = "none".equals(reviewBy);
        CaseEdit edit = new CaseEdit(
                by,
                trainee,
                date,
                descriptors,
                consent(),
                drops || reviewBy == null ? null : Day.parse(reviewBy),
                drops);
        try (Workspace workspace = console.open()) {
            List<CaseChange> changes = new EditCase(workspace).edit(code, edit, Instant.now());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case",
                        code,
                        "changes",
                        changes.stream().map(CaseViews::change).toList()));
            } else if (changes.isEmpty()) {
                console.say("Nothing was changed: all of it was so already.");
            } else {
                changes.forEach(c -> console.say(c.field() + ": " + (c.before().isEmpty() ? "–" : c.before()) + " → "
                        + (c.after().isEmpty() ? "–" : c.after())));
            }
        }
        return 0;
    }

    private @Nullable Consent consent() {
        String state = consent;
        if (state == null) {
            if (purposes != null || consentDate != null) {
                throw new InputException(
                        "--purpose and --consent-date belong to --consent", null, "say also --consent STATE");
            }
            return null;
        }
        return new Consent(
                ConsentState.parse(state),
                ConsentPurpose.parseAll(purposes == null ? "" : purposes),
                by,
                consentDate == null ? Day.today() : consentDate);
    }
}
