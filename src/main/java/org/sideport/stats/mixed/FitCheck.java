package org.sideport.stats.mixed;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Refusal;

/** What makes a mixed model impossible, said before it is fitted. */
final class FitCheck {

    private FitCheck() {}

    static @Nullable Refusal refusal(MixedData data) {
        int[] counts = data.countBySubject();
        long subjects = Arrays.stream(counts).filter(c -> c > 0).count();
        int n = data.size();
        if (subjects < 3) {
            return new Refusal(
                    Refusal.Reason.TOO_FEW,
                    "there " + (subjects == 1 ? "is 1 subject" : "are " + subjects + " subjects")
                            + "; how subjects differ cannot be told from fewer than 3",
                    "add subjects, or fit a curve to each subject alone");
        }
        if (Arrays.stream(counts).allMatch(c -> c <= 1)) {
            return new Refusal(
                    Refusal.Reason.NOT_IDENTIFIED,
                    "each of the " + subjects + " subjects has one observation only, so that differences between"
                            + " subjects cannot be told from chance",
                    "add further observations of the same subjects");
        }
        double first = data.response()[0];
        if (Arrays.stream(data.response()).allMatch(v -> v == first)) {
            return new Refusal(
                    Refusal.Reason.NO_VARIATION, "all " + n + " values are " + first, "check the value column");
        }
        Refusal dependent = dependent(data);
        if (dependent != null) {
            return dependent;
        }
        int q = data.random().size();
        if (n <= q * subjects) {
            return new Refusal(
                    Refusal.Reason.NOT_IDENTIFIED,
                    "there are " + n + " observations for " + q * subjects + " random effects (" + q + " for each of "
                            + subjects + " subjects)",
                    q > 1 ? "add observations, or leave the random slope out" : "add observations");
        }
        if (n <= data.fixed().size() + q) {
            return new Refusal(
                    Refusal.Reason.TOO_FEW,
                    "there are " + n + " observations for " + data.fixed().size() + " fixed effects",
                    "add observations, or leave covariates out");
        }
        return null;
    }

    private static @Nullable Refusal dependent(MixedData data) {
        OrthonormalColumns.Dependence dependence = OrthonormalColumns.dependence(data.fixed());
        if (dependence == null) {
            dependence = OrthonormalColumns.dependence(data.random());
        }
        if (dependence == null) {
            return null;
        }
        String column = dependence.column();
        String why;
        if (dependence.on().isEmpty()) {
            why = "the column " + column + " is zero throughout";
        } else if (dependence.on().equals(java.util.List.of(Column.INTERCEPT))) {
            why = "the column " + column + " is the same for all " + data.size() + " observations";
        } else {
            why = "the column " + column + " is made up exactly of " + String.join(", ", dependence.on())
                    + ", so that their effects cannot be told apart";
        }
        return new Refusal(Refusal.Reason.NOT_IDENTIFIED, why, "leave " + column + " out");
    }
}
