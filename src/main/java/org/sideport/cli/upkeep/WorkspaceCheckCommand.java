package org.sideport.cli.upkeep;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.AuditHead;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.store.DamagedStoreException;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.CheckWorkspace.Finding;
import org.sideport.workflow.upkeep.CheckWorkspace.Kind;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "check",
        description = {
            "Looks through a workspace: the store's file, the audit trail line by line, the digests of signed ratings,"
                    + " rubrics, voices, recordings, backups. Ends with 1 if something is not as it was.",
            "Note down the end of the audit trail that it prints, and compare later: --head 128:9f3c..."
        })
final class WorkspaceCheckCommand implements Callable<Integer> {

    private static final int FINDING = 1;
    private static final Pattern HEAD = Pattern.compile("(\\d{1,18}):([0-9a-f]{64})");

    private final Console console;

    @Option(names = "--recordings", description = "Also read all recordings and compare them with their digests.")
    boolean recordings;

    @Option(
            names = "--head",
            paramLabel = "COUNT:DIGEST",
            description = "An end of the audit trail that was noted before: is it still in the trail?")
    @Nullable
    String head;

    @Option(
            names = "--accept",
            description = "Take the audit trail as it stands from now on, after looking into what was found. That is"
                    + " noted in the trail.")
    boolean accept;

    WorkspaceCheckCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        AuditHead noted = noted();
        CheckWorkspace.Result result;
        try (Workspace workspace = console.open()) {
            CheckWorkspace check = new CheckWorkspace(workspace);
            if (accept) {
                check.acceptTrail();
            }
            result = check.run(recordings, noted, console.progress());
        } catch (DamagedStoreException e) {
            String remedy = e.remedy();
            result = new CheckWorkspace.Result(
                    List.of(new Finding(
                            Kind.STORE, Workspace.STORE_FILE, e.what(), remedy == null ? "" : remedy, false)),
                    AuditHead.NONE,
                    0,
                    0);
        }
        show(result);
        return result.isWhole() ? 0 : FINDING;
    }

    private @Nullable AuditHead noted() {
        if (head == null) {
            return null;
        }
        Matcher parts = HEAD.matcher(head.strip());
        if (!parts.matches()) {
            throw new InputException(
                    "\"" + head + "\" is no end of an audit trail",
                    "--head",
                    "write the number of lines, a colon and the 64 digits of the digest");
        }
        return new AuditHead(Long.parseLong(parts.group(1)), parts.group(2));
    }

    private void show(CheckWorkspace.Result result) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "whole",
                    result.isWhole(),
                    "cases",
                    result.cases(),
                    "signed_ratings",
                    result.signed(),
                    "audit_count",
                    result.head().count(),
                    "audit_digest",
                    result.head().digest().isEmpty() ? null : result.head().digest(),
                    "findings",
                    result.findings().stream()
                            .map(f -> Json.object(
                                    "kind", f.kind().id(),
                                    "subject", f.subject(),
                                    "what", f.what(),
                                    "remedy", f.remedy(),
                                    "note", f.isNote()))
                            .toList()));
            return;
        }
        result.findings()
                .forEach(f -> console.say((f.isNote() ? "note     " : "FINDING  ")
                        + f.kind().id() + ", " + f.subject() + ": " + f.what() + "\n           " + f.remedy()));
        console.say((result.isWhole() ? "Whole: " : "Not whole: ") + Plural.of(result.cases(), "case") + ", "
                + Plural.of(result.signed(), "signed rating") + ", "
                + Plural.of(result.findings().stream().filter(f -> !f.isNote()).count(), "finding") + ".");
        if (result.head().count() > 0) {
            console.say("End of the audit trail, to be noted elsewhere: "
                    + result.head().count() + ":" + result.head().digest());
        }
    }
}
