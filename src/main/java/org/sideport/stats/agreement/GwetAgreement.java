package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.List;
import org.sideport.stats.Outcome;

/**
 * Gwet's AC1 (no weights) and AC2 (weights) for two or more raters, missing scores allowed: chance agreement is taken where
 * scores are uncertain, so that the coefficient stands up when nearly all scores fall into one category. Gwet 2008, British
 * Journal of Mathematical and Statistical Psychology 61:29; with weights and missing scores Gwet 2014, Handbook of
 * Inter-Rater Reliability, 4th edition, chapters 4 and 5. Variance over subjects, limits by t with n − 1 degrees of freedom,
 * cut at ±1.
 */
public final class GwetAgreement {

    private GwetAgreement() {}

    /**
     * @param counts [subject][category]; subjects without a score are passed over
     * @param weights agreement weights, symmetric, 1 on the diagonal
     * @param level coverage of the limits
     * @return refused for fewer than 2 categories and where fewer than 2 subjects have two scores
     */
    public static Outcome<Kappa> of(int[][] counts, double[][] weights, String name, double level) {
        return ScoredSubjects.of(counts)
                .flatMap(scored -> scored.atLeastTwoCategories(weights.length).map(checked -> {
                    int q = weights.length;
                    double scale = Arrays.stream(weights)
                                    .flatMapToDouble(Arrays::stream)
                                    .sum()
                            / ((double) q * (q - 1));
                    List<String> warnings = checked.warnings();
                    return new SubjectKappa(checked.counts(), weights)
                            .estimate(
                                    shares -> Arrays.stream(shares)
                                            .map(share -> scale * (1 - share))
                                            .toArray(),
                                    name,
                                    level,
                                    warnings);
                }));
    }
}
