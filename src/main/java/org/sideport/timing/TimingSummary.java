package org.sideport.timing;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
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
     * and so lower its n; those whose time is unsure because of a cut are left out too, and counted.
     *
     * @param group names the group of a case; empty text for "all"
     * @return rows by group (alphabetical), then by first appearance, the operating time last
     */
    public static List<SummaryRow> of(List<CaseTiming> cases, Function<CaseTiming, String> group) {
        Map<String, List<CaseTiming>> groups =
                cases.stream().collect(Collectors.groupingBy(group, TreeMap::new, Collectors.toList()));
        List<SummaryRow> rows = new ArrayList<>();
        groups.forEach((name, members) -> {
            Map<String, Sample> samples = new LinkedHashMap<>();
            for (CaseTiming timing : members) {
                timing.phases()
                        .forEach(p -> sample(samples, p.phase())
                                .add(timing.caseCode(), p.activeUs(), p.unsure().active()));
            }
            members.forEach(timing -> sample(samples, SummaryRow.OPERATING)
                    .add(
                            timing.caseCode(),
                            timing.operatingUs(),
                            timing.unsure().span()));
            samples.forEach((phase, sample) -> {
                if (!sample.isEmpty()) {
                    rows.add(new SummaryRow(name, phase, sample.distribution(), sample.unsure()));
                }
            });
        });
        return rows;
    }

    private static Sample sample(Map<String, Sample> samples, String phase) {
        return samples.computeIfAbsent(phase, p -> new Sample());
    }

    /** The known times of one phase by case, one for each annotator. */
    private static final class Sample {

        private final Map<String, List<Long>> sure = new LinkedHashMap<>();
        private final Set<String> doubted = new HashSet<>();

        void add(String caseCode, @Nullable Long us, boolean unsure) {
            if (us == null) {
                return;
            }
            if (unsure) {
                doubted.add(caseCode);
            } else {
                sure.computeIfAbsent(caseCode, c -> new ArrayList<>()).add(us);
            }
        }

        boolean isEmpty() {
            return sure.isEmpty() && doubted.isEmpty();
        }

        /** Cases of which no annotator has a sure time. */
        int unsure() {
            return (int) doubted.stream().filter(c -> !sure.containsKey(c)).count();
        }

        @Nullable
        Distribution distribution() {
            return sure.isEmpty()
                    ? null
                    : Distribution.of(sure.values().stream()
                            .mapToDouble(own -> own.stream()
                                    .mapToLong(Long::longValue)
                                    .average()
                                    .orElseThrow())
                            .toArray());
        }
    }
}
