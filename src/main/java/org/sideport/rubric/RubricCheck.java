package org.sideport.rubric;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import tools.jackson.databind.JsonNode;

/** Looks for every fault of a rubric file at once. */
public final class RubricCheck {

    private final JsonSource source;
    private final @Nullable Procedure procedure;
    private final List<Finding> findings = new ArrayList<>();
    private final Set<Integer> points = new TreeSet<>();

    private RubricCheck(JsonSource source, @Nullable Procedure procedure) {
        this.source = source;
        this.procedure = procedure;
    }

    /**
     * @param procedure the procedure that the rubric should fit; {@code null} if that is not to be checked
     * @return every fault in the order of the file; empty if there is none. A text that is not JSON gives one fault.
     * @throws InputException if the file cannot be read
     */
    public static List<Finding> check(Path file, @Nullable Procedure procedure) {
        return check(JsonSource.text(file), file.toString(), procedure);
    }

    /**
     * @param name of the file, for messages
     * @param procedure the procedure that the rubric should fit; {@code null} if that is not to be checked
     * @return every fault in the order of the file; empty if there is none
     */
    public static List<Finding> check(String json, String name, @Nullable Procedure procedure) {
        try {
            return check(JsonSource.parse(json, name), procedure);
        } catch (NotJsonException e) {
            return List.of(e.finding());
        }
    }

    static List<Finding> check(JsonSource source, @Nullable Procedure procedure) {
        RubricCheck check = new RubricCheck(source, procedure);
        check.findings.addAll(SchemaCheck.RUBRIC.check(source));
        check.levels();
        check.items();
        check.findings.addAll(RubricVersionCheck.check(source));
        check.procedure();
        check.passStandard();
        check.findings.sort(Finding.IN_FILE_ORDER);
        return List.copyOf(check.findings);
    }

    private void levels() {
        var repeats = new Ids.Repeats(source, findings, "points of a level");
        var labels = new Ids.Repeats(source, findings, "label");
        Ids.each(source.root(), "", "levels", (level, path) -> {
            repeats.see(level, path, "points");
            labels.see(level, path, "label");
            Integer value = Ids.whole(level.path("points"));
            if (value != null) {
                if (points.stream().anyMatch(p -> p > value)) {
                    findings.add(source.error(
                            path + "/points", "the level has fewer points than one before it", "list the worst first"));
                }
                points.add(value);
            }
        });
        boolean scaleUsed = false;
        for (JsonNode item : source.root().path("items")) {
            scaleUsed |= isLevel(item);
        }
        JsonNode levels = source.root().path("levels");
        if (levels.isArray() && levels.size() < 2 && (scaleUsed || !levels.isEmpty())) {
            findings.add(source.error("/levels", "the scale has fewer than two levels", "give at least two"));
        }
    }

    private void items() {
        var domains = new Ids.Repeats(source, findings, "domain id");
        Ids.each(source.root(), "", "domains", (domain, path) -> domains.see(domain, path, "id"));
        var ids = new Ids.Repeats(source, findings, "item id");
        Set<String> used = new HashSet<>();
        Ids.each(source.root(), "", "items", (item, path) -> {
            ids.see(item, path, "id");
            String domain = Ids.text(item, "domain");
            used.add(domain);
            if (!domain.isEmpty() && !domains.knows(domain)) {
                findings.add(source.error(
                        path + "/domain", "there is no domain \"" + domain + "\"", "add it to domains, or correct it"));
            }
            phase(item, path);
            anchors(item, path);
            critical(item, path);
            findings.addAll(BandCheck.check(source, item, path));
        });
        Ids.each(source.root(), "", "domains", (domain, path) -> {
            if (!used.contains(Ids.text(domain, "id"))) {
                findings.add(source.warning(path, "the domain has no item", "remove it, or give it an item"));
            }
        });
    }

    private void phase(JsonNode item, String path) {
        String phase = Ids.text(item, "phase");
        if (procedure != null
                && item.path("phase").isString()
                && procedure.terms().stream().noneMatch(t -> t.id().equals(phase))) {
            findings.add(source.error(
                    path + "/phase",
                    "the procedure \"" + procedure.id() + "\" has no phase or step \"" + phase + "\"",
                    "write one of its ids, or null for the whole operation"));
        }
    }

    private static boolean isLevel(JsonNode item) {
        String kind = Ids.text(item, "kind");
        return kind.isEmpty() || kind.equals("level");
    }

    private void anchors(JsonNode item, String path) {
        boolean isLevel = isLevel(item);
        var repeats = new Ids.Repeats(source, findings, "anchor for points");
        Set<Integer> anchored = new HashSet<>();
        Ids.each(item, path, "anchors", (anchor, at) -> {
            repeats.see(anchor, at, "points");
            Integer value = Ids.whole(anchor.path("points"));
            if (value != null) {
                anchored.add(value);
                if (isLevel && !points.contains(value)) {
                    findings.add(source.error(
                            at + "/points",
                            "no level has " + value + " points",
                            "remove the anchor, or add the level"));
                }
            }
        });
        if (!isLevel) {
            if (!anchored.isEmpty()) {
                findings.add(source.error(
                        path + "/anchors",
                        "a " + Ids.text(item, "kind") + " has no anchors",
                        "remove them, or make it an item with levels"));
            }
            return;
        }
        List<Integer> lacking =
                points.stream().filter(p -> !anchored.contains(p)).toList();
        if (!lacking.isEmpty()) {
            String at = item.has("anchors") ? path + "/anchors" : path;
            findings.add(source.error(
                    at,
                    (lacking.size() == 1 ? "the anchor" : "the anchors") + " for " + join(lacking)
                            + (lacking.get(lacking.size() - 1) == 1 && lacking.size() == 1 ? " point" : " points")
                            + (lacking.size() == 1 ? " is missing" : " are missing"),
                    "say what the level looks like for this item"));
        }
    }

    private void critical(JsonNode item, String path) {
        Integer critical = Ids.whole(item.path("critical_minimum"));
        Set<Integer> possible = possible(item);
        if (critical == null || possible.isEmpty()) {
            return;
        }
        if (Ids.text(item, "kind").equals("measured")) {
            findings.add(source.error(
                    path + "/critical_minimum",
                    "a measured item cannot fail a rating by itself",
                    "write null, or judge it by levels"));
            return;
        }
        if (!possible.contains(critical)) {
            findings.add(source.error(
                    path + "/critical_minimum",
                    critical + " is not a level of this item",
                    "write one of " + join(possible.stream().sorted().toList())));
        } else if (possible.stream().noneMatch(p -> p < critical)) {
            findings.add(source.warning(
                    path + "/critical_minimum",
                    "no level lies below this minimum, so it can never be missed",
                    "write a higher level, or null"));
        }
    }

    private Set<Integer> possible(JsonNode item) {
        return switch (Ids.text(item, "kind")) {
            case "check" -> Set.of(0, 1);
            case "count", "measured" -> BandCheck.points(item);
            default -> points;
        };
    }

    private void procedure() {
        String wanted = Ids.text(source.root(), "procedure");
        if (procedure != null && !wanted.isEmpty() && !wanted.equals(procedure.id())) {
            findings.add(source.error(
                    "/procedure",
                    "the rubric is for \"" + wanted + "\", not for \"" + procedure.id() + "\"",
                    "check it against its own procedure file"));
        }
    }

    private void passStandard() {
        String date = Ids.text(source.root().path("pass_standard"), "agreed_on");
        try {
            // Texts of another shape are the schema's to report.
            if (date.matches("\\d{4}-\\d{2}-\\d{2}")) {
                LocalDate.parse(date);
            }
        } catch (DateTimeParseException e) {
            findings.add(
                    source.error("/pass_standard/agreed_on", date + " is not a day of the calendar", "correct it"));
        }
    }

    private static String join(List<Integer> numbers) {
        return String.join(", ", numbers.stream().map(String::valueOf).toList());
    }
}
