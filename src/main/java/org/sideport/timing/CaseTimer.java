package org.sideport.timing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;

/** Computes {@link CaseTiming}s. Stateless apart from its two rules; thread-safe. */
public final class CaseTimer {

    private final Function<String, String> rollUp;
    private final Predicate<String> idle;

    /**
     * @param rollUp maps the tagged id to the id that is reported: identity, or a step to its phase
     * @param idle true for ids that mean "nothing is being done"; such spans count as idle time
     */
    public CaseTimer(Function<String, String> rollUp, Predicate<String> idle) {
        this.rollUp = rollUp;
        this.idle = idle;
    }

    /** For vocabularies without a procedure file: names as they are; "idle" in any case is idle. */
    public static CaseTimer forAnyNames() {
        return new CaseTimer(Function.identity(), name -> name.equalsIgnoreCase("idle"));
    }

    /** An idle stretch between two done phases. */
    private record Gap(String before, String after, long us, boolean unsure) {}

    private static final class Sum {
        long activeUs;
        long firstStart = Long.MAX_VALUE;
        long lastEnd;
        int episodes;
        int runs;
        boolean open;
        long idleInsideUs;
        boolean activeUnsure;
        boolean idleUnsure;

        Unsure unsure(List<Cut> cuts) {
            return new Unsure(activeUnsure, isCut(cuts, firstStart, lastEnd), idleUnsure);
        }
    }

    /** As {@link #time(String, String, Tagging, MediaTime, List)}, of a recording without cuts, or of tags without one. */
    public CaseTiming time(String caseCode, String annotator, Tagging tagging, @Nullable MediaTime recordingEnd) {
        return time(caseCode, annotator, tagging, recordingEnd, List.of());
    }

    /**
     * @param recordingEnd where an open last span ends; {@code null} if there is no recording
     * @param cuts of the recording; those accepted make the times that they lie in unsure
     */
    public CaseTiming time(
            String caseCode, String annotator, Tagging tagging, @Nullable MediaTime recordingEnd, List<Cut> cuts) {
        List<Cut> accepted =
                cuts.stream().filter(c -> c.state() == CutState.ACCEPTED).toList();
        List<PhaseSpan> done =
                tagging.spans().stream().filter(s -> !idle.test(s.phase())).toList();
        Map<String, Sum> sums = new LinkedHashMap<>();
        List<String> order = new ArrayList<>();
        List<Gap> gaps = new ArrayList<>();
        long active = 0;
        @Nullable String before = null;
        long beforeEnd = 0;
        boolean open = false;
        for (PhaseSpan span : done) {
            String phase = rollUp.apply(span.phase());
            Sum sum = sums.computeIfAbsent(phase, p -> new Sum());
            long start = span.start().micros();
            MediaTime spanEnd = endOf(span, recordingEnd);
            if (before != null && start > beforeEnd) {
                gaps.add(new Gap(before, phase, start - beforeEnd, isCut(accepted, beforeEnd, start)));
            }
            if (!phase.equals(before)) {
                sum.runs++;
                order.add(phase);
            }
            sum.episodes++;
            sum.firstStart = Math.min(sum.firstStart, start);
            if (spanEnd == null) {
                sum.open = true;
                open = true;
            } else {
                active += spanEnd.micros() - start;
                sum.activeUs += spanEnd.micros() - start;
                sum.lastEnd = Math.max(sum.lastEnd, spanEnd.micros());
                sum.activeUnsure |= isCut(accepted, start, spanEnd.micros());
                beforeEnd = spanEnd.micros();
            }
            before = phase;
        }
        long idleBetween = 0;
        for (Gap gap : gaps) {
            Sum around = sums.get(gap.before());
            if (gap.before().equals(gap.after()) && around != null) {
                around.idleInsideUs += gap.us();
                around.idleUnsure |= gap.unsure();
            } else {
                idleBetween += gap.us();
            }
        }
        List<PhaseTiming> phases = new ArrayList<>();
        sums.forEach((phase, sum) -> phases.add(new PhaseTiming(
                phase,
                sum.open ? null : (Long) sum.activeUs,
                sum.open ? null : (Long) (sum.lastEnd - sum.firstStart),
                sum.episodes,
                sum.runs - 1,
                sum.idleInsideUs,
                sum.unsure(accepted))));
        boolean known = !open && !done.isEmpty();
        long operating = known ? beforeEnd - done.get(0).start().micros() : 0;
        return new CaseTiming(
                caseCode,
                annotator,
                tagging.style(),
                phases,
                known ? (Long) operating : null,
                known ? (Long) active : null,
                known ? (Long) (operating - active) : null,
                idleBetween,
                known
                        ? new Unsure(
                                sums.values().stream().anyMatch(sum -> sum.activeUnsure),
                                isCut(accepted, done.get(0).start().micros(), beforeEnd),
                                gaps.stream().anyMatch(Gap::unsure))
                        : Unsure.NONE,
                order);
    }

    private static boolean isCut(List<Cut> accepted, long start, long end) {
        return end > start
                && accepted.stream().anyMatch(c -> c.isInside(MediaTime.ofMicros(start), MediaTime.ofMicros(end)));
    }

    private static @Nullable MediaTime endOf(PhaseSpan span, @Nullable MediaTime recordingEnd) {
        if (span.end() != null) {
            return span.end();
        }
        return recordingEnd != null && recordingEnd.isAfter(span.start()) ? recordingEnd : null;
    }
}
