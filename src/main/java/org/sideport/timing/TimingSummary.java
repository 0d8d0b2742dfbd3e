package org.sideport.timing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.sideport.stats.Distribution;

/** Describes phases over cases. */
public final class TimingSummary {

    private TimingSummary() {}

    /**
     * Active time of each phase over the cases that have it, and the operating time, per group. Cases whose time is not
     * known are left out of that row and so lower its n.
     *
     * @param group names the group of a case; empty text for "all"
     * @return rows by group (alphabetical), then by first appearance, the operating time last
     */
    public static List<SummaryRow> of(List<CaseTiming> cases, Function<CaseTiming, String> group) {
        Map<String, List<CaseTiming>> groups =
                cases.stream().collect(Collectors.groupingBy(group, TreeMap::new, Collectors.toList()));
        List<SummaryRow> rows = new ArrayList<>();
        groups.forEach((name, members) -> {
            Map<String, List<Double>> values = new LinkedHashMap<>();
            for (CaseTiming timing : members) {
                for (PhaseTiming phase : timing.phases()) {
                    Long activeUs = phase.activeUs();
                    if (activeUs != null) {
                        values.computeIfAbsent(phase.phase(), p -> new ArrayList<>())
                                .add((double) activeUs);
                    }
                }
            }
            for (CaseTiming timing : members) {
                Long operatingUs = timing.operatingUs();
                if (operatingUs != null) {
                    values.computeIfAbsent(SummaryRow.OPERATING, p -> new ArrayList<>())
                            .add((double) operatingUs);
                }
            }
            values.forEach((phase, sample) -> rows.add(new SummaryRow(
                    name,
                    phase,
                    Distribution.of(
                            sample.stream().mapToDouble(Double::doubleValue).toArray()))));
        });
        return rows;
    }
}
