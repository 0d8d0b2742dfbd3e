package org.sideport.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.Workspace;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.TwoTaggings;
import org.sideport.workflow.TwoTaggings.Agreement;
import org.sideport.workflow.TwoTaggings.Difference;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "compare",
        description = {
            "Puts two annotators' phases of a case beside each other: how far they agree, and where they do not.",
            "Steps count by their name, but by their phase where one of the two has tagged only that. Further measures,"
                    + " over many cases: sideport stats segments."
        })
final class TagsCompareCommand implements Callable<Integer> {

    private final Console console;

    @Option(names = "--case", paramLabel = "C", required = true, description = "Code of the case.")
    String code = "";

    @Option(names = "--annotators", paramLabel = "A,B", required = true, split = ",", description = "The two of them.")
    List<String> annotators = new ArrayList<>();

    TagsCompareCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        if (annotators.size() != 2) {
            throw new InputException(
                    "two annotators are compared, not " + annotators.size(), null, "write --annotators A1,A2");
        }
        String first = annotators.get(0).strip();
        String second = annotators.get(1).strip();
        try (Workspace workspace = console.open()) {
            TagExchange tags = new TagExchange(workspace);
            TagExchange.Exported one = tags.find(code, first);
            Tagging other = tags.find(code, second).tagging();
            SurgicalCase of = one.surgicalCase();
            Procedure procedure = new Vocabularies(workspace).procedure(of.procedure());
            Recording recording = of.recording();
            Agreement found = TwoTaggings.agreement(
                            procedure, one.tagging(), other, recording == null ? null : recording.duration())
                    .orElseThrow(() -> new InputException(
                            "one of the two has tagged no phase of case " + of.code(),
                            null,
                            "see what there is with: sideport case show " + of.code()));
            if (console.isJson()) {
                console.printJson(Json.object(
                        "case",
                        of.code(),
                        "annotators",
                        List.of(first, second),
                        "share",
                        found.share(),
                        "kappa",
                        found.kappa(),
                        "boundary_us",
                        found.boundaryUs(),
                        "differences",
                        found.differences().stream()
                                .map(d -> Json.object(
                                        "start_us",
                                        d.startUs(),
                                        "end_us",
                                        d.endUs(),
                                        "first",
                                        d.one(),
                                        "second",
                                        d.other()))
                                .toList()));
            } else {
                say(of.code(), first, second, found, procedure);
            }
        }
        return 0;
    }

    private void say(String of, String first, String second, Agreement found, Procedure procedure) {
        Double kappa = found.kappa();
        Long boundary = found.boundaryUs();
        console.say(String.format(
                Locale.ROOT,
                "%s, %s beside %s: the same on %.1f %% of the time that either tagged%s%s.",
                of,
                first,
                second,
                100 * found.share(),
                kappa == null ? "" : String.format(Locale.ROOT, ", kappa %.2f", kappa),
                boundary == null
                        ? ""
                        : String.format(Locale.ROOT, "; boundaries %.2f s apart in the median", boundary / 1e6)));
        console.say("They differ in " + Plural.of(found.differences().size(), "place") + ".");
        for (Difference d : found.differences()) {
            console.say("  " + MediaTime.ofMicros(d.startUs()).toClockText() + " to "
                    + MediaTime.ofMicros(d.endUs()).toClockText() + "  " + name(procedure, d.one()) + " / "
                    + name(procedure, d.other()));
        }
    }

    private static String name(Procedure procedure, @Nullable String id) {
        return id == null
                ? "nothing"
                : procedure.find(id).map(Procedure.Term::name).orElse(id);
    }
}
