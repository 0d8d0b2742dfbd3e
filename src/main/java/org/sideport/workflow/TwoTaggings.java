package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.stats.Outcome;
import org.sideport.stats.segments.Background;
import org.sideport.stats.segments.LabelConfusion;
import org.sideport.stats.segments.Segment;
import org.sideport.stats.segments.SegmentMatching;
import org.sideport.stats.segments.SegmentSequence;
import org.sideport.store.Workspace;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Puts another annotator's tags of a case beside one's own. */
public final class TwoTaggings {

    private final Workspace workspace;

    public TwoTaggings(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * A stretch that the two call otherwise.
     *
     * @param one id of the first one's phase or step; {@code null} where that one has nothing
     * @param other likewise
     */
    public record Difference(
            long startUs,
            long endUs,
            @Nullable String one,
            @Nullable String other) {}

    /**
     * Steps count by their name, but by their phase where one of the two has tagged only that.
     *
     * @param share of the time that either tagged on which both say the same, 0 to 1
     * @param kappa Cohen's, over the same time; {@code null} where it has no meaning
     * @param boundaryUs median distance of the boundaries of what both found; {@code null} if nothing was found by both
     * @param differences in the order of time
     */
    public record Agreement(
            double share, @Nullable Double kappa, @Nullable Long boundaryUs, List<Difference> differences) {
        public Agreement {
            differences = List.copyOf(differences);
        }
    }

    /**
     * What this annotator has tagged; nothing if that is nothing.
     *
     * @throws org.sideport.model.InputException if there is no such case or it may not be seen
     */
    public Tagging taggingOf(String caseCode, String annotator) {
        Access.require(workspace, Permission.SEE_CASE, caseCode);
        return workspace.read(stores -> stores.taggings()
                .find(stores.cases().get(caseCode).code(), annotator)
                .orElse(Tagging.EMPTY));
    }

    /** @return nothing where one of the two has tagged no phase */
    public static Optional<Agreement> agreement(
            Procedure procedure, Tagging one, Tagging other, @Nullable MediaTime end) {
        CommonNames names = new CommonNames(procedure, Level.STEP, List.of(one, other));
        SegmentSequence first = sequence(names, one, end);
        SegmentSequence second = sequence(names, other, end);
        LabelConfusion time = LabelConfusion.ofTime(first, second, Background.LEFT_OUT_IF_BOTH);
        if (first.isEmpty() || second.isEmpty() || !(time.accuracy() instanceof Outcome.Found<Double> share)) {
            return Optional.empty();
        }
        Double kappa = time.kappa() instanceof Outcome.Found<Double> found ? found.value() : null;
        return Optional.of(new Agreement(
                share.value(), kappa, boundary(first.merged(), second.merged()), differences(first, second)));
    }

    private static SegmentSequence sequence(CommonNames names, Tagging tagging, @Nullable MediaTime end) {
        return SegmentSequence.of(names.episodes(tagging, end).stream()
                .map(e -> new Segment(e.label(), e.startUs(), e.endUs()))
                .toList());
    }

    private static @Nullable Long boundary(SegmentSequence first, SegmentSequence second) {
        SegmentMatching.BoundaryDeviations found =
                SegmentMatching.of(first, second).boundaries();
        return found == null ? null : (Long) Math.round(found.medianAbsoluteUs());
    }

    private static List<Difference> differences(SegmentSequence first, SegmentSequence second) {
        TreeSet<Long> times = new TreeSet<>();
        for (SegmentSequence each : List.of(first, second)) {
            each.segments().forEach(s -> times.addAll(List.of(s.startUs(), s.endUs())));
        }
        List<Difference> all = new ArrayList<>();
        Long from = null;
        for (Long to : times) {
            if (from != null) {
                String one = labelAt(first, from);
                String other = labelAt(second, from);
                if (one == null ? other != null : !one.equals(other)) {
                    all.add(new Difference(from, to, one, other));
                }
            }
            from = to;
        }
        return all;
    }

    private static @Nullable String labelAt(SegmentSequence sequence, long us) {
        return sequence.segments().stream()
                .filter(s -> s.startUs() <= us && us < s.endUs())
                .map(Segment::label)
                .findFirst()
                .orElse(null);
    }
}
