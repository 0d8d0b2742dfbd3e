package org.sideport.workflow;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.gtheory.DStudy;

/**
 * How sure the mean of a trainee's marks is, by the unit's own marks.
 *
 * @param coefficients of the marks that there are
 * @param lower the mean less 1.96 absolute standard errors of measurement, not below 0
 * @param upper the mean and as much more, not above 1
 * @param wish coefficient Φ that was asked for
 * @param enough true if Φ reaches the wish
 * @param more what would reach it on top of the marks that there are, the fewest markings first; empty if it is reached,
 *     or if nothing tried reaches it
 * @param study where the differences between the unit's marks come from
 */
public record Precision(
        DStudy.Coefficients coefficients,
        double lower,
        double upper,
        double wish,
        boolean enough,
        List<More> more,
        Study study) {

    /** More further cases than these are not tried. */
    public static final int MOST_CASES = 40;

    public Precision {
        more = List.copyOf(more);
    }

    /**
     * Further work.
     *
     * @param cases that many more cases
     * @param assessorsEach each marked by this many assessors, who take turns
     * @param minutes of marking altogether
     */
    public record More(int cases, int assessorsEach, double phi, double minutes) {}

    /** @param share of the variance of a single mark, negative components as 0 */
    public record Component(
            String label, double variance, @Nullable Double standardError, double share) {}

    /** The unit's G-study that all of this rests on. */
    public record Study(
            String design,
            String method,
            int trainees,
            int cases,
            int assessors,
            int marks,
            List<Component> components,
            List<String> warnings) {
        public Study {
            components = List.copyOf(components);
            warnings = List.copyOf(warnings);
        }
    }
}
