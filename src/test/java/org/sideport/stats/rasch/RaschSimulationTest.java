package org.sideport.stats.rasch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;

/**
 * Known truth: what was put in has to come out, without bias and within limits that hold as often as they say. Printed for
 * the record.
 */
class RaschSimulationTest {

    private static final double[] SEVERITY = {-.8, -.4, 0, .3, .9};
    private static final double[] DIFFICULTY = {-.9, -.5, -.2, .1, .6, .9};
    private static final double[] STEPS = {-1.5, -.3, .4, 1.4};

    /** Error, squared error and coverage of one kind of measure. */
    private static final class Tally {
        private int n;
        private int in;
        private double error;
        private double squares;
        private double product;
        private double truths;
        private double variance;

        void add(Estimate found, double truth) {
            n++;
            in += found.limits().contains(truth) ? 1 : 0;
            error += found.value() - truth;
            squares += (found.value() - truth) * (found.value() - truth);
            product += found.value() * truth;
            truths += truth * truth;
            variance += found.se() * found.se();
        }

        double bias() {
            return error / n;
        }

        /** 1 if measures are neither drawn apart nor together; joint likelihood gives L/(L − 1). */
        double slope() {
            return product / truths;
        }

        double coverage() {
            return (double) in / n;
        }

        double rms() {
            return Math.sqrt(squares / n);
        }

        double se() {
            return Math.sqrt(variance / n);
        }

        @Override
        public String toString() {
            return String.format(
                    "n %d, bias %.4f, slope %.3f, RMS error %.3f, RMS SE %.3f, coverage of 95 %% limits %.3f",
                    n, bias(), slope(), rms(), se(), coverage());
        }
    }

    private static int mark(Random random, double standing, double[] steps) {
        double[] weight = new double[steps.length + 1];
        double sum = 1;
        weight[0] = 1;
        for (int k = 1; k < weight.length; k++) {
            weight[k] = weight[k - 1] * Math.exp(standing - steps[k - 1]);
            sum += weight[k];
        }
        double u = random.nextDouble() * sum;
        int level = 0;
        while (level < steps.length && u >= weight[level]) {
            u -= weight[level];
            level++;
        }
        return level;
    }

    private record Tallies(Tally assessors, Tally items, Tally steps, Tally trainees, int refused) {}

    /** Each trainee meets two of five assessors; able trainees meet lenient ones more often. */
    private static Tallies run(int trainees, int replicates, Estimation estimation, long seed) {
        StepModel model = StepModel.RATING_SCALE;
        Random random = new Random(seed);
        Tallies tallies = new Tallies(new Tally(), new Tally(), new Tally(), new Tally(), 0);
        int refused = 0;
        for (int replicate = 0; replicate < replicates; replicate++) {
            RaschData data = new RaschData();
            double[] ability = new double[trainees];
            for (int t = 0; t < trainees; t++) {
                ability[t] = .5 + 1.2 * random.nextGaussian();
                int first = ability[t] > .5 ? 0 : 2;
                for (int a : new int[] {(first + t % 3) % 5, (first + t % 3 + 1 + t % 2) % 5}) {
                    for (int i = 0; i < DIFFICULTY.length; i++) {
                        int level = mark(random, ability[t] - SEVERITY[a] - DIFFICULTY[i], STEPS);
                        data.add("T" + t, "A" + a, "I" + i, 1 + level);
                    }
                }
            }
            Outcome<ManyFacetRasch> outcome = ManyFacetRasch.fit(data.marks(), model, estimation, 0.95);
            if (!(outcome instanceof Outcome.Found<ManyFacetRasch> found)) {
                refused++;
                continue;
            }
            ManyFacetRasch fit = found.value();
            for (int a = 0; a < SEVERITY.length; a++) {
                String label = "A" + a;
                double truth = SEVERITY[a];
                // who had extreme marks only is measured roughly, and said so
                fit.assessors().stream()
                        .filter(m -> m.label().equals(label) && m.extreme() == Extreme.NONE)
                        .forEach(m -> tallies.assessors().add(m.logits(), truth));
            }
            for (int i = 0; i < DIFFICULTY.length; i++) {
                tallies.items().add(RaschData.find(fit.items(), "I" + i).logits(), DIFFICULTY[i]);
            }
            List<Step> steps = fit.steps();
            if (steps.size() == STEPS.length) {
                for (int k = 0; k < STEPS.length; k++) {
                    tallies.steps().add(steps.get(k).deviation(), STEPS[k]);
                }
            }
            for (int t = 0; t < trainees; t++) {
                tallies.trainees().add(RaschData.find(fit.trainees(), "T" + t).logits(), ability[t]);
            }
        }
        System.out.println("Rasch, " + estimation.label() + ", " + trainees + " trainees, " + replicates
                + " runs, refused " + refused
                + "\n  assessors " + tallies.assessors() + "\n  items     " + tallies.items() + "\n  steps     "
                + tallies.steps() + "\n  trainees  " + tallies.trainees());
        return new Tallies(tallies.assessors(), tallies.items(), tallies.steps(), tallies.trainees(), refused);
    }

    private static void sound(Tally tally, double bias, double slope) {
        assertThat(tally.bias()).isBetween(-bias, bias);
        assertThat(tally.slope()).isBetween(1 - slope, 1 + slope);
        assertThat(tally.coverage()).isBetween(.92, .98);
        assertThat(tally.se() / tally.rms()).isBetween(.9, 1.1);
    }

    /**
     * The joint likelihood would draw the measures apart by about L/(L − 1) with L = 12 marks a trainee and more in sparse
     * designs; the conditional one by a twentieth with 30 trainees; bias reduced, by nothing that
     * shows.
     */
    @Test
    @Tag("corpus")
    void measuresOfASparseDesignAreUnbiasedAndTheirLimitsHold() {
        Tallies t = run(30, 100, Estimation.BIAS_REDUCED, 1);
        assertThat(t.refused()).isZero();
        sound(t.assessors(), 1e-9, .04);
        sound(t.items(), 1e-9, .04);
        sound(t.steps(), 1e-9, .04);
        sound(t.trainees(), .05, .05);
    }

    @Test
    @Tag("corpus")
    void theBiasOfTheConditionalMaximumVanishesWithMoreTrainees() {
        Tallies t = run(240, 15, Estimation.CONDITIONAL, 3);
        assertThat(t.assessors().slope()).isBetween(.97, 1.03);
        assertThat(t.items().slope()).isBetween(.97, 1.03);
        assertThat(t.steps().slope()).isBetween(.97, 1.03);
    }

    @Test
    @Tag("corpus")
    void biasReductionServesWhereTraineesAreFew() {
        Tallies plain = run(12, 100, Estimation.CONDITIONAL, 2);
        Tallies t = run(12, 100, Estimation.BIAS_REDUCED, 2);
        assertThat(plain.refused()).isLessThan(10);
        assertThat(t.assessors().rms()).isLessThan(.95 * plain.assessors().rms());
        assertThat(t.items().rms()).isLessThan(.95 * plain.items().rms());
        assertThat(t.steps().rms()).isLessThan(.95 * plain.steps().rms());
        assertThat(plain.assessors().slope()).isGreaterThan(1.1);
        sound(t.assessors(), .01, .08);
        sound(t.items(), 1e-9, .05);
        sound(t.steps(), 1e-9, .05);
        sound(t.trainees(), .06, .06);
    }
}
