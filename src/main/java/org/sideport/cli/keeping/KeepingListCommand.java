package org.sideport.cli.keeping;

import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.CaseKeeping;
import picocli.CommandLine.Command;

@Command(
        name = "list",
        description = {
            "What has to be looked at again by now, what was withdrawn and waits to be deleted, what was deleted.",
            "Withdrawn cases are to be seen here only. Exit code 1 if something waits."
        })
final class KeepingListCommand implements Callable<Integer> {

    private final Console console;

    KeepingListCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CaseKeeping.Overview now = new CaseKeeping(workspace).overview(Day.today());
            if (console.isJson()) {
                console.printJson(Json.object(
                        "due", now.due().stream().map(KeepingListCommand::json).toList(),
                        "withdrawn",
                                now.withdrawn().stream()
                                        .map(KeepingListCommand::json)
                                        .toList(),
                        "deleted",
                                now.log().stream()
                                        .map(d -> Json.object(
                                                "id",
                                                d.id(),
                                                "on",
                                                d.on().toString(),
                                                "by",
                                                d.by(),
                                                "kind",
                                                d.kind().id()))
                                        .toList()));
            } else {
                print(now);
            }
            return now.due().isEmpty() && now.withdrawn().isEmpty() ? 0 : 1;
        }
    }

    private void print(CaseKeeping.Overview now) {
        TextTable waiting = new TextTable("waits for", "case", "trainee", "since");
        now.withdrawn()
                .forEach(c -> waiting.row(
                        "deletion",
                        c.code(),
                        c.trainee(),
                        String.valueOf(c.consent().recordedOn())));
        now.due().forEach(c -> waiting.row("a look", c.code(), c.trainee(), String.valueOf(c.reviewBy())));
        if (now.withdrawn().isEmpty() && now.due().isEmpty()) {
            console.say("Nothing waits.");
        } else {
            waiting.print(console::say);
        }
        TextTable log = new TextTable("deleted on", "by", "because", "number");
        now.log().forEach(d -> log.row(d.on().toString(), d.by(), d.kind().id(), d.id()));
        if (!now.log().isEmpty()) {
            console.say("");
            log.print(console::say);
        }
    }

    private static Object json(SurgicalCase one) {
        return Json.object(
                "case",
                one.code(),
                "trainee",
                one.trainee(),
                "date",
                one.date().toString(),
                "consent",
                one.consent().state().id(),
                "consent_on",
                one.consent().recordedOn() == null
                        ? null
                        : String.valueOf(one.consent().recordedOn()),
                "review_by",
                one.reviewBy() == null ? null : String.valueOf(one.reviewBy()));
    }
}
