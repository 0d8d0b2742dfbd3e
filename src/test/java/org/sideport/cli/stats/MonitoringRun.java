package org.sideport.cli.stats;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Runs the commands of charts within this process. */
abstract class MonitoringRun extends StatsRun {

    String file(String text) throws IOException {
        return file("log.csv", text);
    }

    /** Cases 1 to n, of which some failed. */
    String log(int n, Integer... failures) throws IOException {
        Set<Integer> failed = Set.of(failures);
        StringBuilder text = new StringBuilder("case_number,failure\n");
        for (int i = 1; i <= n; i++) {
            text.append(i).append(',').append(failed.contains(i) ? 1 : 0).append('\n');
        }
        return file(text.toString());
    }

    static List<Integer> cases(JsonNode points) {
        List<Integer> cases = new ArrayList<>();
        points.forEach(point -> cases.add(point.at("/case").asInt()));
        return cases;
    }
}
