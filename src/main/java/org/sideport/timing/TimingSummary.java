package org.sideport.timing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Distribution;

/** Describes phases over cases. */
public final class TimingSummary {

    private TimingSummary() {}

    /**
     * Active time of each phase over the cases that have it, and the operating time, per group. A case that several
     * annotators tagged enters once, with the mean of their times. Cases whose time is not known are left out of that row
     * and so lower its n.
     *
     * @param group names the group of a case; empty text for "all"
     * @return rows by group (alphabetical), then by first appearance, the operating time last
     */
    public static List<SummaryRow> of(List<CaseTiming> cases, Function<CaseTiming, String> group) {
        Map<String, List<CaseTiming>> groups =
                cases.stream().collect(Collectors.groupingBy(group, TreeMap::new, Collectors.toList()));
        List<SummaryRow> rows = new ArrayList<>();
        groups.forEach((name, members) -> {
            Sample sample = new Sample();
            for (CaseTiming timing : members) {
                timing.phases().forEach(p -> sample.add(p.phase(), timing.caseCode(), p.activeUs()));
            }
            members.forEach(timing -> sample.add(SummaryRow.OPERATING, timing.caseCode(), timing.operatingUs()));
            sample.distributions()
                    .forEach((phase, distribution) -> rows.add(new SummaryRow(name, phase, distribution)));
        });
        return rows;
    }

    /** The known times of each phase by case, one for each annotator. */
    private static final class Sample {

        private final Map<String, Map<String, List<Long>>> times = new LinkedHashMap<>();

        void add(String phase, String caseCode, @Nullable Long us) {
            if (us != null) {
                times.computeIfAbsent(phase, p -> new LinkedHashMap<>())
                        .computeIfAbsent(caseCode, c -> new ArrayList<>())
                        .add(us);
            }
        }

        Map<String, Distribution> distributions() {
            Map<String, Distribution> distributions = new LinkedHashMap<>();
            times.forEach((phase, byCase) -> distributions.put(
                    phase,
                    Distribution.of(byCase.values().stream()
                            .mapToDouble(own -> own.stream()
                                    .mapToLong(Long::longValue)
                                    .average()
                                    .orElseThrow())
                            .toArray())));
            return distributions;
        }
    }
}
