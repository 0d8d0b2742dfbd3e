package org.sideport.stats.agreement;

import java.util.EnumMap;
import java.util.Map;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Intraclass correlations from variance components (McGraw & Wong 1996, Psychological Methods 1:30, table 4), so that
 * components from any fit, for instance by restricted maximum likelihood of an incomplete table, can be used. With the
 * components of {@link TwoWayMeanSquares#twoWay()} they are those of Shrout & Fleiss. Point estimates only.
 *
 * <p>For the forms of a mean, k is {@link TwoWayComponents#ratersPerSubject()}: where subjects have unequal numbers of
 * raters, the harmonic mean of these numbers, since the error variance of a mean averages as 1/k.
 */
public final class IccFromComponents {

    private IccFromComponents() {}

    /**
     * Forms (2,1), (3,1), (2,k) and (3,k). A component below zero is used as it is, as the mean squares would.
     *
     * @return refuses where a form's total variance is not above zero
     */
    public static Outcome<Map<IccForm, Double>> twoWay(TwoWayComponents c) {
        double k = c.ratersPerSubject();
        Map<IccForm, Double> found = new EnumMap<>(IccForm.class);
        found.put(IccForm.ICC_2_1, c.subject() + c.rater() + c.residual());
        found.put(IccForm.ICC_3_1, c.subject() + c.residual());
        found.put(IccForm.ICC_2_K, c.subject() + (c.rater() + c.residual()) / k);
        found.put(IccForm.ICC_3_K, c.subject() + c.residual() / k);
        return ratios(c.subject(), found);
    }

    /**
     * Forms (1,1) and (1,k), from the components of a one-way model, where raters are nested in subjects.
     *
     * @param within variance between scores of one subject: rater, interaction and chance together
     * @param ratersPerSubject as in {@link TwoWayComponents}, 1 or more
     */
    public static Outcome<Map<IccForm, Double>> oneWay(double subject, double within, double ratersPerSubject) {
        Map<IccForm, Double> found = new EnumMap<>(IccForm.class);
        found.put(IccForm.ICC_1_1, subject + within);
        found.put(IccForm.ICC_1_K, subject + within / ratersPerSubject);
        return ratios(subject, found);
    }

    private static Outcome<Map<IccForm, Double>> ratios(double subject, Map<IccForm, Double> totals) {
        for (Map.Entry<IccForm, Double> total : totals.entrySet()) {
            if (!(total.getValue() > 0)) {
                return Outcome.refused(
                        Refusal.Reason.NO_VARIATION,
                        "the variance that " + total.getKey().shroutFleiss() + " divides by is " + total.getValue(),
                        "collect scores of subjects that differ; look at the share of equal scores instead");
            }
            total.setValue(subject / total.getValue());
        }
        return Outcome.of(totals);
    }
}
