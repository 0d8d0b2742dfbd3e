package org.sideport.cli;

import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "show",
        description = {
            "Prints a rubric as a form to mark by hand: items by domain, levels with what they look like, reasons"
                    + " for leaving an item out.",
            "Example: sideport rubric show phaco-competency"
        })
final class RubricShowCommand implements Callable<Integer> {

    private final Console console;

    @Parameters(
            paramLabel = "ID|FILE",
            description = "Id of a rubric at hand, or a rubric file (for which no workspace is needed).")
    String rubric = "";

    @Option(names = "--language", paramLabel = "TAG", description = "Language of the words, where the rubric has it.")
    @Nullable
    String language;

    RubricShowCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Rubric form = read();
        if (console.isJson()) {
            console.printJson(json(form));
        } else {
            print(form);
        }
        return 0;
    }

    private Rubric read() {
        Rubric read = Files.isRegularFile(Path.of(rubric)) ? RubricReader.read(Path.of(rubric)) : named();
        if (language == null) {
            return read;
        }
        if (!read.translations().containsKey(language)) {
            throw new InputException(
                    "the rubric has no words in \"" + language + "\"",
                    rubric,
                    read.translations().isEmpty()
                            ? "leave out --language: it is in one language only"
                            : "choose one of "
                                    + read.translations().keySet().stream()
                                            .sorted()
                                            .collect(Collectors.joining(", ")));
        }
        return read.in(language);
    }

    private Rubric named() {
        try (Workspace workspace = console.open()) {
            return new Vocabularies(workspace).rubric(rubric).rubric();
        } catch (InputException e) {
            // the shipped ones can be had without a workspace
            return Vocabularies.shippedOnly().rubricTexts().stream()
                    .map(Vocabularies.RubricText::rubric)
                    .filter(r -> r.id().equals(rubric) && console.namedWorkspace() == null)
                    .findFirst()
                    .orElseThrow(() -> e);
        }
    }

    // ---- for people

    private void print(Rubric form) {
        console.say(form.title() + "  (" + form.id() + " " + form.version() + ")");
        if (!form.guidance().isEmpty()) {
            console.say(form.guidance());
        }
        console.say("");
        console.say("Case ____________  Assessor ____________  Date ____________");
        for (Rubric.Domain domain : form.domains()) {
            console.say("");
            console.say(domain.title().toUpperCase(java.util.Locale.ROOT));
            form.items().stream()
                    .filter(item -> item.domain().equals(domain.id()))
                    .forEach(item -> print(form, item));
        }
        console.say("");
        console.say("Agreed to work on:  1. ____________  2. ____________  3. ____________");
    }

    private void print(Rubric form, Rubric.Item item) {
        console.say("");
        console.say(item.title()
                + (item.weight() == 1 ? "" : "  (weight " + plain(item.weight()) + ")")
                + (item.criticalMinimum() == null ? "" : "  (critical below " + item.criticalMinimum() + ")"));
        if (!item.guidance().isEmpty()) {
            console.say("      " + item.guidance());
        }
        switch (item.kind()) {
            case LEVEL ->
                form.levels()
                        .forEach(level -> console.say(
                                "  [ ] " + level.points() + "  " + level.label() + ": " + anchor(item, level)));
            case CHECK -> {
                console.say("  [ ] 0  not done");
                console.say("  [ ] 1  done");
            }
            case COUNT, MEASURED -> {
                console.say("  ______ " + item.unit());
                for (Rubric.Band band : item.bands()) {
                    console.say("        from " + plain(band.from()) + ": " + band.points()
                            + (band.text().isEmpty() ? "" : "  " + band.text()));
                }
            }
        }
        sorted(item.notApplicable())
                .forEach(reason -> console.say("  [ ] –  " + reason.id().replace('_', ' ')));
    }

    private static String anchor(Rubric.Item item, Rubric.Level level) {
        return item.anchors().stream()
                .filter(anchor -> anchor.points() == level.points())
                .map(Rubric.Anchor::text)
                .findFirst()
                .orElse(level.meaning());
    }

    private static List<NotApplicable> sorted(Set<NotApplicable> reasons) {
        return reasons.stream().sorted().toList();
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    // ---- for programs

    private static Map<String, Object> json(Rubric form) {
        return Json.object(
                "id",
                form.id(),
                "version",
                form.version(),
                "title",
                form.title(),
                "procedure",
                form.procedure(),
                "guidance",
                form.guidance(),
                "maximum",
                form.items().stream().mapToInt(form::maximumOf).sum(),
                "domains",
                form.domains().stream()
                        .map(domain -> Json.object(
                                "id",
                                domain.id(),
                                "title",
                                domain.title(),
                                "items",
                                form.items().stream()
                                        .filter(item -> item.domain().equals(domain.id()))
                                        .map(item -> item(form, item))
                                        .toList()))
                        .toList());
    }

    private static Map<String, Object> item(Rubric form, Rubric.Item item) {
        boolean isNumber = item.kind().isNumber();
        return Json.object(
                "id",
                item.id(),
                "title",
                item.title(),
                "kind",
                item.kind().name().toLowerCase(java.util.Locale.ROOT),
                "phase",
                item.phase(),
                "weight",
                item.weight(),
                "critical_minimum",
                item.criticalMinimum(),
                "guidance",
                item.guidance(),
                "choices",
                isNumber
                        ? List.of()
                        : form.pointsOf(item).stream()
                                .map(points -> Json.object("points", points, "text", text(form, item, points)))
                                .toList(),
                "bands",
                item.bands().stream()
                        .map(band -> Json.object("from", band.from(), "points", band.points(), "text", band.text()))
                        .toList(),
                "unit",
                isNumber ? item.unit() : null,
                "not_applicable",
                sorted(item.notApplicable()).stream().map(NotApplicable::id).toList());
    }

    private static @Nullable String text(Rubric form, Rubric.Item item, int points) {
        return item.kind() == Rubric.Kind.CHECK
                ? null
                : form.levels().stream()
                        .filter(level -> level.points() == points)
                        .map(level -> anchor(item, level))
                        .findFirst()
                        .orElse(null);
    }
}
