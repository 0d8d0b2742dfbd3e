package org.sideport.stats.agreement;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;

/**
 * One intraclass correlation.
 *
 * @param estimate with limits where the error mean square is not zero; {@code n} counts subjects
 * @param test that the subjects do not differ; {@code null} where the error mean square is zero
 */
public record IccEstimate(
        IccForm form, Estimate estimate, @Nullable FTest test) {}
