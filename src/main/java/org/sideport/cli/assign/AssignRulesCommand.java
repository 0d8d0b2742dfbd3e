package org.sideport.cli.assign;

import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.model.MarkingRules;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Adjudication;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "rules",
        description = {
            "Shows or sets how the unit wants its marks made. The figures at first are common practice, without a"
                    + " source.",
            "Example: sideport assign rules --share-limit 0.1 --items-limit 3"
        })
final class AssignRulesCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--self-first",
            paramLabel = "true|false",
            arity = "1",
            description = "Whether trainees sign their own marks before they see the assessors'.")
    @Nullable
    Boolean selfFirst;

    @Option(
            names = "--share-limit",
            paramLabel = "SHARE",
            description = "Two marks differ too much from this difference in the share of the applicable maximum on.")
    @Nullable
    Double share;

    @Option(
            names = "--items-limit",
            paramLabel = "N",
            description = "Or if so many items differ by two levels or more.")
    @Nullable
    Integer items;

    AssignRulesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            Adjudication adjudication = new Adjudication(workspace, Day.clock());
            MarkingRules rules = adjudication.rules();
            if (selfFirst != null || share != null || items != null) {
                rules = new MarkingRules(
                        selfFirst == null ? rules.selfFirst() : selfFirst,
                        share == null ? rules.shareLimit() : share,
                        items == null ? rules.itemsLimit() : items);
                adjudication.setRules(rules);
            }
            if (console.isJson()) {
                console.printJson(Json.object(
                        "self_first", rules.selfFirst(),
                        "share_limit", rules.shareLimit(),
                        "items_limit", rules.itemsLimit(),
                        "far_levels", MarkingRules.FAR));
            } else {
                console.say("Trainees sign their own marks first: " + (rules.selfFirst() ? "yes" : "no"));
                console.say("Two marks differ too much from " + rules.shareLimit()
                        + " of the applicable maximum on, or from " + rules.itemsLimit()
                        + " items two levels apart on.");
            }
        }
        return 0;
    }
}
