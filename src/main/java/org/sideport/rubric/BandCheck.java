package org.sideport.rubric;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import tools.jackson.databind.JsonNode;

/** Looks for faults of the bands that turn a number into points. */
final class BandCheck {

    private BandCheck() {}

    /** The points that the bands of an item give. */
    static Set<Integer> points(JsonNode item) {
        Set<Integer> points = new TreeSet<>();
        for (JsonNode band : item.path("bands")) {
            Integer value = Ids.whole(band.path("points"));
            if (value != null) {
                points.add(value);
            }
        }
        return points;
    }

    static List<Finding> check(JsonSource source, JsonNode item, String path) {
        List<Finding> findings = new ArrayList<>();
        String kind = Ids.text(item, "kind");
        boolean isNumber = kind.equals("count") || kind.equals("measured");
        JsonNode bands = item.path("bands");
        if (!isNumber) {
            if (bands.isArray() && !bands.isEmpty()) {
                findings.add(source.error(
                        path + "/bands",
                        "only a count or a measured item has bands",
                        "remove them, or change the kind"));
            }
            return findings;
        }
        if (bands.size() < 2) {
            findings.add(source.error(
                    item.has("bands") ? path + "/bands" : path,
                    "a " + kind + " needs at least two bands",
                    "say how many points which numbers get"));
        }
        if (kind.equals("count")
                && bands.size() > 0
                && bands.get(0).path("from").asDouble(0) != 0) {
            findings.add(source.error(path + "/bands/0/from", "a count starts at 0", "let the first band start there"));
        }
        if (points(item).stream().allMatch(p -> p == 0) && bands.size() > 0) {
            findings.add(source.error(path + "/bands", "no band gives a point", "give the best band points"));
        }
        order(source, bands, path, kind.equals("count"), findings);
        quantity(source, item, path, kind, findings);
        return findings;
    }

    private static void order(JsonSource source, JsonNode bands, String path, boolean whole, List<Finding> findings) {
        double before = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < bands.size(); i++) {
            JsonNode from = bands.get(i).path("from");
            if (!from.isNumber()) {
                continue;
            }
            double start = from.doubleValue();
            String at = path + "/bands/" + i + "/from";
            if (start <= before) {
                findings.add(source.error(at, "the band starts no later than the one before it", "sort the bands"));
            }
            if (whole && start != Math.rint(start)) {
                findings.add(source.error(at, "a count is a whole number", "start the band at one"));
            }
            before = start;
        }
    }

    private static void quantity(JsonSource source, JsonNode item, String path, String kind, List<Finding> findings) {
        if (!Ids.text(item, "quantity").equals("phase_time")) {
            return;
        }
        if (!kind.equals("measured") || Ids.text(item, "phase").isEmpty()) {
            findings.add(source.error(
                    path + "/quantity",
                    "the time of a phase can only be taken by a measured item that names its phase",
                    "name the phase, or write \"entered\""));
        }
    }
}
