package org.sideport.media.trace;

/**
 * The limits of findings and proposals. All are rules of thumb of this program, set on generated recordings; none is
 * taken from a study of operations.
 *
 * @param stillSeconds shortest black or no-signal stretch
 * @param frozenSeconds shortest frozen stretch
 * @param focusSeconds shortest stretch out of focus
 * @param focusShare out of focus below this share of the recording's median sharpness
 * @param cutShare least share of blocks that a jump loses
 * @param outsideSeconds shortest lead-in or tail
 * @param eyeSeconds shortest stretch with an eye that counts
 * @param changeoverSeconds shortest stretch without an eye between two operations
 * @param operationSeconds shortest stretch with an eye on either side of it
 * @param idleSeconds shortest idle stretch
 * @param boundarySeconds least distance of two boundaries
 */
public record FindingRules(
        double stillSeconds,
        double frozenSeconds,
        double focusSeconds,
        double focusShare,
        double cutShare,
        double outsideSeconds,
        double eyeSeconds,
        double changeoverSeconds,
        double operationSeconds,
        double idleSeconds,
        double boundarySeconds) {

    public FindingRules {
        double[] all = {
            stillSeconds,
            frozenSeconds,
            focusSeconds,
            focusShare,
            cutShare,
            outsideSeconds,
            eyeSeconds,
            changeoverSeconds,
            operationSeconds,
            idleSeconds,
            boundarySeconds
        };
        for (double limit : all) {
            if (!(limit > 0) || Double.isInfinite(limit)) {
                throw new IllegalArgumentException("every limit must be positive: " + limit);
            }
        }
        if (focusShare >= 1 || cutShare > 1) {
            throw new IllegalArgumentException("shares must lie below 1");
        }
    }

    public static FindingRules usual() {
        return new FindingRules(1, 2, 2, 0.35, 0.6, 2, 3, 60, 120, 3, 5);
    }
}
