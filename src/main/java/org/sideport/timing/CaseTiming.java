package org.sideport.timing;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.TaggingStyle;

/**
 * The times of one case as one annotator tagged it.
 *
 * @param phases in the order of first appearance
 * @param operatingUs first tag's start to the last tag's end, microseconds: one of several meanings of "operating time";
 *     {@code null} if that end is not known
 * @param activeUs time in any phase; {@code null} likewise
 * @param idleUs operating time less active time; {@code null} likewise
 * @param idleBetweenUs idle time with different phases on its two sides
 * @param unsure which of them are lower limits only, the operating time as the span
 * @param order ids of the phases in the order done, repeats of one phase in a row written once
 */
public record CaseTiming(
        String caseCode,
        String annotator,
        TaggingStyle style,
        List<PhaseTiming> phases,
        @Nullable Long operatingUs,
        @Nullable Long activeUs,
        @Nullable Long idleUs,
        long idleBetweenUs,
        Unsure unsure,
        List<String> order) {

    public CaseTiming {
        phases = List.copyOf(phases);
        order = List.copyOf(order);
    }

    /** The operating time where it is sure; else {@code null}. */
    public @Nullable Long sureOperatingUs() {
        return unsure.span() ? null : operatingUs;
    }
}
