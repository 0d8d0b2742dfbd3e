package org.sideport.rubric;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Looks for faults in what a rubric says about its earlier versions and in other languages. */
final class RubricVersionCheck {

    private final JsonSource source;
    private final Set<String> items = new HashSet<>();
    private final Set<String> domains = new HashSet<>();
    private final Set<Integer> levels = new HashSet<>();
    private final List<Finding> findings = new ArrayList<>();

    private RubricVersionCheck(JsonSource source) {
        this.source = source;
        Ids.each(source.root(), "", "items", (item, path) -> items.add(Ids.text(item, "id")));
        Ids.each(source.root(), "", "levels", (level, path) -> {
            Integer points = Ids.whole(level.path("points"));
            if (points != null) {
                levels.add(points);
            }
        });
        Ids.each(source.root(), "", "domains", (domain, path) -> domains.add(Ids.text(domain, "id")));
    }

    static List<Finding> check(JsonSource source) {
        RubricVersionCheck check = new RubricVersionCheck(source);
        check.replaces();
        check.translations();
        return check.findings;
    }

    private void replaces() {
        var versions = new Ids.Repeats(source, findings, "version");
        String own = Ids.text(source.root(), "version");
        Ids.each(source.root(), "", "replaces", (one, path) -> {
            versions.see(one, path, "version");
            if (Ids.text(one, "version").equals(own)) {
                findings.add(
                        source.error(path + "/version", "the rubric replaces its own version", "name an earlier one"));
            }
            one.path("items").properties().forEach(entry -> {
                JsonNode now = entry.getValue();
                if (now.isString() && !items.contains(now.stringValue())) {
                    findings.add(source.error(
                            path + "/items/" + entry.getKey(),
                            "there is no item \"" + now.stringValue() + "\"",
                            "write the id of an item of this version, or null"));
                }
            });
        });
    }

    private void translations() {
        source.root().path("translations").properties().forEach(language -> {
            String path = "/translations/" + language.getKey();
            known(language.getValue().path("items"), path + "/items", items, "item");
            known(language.getValue().path("domains"), path + "/domains", domains, "domain");
            points(language.getValue().path("levels"), path + "/levels", levels, "level has");
            Ids.each(source.root(), "", "items", (item, at) -> {
                String id = Ids.text(item, "id");
                points(
                        language.getValue().path("items").path(id).path("anchors"),
                        path + "/items/" + id + "/anchors",
                        possible(item),
                        "anchor or band has");
            });
        });
    }

    private Set<Integer> possible(JsonNode item) {
        Set<Integer> bands = BandCheck.points(item);
        return bands.isEmpty() ? levels : bands;
    }

    /** Names of another shape are the schema's to report. */
    private void points(JsonNode words, String path, Set<Integer> there, String what) {
        words.properties().forEach(one -> {
            String points = one.getKey();
            if (points.matches("[0-9]{1,9}") && !there.contains(Integer.valueOf(points))) {
                findings.add(source.error(
                        path + "/" + points,
                        "no " + what + " " + points + (points.equals("1") ? " point" : " points") + " to translate",
                        "correct the points, or remove it"));
            }
        });
    }

    private void known(JsonNode words, String path, Set<String> ids, String what) {
        words.properties().forEach(one -> {
            if (!ids.contains(one.getKey())) {
                findings.add(source.error(
                        path + "/" + one.getKey(),
                        "there is no " + what + " \"" + one.getKey() + "\" to translate",
                        "correct its id, or remove it"));
            }
        });
    }
}
