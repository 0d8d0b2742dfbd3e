package org.sideport.stats.segments;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.segments.SegmentMatching.BoundaryDeviations;

/**
 * Agreement of two taggers on one recording.
 *
 * @param time by time, exactly
 * @param frames by frame; {@code null} if no frame rate was given
 * @param matching which segment is which; segments without a partner are missed or extra
 * @param boundaries {@code null} if no segment has a partner
 * @param editScore 0 to 100
 * @param f1 at overlaps of 10, 25 and 50 %
 */
public record TaggerAgreement(
        LabelConfusion time,
        @Nullable LabelConfusion frames,
        SegmentMatching matching,
        @Nullable BoundaryDeviations boundaries,
        double editScore,
        List<SegmentalScore> f1) {

    private static final List<Integer> OVERLAPS = List.of(10, 25, 50);

    /**
     * @param reference the tagger whose segments can be missed
     * @param found the tagger whose segments can be extra
     * @return refused if either marked nothing
     */
    public static Outcome<TaggerAgreement> of(
            SegmentSequence reference, SegmentSequence found, Background background, @Nullable FrameRate rate) {
        if (reference.isEmpty() || found.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "the taggers marked " + reference.size() + " and " + found.size() + " segments",
                    "both must mark at least one");
        }
        SegmentMatching matching = SegmentMatching.of(reference, found);
        return SegmentalScore.edit(reference, found)
                .map(edit -> new TaggerAgreement(
                        LabelConfusion.ofTime(reference, found, background),
                        rate == null ? null : LabelConfusion.ofFrames(reference, found, background, rate),
                        matching,
                        matching.boundaries(),
                        edit,
                        OVERLAPS.stream()
                                .map(percent -> SegmentalScore.of(reference, found, percent))
                                .toList()));
    }
}
