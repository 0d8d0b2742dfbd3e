package org.sideport.cli.stats;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** A computation on a CSV file: says its answer, or why there is none (then it ends with 1, a finding). */
abstract class StatsCommand implements Callable<Integer> {

    private static final int FINDING = 1;

    private final Console console;

    StatsCommand(Console console) {
        this.console = console;
    }

    /** Reads the data and computes; throws {@code InputException} for what cannot be read. */
    abstract Outcome<Answer> answer();

    final Console console() {
        return console;
    }

    @Override
    public final Integer call() {
        Outcome<Answer> outcome = answer();
        if (outcome instanceof Outcome.Refused<Answer> refused) {
            refuse(refused.refusal());
            return FINDING;
        }
        print(outcome.orElseThrow());
        return 0;
    }

    private void print(Answer answer) {
        if (console.isJson()) {
            Map<String, @Nullable Object> json = new LinkedHashMap<>(answer.json());
            json.put("warnings", answer.warnings());
            json.put("sentence", answer.sentence());
            console.printJson(json);
            return;
        }
        answer.lines().forEach(console::say);
        answer.warnings().forEach(warning -> console.say("Warning: " + warning));
        console.say("");
        console.say(answer.sentence());
    }

    private void refuse(Refusal refusal) {
        if (console.isJson()) {
            console.printJson(Json.object(
                    "refused",
                    Json.object(
                            "reason",
                            refusal.reason().name().toLowerCase(Locale.ROOT),
                            "why",
                            refusal.why(),
                            "remedy",
                            refusal.remedy())));
        } else {
            console.say("No answer: " + refusal.why() + " — " + refusal.remedy() + ".");
        }
    }
}
