package org.sideport.stats.learning;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.regression.AkaikeCriterion;

/**
 * Curves of one series side by side, by AICc (Burnham & Anderson 2002, Model Selection and Multimodel Inference, section
 * 2.6: within 2 of the best a model has substantial support).
 *
 * @param candidates those that could be fitted, best first
 * @param failed those that could not, with the reason
 */
public record ModelComparison(List<Candidate> candidates, List<Failure> failed) {

    /** Difference in AICc within which the data do not tell two curves apart. */
    public static final double INDISTINCT = 2;

    /**
     * @param delta AICc less that of the best
     * @param weight Akaike weight, 0 to 1: relative support among these candidates
     */
    public record Candidate(LearningFit fit, double delta, double weight) {}

    /** A curve that could not be fitted. */
    public record Failure(LearningModel model, Refusal refusal) {}

    public ModelComparison {
        candidates = List.copyOf(candidates);
        failed = List.copyOf(failed);
    }

    /** @return refused if no curve can be fitted */
    public static Outcome<ModelComparison> of(CaseSeries series, List<LearningModel> models, double level) {
        List<LearningFit> fits = new ArrayList<>();
        List<Failure> failed = new ArrayList<>();
        for (LearningModel model : models) {
            Outcome<LearningFit> outcome = LearningFit.of(series, model, level);
            if (outcome instanceof Outcome.Refused<LearningFit> refused) {
                failed.add(new Failure(model, refused.refusal()));
            } else {
                fits.add(outcome.orElseThrow());
            }
        }
        if (fits.isEmpty()) {
            return new Outcome.Refused<>(failed.get(0).refusal());
        }
        fits.sort(Comparator.comparingDouble(LearningFit::aicc));
        double[] weights = AkaikeCriterion.weights(
                fits.stream().mapToDouble(LearningFit::aicc).toArray());
        List<Candidate> candidates = new ArrayList<>();
        for (int i = 0; i < weights.length; i++) {
            candidates.add(
                    new Candidate(fits.get(i), fits.get(i).aicc() - fits.get(0).aicc(), weights[i]));
        }
        return Outcome.of(new ModelComparison(candidates, failed));
    }

    public LearningFit best() {
        return candidates.get(0).fit();
    }

    /** Those that the data do not tell from the best, the best among them. */
    public List<Candidate> supported() {
        return candidates.stream().filter(c -> c.delta() < INDISTINCT).toList();
    }

    /** One sentence for people: which curve, or that the data cannot tell. */
    public String sentence() {
        List<Candidate> supported = supported();
        String best = LearningFit.name(best().model());
        if (candidates.size() == 1) {
            return "Only the " + best + " curve was fitted, so nothing is said of others.";
        }
        if (supported.size() > 1) {
            String others = String.join(
                    " and ",
                    supported.stream()
                            .skip(1)
                            .map(c -> LearningFit.name(c.fit().model()))
                            .toList());
            boolean flat = supported.stream().anyMatch(c -> c.fit().model() == LearningModel.CONSTANT);
            return "The data cannot tell the " + best + " curve from the " + others + " (AICc differs by "
                    + String.format(
                            Locale.ROOT,
                            "%.1f",
                            supported.get(supported.size() - 1).delta())
                    + " at most, below 2)" + (flat ? ", so not even a change with the case number is shown." : ".");
        }
        String next = String.format(Locale.ROOT, "%.1f", candidates.get(1).delta());
        return best().model() == LearningModel.CONSTANT
                ? "No change with the case number is shown: the constant is best, the next curve is " + next
                        + " worse by AICc."
                : "The " + best + " curve describes the data best; the next, "
                        + LearningFit.name(candidates.get(1).fit().model()) + ", is " + next + " worse by AICc.";
    }
}
