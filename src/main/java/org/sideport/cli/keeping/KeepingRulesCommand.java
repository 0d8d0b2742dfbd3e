package org.sideport.cli.keeping;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.TextTable;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.store.Workspace;
import org.sideport.workflow.consent.CaseKeeping;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "rules",
        description = {
            "What happens when a case is to be marked, assigned or exported without consent to that use.",
            "By default unknown and asked warn, refused and other_purpose (given, but for other uses) refuse: common",
            "practice; local law decides. A withdrawn case is hidden whatever the rules say.",
            "",
            "Example: sideport keeping rules --set unknown=refuse"
        })
final class KeepingRulesCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--set",
            paramLabel = "SITUATION=RULING",
            description =
                    "Situations: unknown, asked, other_purpose, refused. Rulings: allow, warn, refuse. Repeatable.")
    Map<String, String> decided = new LinkedHashMap<>();

    KeepingRulesCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Map<ConsentSituation, ConsentRuling> wanted = new LinkedHashMap<>();
        decided.forEach(
                (situation, ruling) -> wanted.put(ConsentSituation.parse(situation), ConsentRuling.parse(ruling)));
        try (Workspace workspace = console.open()) {
            CaseKeeping keeping = new CaseKeeping(workspace);
            wanted.forEach(keeping::decide);
            Map<String, String> rules = new LinkedHashMap<>();
            keeping.rules().forEach((situation, ruling) -> rules.put(situation.id(), ruling.id()));
            if (console.isJson()) {
                console.printJson(rules);
            } else {
                TextTable table = new TextTable("consent", "leads to");
                rules.forEach(table::row);
                table.print(console::say);
            }
        }
        return 0;
    }
}
