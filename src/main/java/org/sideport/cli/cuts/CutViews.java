package org.sideport.cli.cuts;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Cut;

/** Cuts as JSON and as lines. */
final class CutViews {

    private CutViews() {}

    static void show(Console console, String caseCode, List<Cut> cuts) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "case", caseCode, "cuts", cuts.stream().map(CutViews::of).toList()));
            return;
        }
        if (cuts.isEmpty()) {
            console.say("No cuts are known in the recording of " + caseCode + ".");
        }
        cuts.forEach(cut -> console.say(line(cut)));
    }

    static Map<String, @Nullable Object> of(Cut cut) {
        return Json.object(
                "from_us", cut.from().micros(),
                "to_us", cut.to().micros(),
                "kind", cut.kind().id(),
                "state", cut.state().id(),
                "decided_by", cut.decidedBy().isEmpty() ? null : cut.decidedBy(),
                "evidence", cut.evidence());
    }

    static String line(Cut cut) {
        String state =
                switch (cut.state()) {
                    case PROPOSED -> "proposed";
                    case ACCEPTED -> "accepted by " + cut.decidedBy();
                    case DISMISSED -> "dismissed by " + cut.decidedBy();
                };
        return "  " + cut.to().toClockText() + "  " + state + ": " + cut.evidence();
    }
}
