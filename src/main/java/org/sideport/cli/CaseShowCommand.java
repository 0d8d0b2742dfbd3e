package org.sideport.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.Plural;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.EditCase;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(name = "show", description = "Shows one case: files, taggings, ratings.")
final class CaseShowCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(paramLabel = "C", description = "Code of the case.")
    String code;

    CaseShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CaseOverview overview = new CaseList(workspace).one(code);
            EditCase.Sheet sheet = new EditCase(workspace).open(code);
            SurgicalCase one = overview.surgicalCase();
            Map<String, String> all = sheet.procedure().withComputed(one.descriptors());
            if (console.isJson()) {
                Map<String, @Nullable Object> view = new LinkedHashMap<>(CaseViews.of(overview));
                Map<String, String> computed = new LinkedHashMap<>(all);
                computed.keySet().removeAll(one.descriptors().keySet());
                view.put("computed", computed);
                view.put(
                        "changes",
                        sheet.changes().stream().map(CaseViews::change).toList());
                console.printJson(view);
                return 0;
            }
            console.say("Case " + one.code() + ", trainee " + Words.orHidden(one.traineeOrNull()) + ", "
                    + Words.orHidden(one.dateOrNull()) + ", " + one.procedure());
            all.forEach((name, value) -> console.say(
                    "  " + name + ": " + value + (one.descriptors().containsKey(name) ? "" : " (computed)")));
            console.say("  consent: " + one.consent().text());
            if (one.reviewBy() != null) {
                console.say("  review by " + one.reviewBy());
            }
            String warning = one.consent().warning();
            if (warning != null) {
                console.note("Warning: " + warning);
            }
            Recording recording = one.recording();
            if (recording == null) {
                console.say("  no recording");
            } else {
                console.say("  recording of " + recording.duration().toClockText());
                for (int i = 0; i < recording.segments().size(); i++) {
                    console.say("    from " + recording.startOf(i).toClockText() + "  "
                            + recording.segments().get(i).file());
                }
                if (!overview.mediaFound()) {
                    console.say("    a file is not where it was; it is looked for when the case is opened");
                }
            }
            console.say(
                    overview.annotators().isEmpty()
                            ? "  not tagged yet"
                            : "  tagged by " + String.join(", ", overview.annotators()));
            overview.ratings()
                    .forEach(
                            r -> console.say("  rating " + r.id() + " on " + r.rubric() + " " + r.rubricVersion() + ": "
                                    + CaseViews.brief(r) + ", "
                                    + Plural.of(r.score().marked(), "applicable item")
                                    + (r.score().complete()
                                            ? ""
                                            : ", " + r.score().missing().size() + " missing")
                                    + (r.digest() == null ? "" : "\n    digest " + r.digest())));
            sheet.changes()
                    .forEach(c -> console.say("  changed by " + c.by() + " at " + c.at() + ": " + c.field() + " from "
                            + (c.before().isEmpty() ? "–" : c.before()) + " to "
                            + (c.after().isEmpty() ? "–" : c.after())));
        }
        return 0;
    }
}
