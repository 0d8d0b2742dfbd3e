package org.sideport.timing;

import org.jspecify.annotations.Nullable;

/**
 * The times of one phase in one case: five different answers to "how long".
 *
 * @param phase id of the phase or step
 * @param activeUs microseconds during which it was being done; {@code null} if its last span is open and the end of the
 *     recording is not known
 * @param spanUs from its first start to its last end, whatever lay between; {@code null} likewise
 * @param episodes number of tagged spans
 * @param returns how often it was taken up again after another phase had been done
 * @param idleInsideUs idle time with this phase on both sides of it
 * @param unsure which of them are lower limits only
 */
public record PhaseTiming(
        String phase,
        @Nullable Long activeUs,
        @Nullable Long spanUs,
        int episodes,
        int returns,
        long idleInsideUs,
        Unsure unsure) {

    /** Times that no cut lies in. */
    public PhaseTiming(
            String phase,
            @Nullable Long activeUs,
            @Nullable Long spanUs,
            int episodes,
            int returns,
            long idleInsideUs) {
        this(phase, activeUs, spanUs, episodes, returns, idleInsideUs, Unsure.NONE);
    }

    /** The active time where it is sure; else {@code null}. */
    public @Nullable Long sureActiveUs() {
        return unsure.active() ? null : activeUs;
    }
}
