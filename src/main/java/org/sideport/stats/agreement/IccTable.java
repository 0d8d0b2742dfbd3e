package org.sideport.stats.agreement;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The intraclass correlations of one table of scores.
 *
 * @param subjects with at least one score that was used
 * @param raters likewise
 * @param scores how many were used
 * @param meanSquares {@code null} where there are gaps, and the components come from restricted maximum likelihood
 * @param components of the two-way model; {@code null} where the gaps leave only the one-way forms
 * @param estimates in the order of {@link IccForm}; (2,k) is left out where its denominator is not above zero, and the
 *     two-way forms where the raters share no subjects
 * @param warnings sentences that hold for all of them
 */
public record IccTable(
        int subjects,
        int raters,
        int scores,
        @Nullable TwoWayMeanSquares meanSquares,
        @Nullable TwoWayComponents components,
        List<IccEstimate> estimates,
        List<String> warnings) {

    public IccTable {
        estimates = List.copyOf(estimates);
        warnings = List.copyOf(warnings);
    }

    public Optional<IccEstimate> find(IccForm form) {
        return estimates.stream().filter(each -> each.form() == form).findFirst();
    }

    /**
     * @throws IllegalStateException if it was left out
     */
    public IccEstimate get(IccForm form) {
        return find(form).orElseThrow(() -> new IllegalStateException("no " + form.shroutFleiss()));
    }
}
