package org.sideport.stats.rasch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.sideport.stats.Outcome;

/** What must hold whatever the marks. */
class RaschPropertyTest {

    private record Row(int trainee, int assessor, int item, int level) {}

    private static List<Row> marks(int seed) {
        Random random = new Random(seed);
        List<Row> rows = new ArrayList<>();
        for (int t = 0; t < 9; t++) {
            double ability = random.nextGaussian();
            for (int a = 0; a < 3; a++) {
                for (int i = 0; i < 4 && a != t % 4; i++) {
                    double x = ability - .4 * a + .3 * i + 1.2 * random.nextGaussian();
                    rows.add(new Row(t, a, i, x < -.8 ? 0 : x < .3 ? 1 : x < 1 ? 2 : 3));
                }
            }
        }
        return rows;
    }

    private static Outcome<ManyFacetRasch> fit(List<Row> rows, StepModel model) {
        RaschData data = new RaschData();
        rows.forEach(r -> data.add("T" + r.trainee, "A" + r.assessor, "I" + r.item, r.level));
        return ManyFacetRasch.fit(data.marks(), model, Estimation.CONDITIONAL, .9);
    }

    private static void same(Outcome<ManyFacetRasch> one, Outcome<ManyFacetRasch> other, double sign, double scale) {
        if (!(one instanceof Outcome.Found<ManyFacetRasch> a && other instanceof Outcome.Found<ManyFacetRasch> b)) {
            assertThat(one.getClass()).isEqualTo(other.getClass());
            return;
        }
        for (List<List<Measure>> pair : List.of(
                List.of(a.value().assessors(), b.value().assessors()),
                List.of(a.value().items(), b.value().items()),
                List.of(a.value().trainees(), b.value().trainees()))) {
            for (Measure x : pair.get(0)) {
                Measure y = RaschData.find(pair.get(1), x.label());
                if (x.logits() == null) {
                    assertThat(y.logits()).isNull();
                    continue;
                }
                if (x.extreme() == Extreme.NONE && !pair.get(0).equals(a.value().trainees()) || scale == 1) {
                    assertThat(y.logits().value()).isCloseTo(sign * x.logits().value(), within(1e-6));
                    assertThat(y.logits().se()).isCloseTo(x.logits().se() * scale, within(1e-6));
                }
            }
        }
    }

    @Property(tries = 15)
    void marksTurnedUpsideDownGiveTheSameMeasuresWithTheOtherSign(
            @ForAll @IntRange(max = 10000) int seed, @ForAll StepModel model) {
        List<Row> rows = marks(seed);
        List<Row> turned = rows.stream()
                .map(r -> new Row(r.trainee, r.assessor, r.item, 5 - r.level))
                .toList();
        same(fit(rows, model), fit(turned, model), -1, 1);
    }

    @Property(tries = 15)
    void orderAndNamesOfLevelsDoNotMatter(@ForAll @IntRange(max = 10000) int seed, @ForAll StepModel model) {
        List<Row> rows = marks(seed);
        List<Row> turned = new ArrayList<>(rows.stream()
                .map(r -> new Row(r.trainee, r.assessor, r.item, 3 * r.level - 4))
                .toList());
        java.util.Collections.reverse(turned);
        same(fit(rows, model), fit(turned, model), 1, 1);
    }

    @Property(tries = 15)
    void theSameTraineesTwiceHalveTheVariances(@ForAll @IntRange(max = 10000) int seed, @ForAll StepModel model) {
        List<Row> rows = marks(seed);
        List<Row> twice = new ArrayList<>(rows);
        rows.forEach(r -> twice.add(new Row(r.trainee + 100, r.assessor, r.item, r.level)));
        same(fit(rows, model), fit(twice, model), 1, Math.sqrt(.5));
    }

    /** P(S = r) and the conditional moments by counting all patterns, against the circle of complex points. */
    @Property(tries = 40)
    void conditionalMomentsAreThoseOfAllPatternsCounted(@ForAll @IntRange(max = 100000) int seed) {
        Random random = new Random(seed);
        int parts = 1 + random.nextInt(4);
        int size = 3 + 3 + 2;
        TiltedSum sum = new TiltedSum(size);
        List<double[]> chances = new ArrayList<>();
        List<int[]> scores = new ArrayList<>();
        List<int[]> places = new ArrayList<>();
        int highest = 0;
        for (int c = 0; c < parts; c++) {
            int[] s = random.nextBoolean() ? new int[] {0, 1} : new int[] {0, 1 + random.nextInt(2), 3, 4};
            double[] p = new double[s.length];
            double total = 0;
            for (int k = 0; k < p.length; k++) {
                p[k] = random.nextInt(4) == 0 ? 1 : .05 + random.nextDouble();
                total += p[k];
            }
            int[] steps = new int[s.length];
            for (int k = 0; k < p.length; k++) {
                p[k] /= total;
                steps[k] = k == 0 || k == p.length - 1 ? -1 : 5 + k;
            }
            int count = 1 + random.nextInt(2);
            int assessor = random.nextInt(3);
            int item = 3 + random.nextInt(3);
            sum.add(s, p, count, assessor, item, steps);
            for (int m = 0; m < count; m++) {
                chances.add(p);
                scores.add(s);
                int[] place = new int[p.length + 2];
                System.arraycopy(steps, 0, place, 0, p.length);
                place[p.length] = assessor;
                place[p.length + 1] = item;
                places.add(place);
                highest += s[s.length - 1];
            }
        }
        int[] pattern = new int[chances.size()];
        int total = 0;
        for (int[] s : scores) {
            total += s[random.nextInt(s.length)];
        }
        double probability = 0;
        double[] first = new double[size];
        double[][] second = new double[size][size];
        boolean more = true;
        while (more) {
            double p = 1;
            int r = 0;
            double[] u = new double[size];
            for (int c = 0; c < pattern.length; c++) {
                int k = pattern[c];
                p *= chances.get(c)[k];
                r += scores.get(c)[k];
                int[] place = places.get(c);
                if (place[k] >= 0) {
                    u[place[k]]--;
                }
                u[place[place.length - 2]] -= scores.get(c)[k];
                u[place[place.length - 1]] -= scores.get(c)[k];
            }
            if (r == total) {
                probability += p;
                for (int x = 0; x < size; x++) {
                    first[x] += p * u[x];
                    for (int y = 0; y < size; y++) {
                        second[x][y] += p * u[x] * u[y];
                    }
                }
            }
            int at = 0;
            while (at < pattern.length && ++pattern[at] == chances.get(at).length) {
                pattern[at++] = 0;
            }
            more = at < pattern.length;
        }
        double[] gradient = new double[size];
        double[][] information = new double[size][size];
        assertThat(sum.condition(total, highest, gradient, information)).isCloseTo(probability, within(1e-13));
        for (int x = 0; x < size; x++) {
            assertThat(gradient[x]).isCloseTo(-first[x] / probability, within(1e-9 / probability));
            for (int y = 0; y < size; y++) {
                assertThat(information[x][y])
                        .isCloseTo(
                                second[x][y] / probability - first[x] * first[y] / probability / probability,
                                within(1e-8 / probability));
            }
        }
    }

    /** The analytic gradient of tr(A · information) against differences. */
    @Property(tries = 6)
    void theTraceGradientIsThatOfDifferences(@ForAll @IntRange(max = 10000) int seed, @ForAll StepModel model) {
        RaschData data = new RaschData();
        marks(seed).forEach(r -> {
            data.add("T" + r.trainee, "A" + r.assessor, "I" + r.item, r.level);
            if (r.item == 0) {
                data.add("T" + r.trainee, "A" + r.assessor, "I0", (r.level + r.trainee) % 4);
            }
        });
        UsableMarks usable = UsableMarks.of(data.marks(), model);
        Parameters parameters = Parameters.of(usable);
        ConditionalLikelihood likelihood = new ConditionalLikelihood(usable, parameters);
        Random random = new Random(seed);
        int n = parameters.size();
        double[] at = new double[n];
        double[][] form = new double[n][n];
        for (int i = 0; i < n; i++) {
            at[i] = random.nextGaussian() / 2;
            for (int j = 0; j <= i; j++) {
                form[i][j] = random.nextGaussian();
                form[j][i] = form[i][j];
            }
        }
        double[] found = likelihood.traceGradient(at, new org.hipparchus.linear.Array2DRowRealMatrix(form));
        for (int p = 0; p < n; p++) {
            double difference = 0;
            for (int sign = -1; sign <= 1; sign += 2) {
                double[] moved = at.clone();
                moved[p] += sign * 1e-4;
                double[][] information = likelihood.at(moved).information();
                for (int i = 0; i < n; i++) {
                    for (int j = 0; j < n; j++) {
                        difference += sign * form[i][j] * information[i][j] / 2e-4;
                    }
                }
            }
            assertThat(found[p]).isCloseTo(difference, within(1e-4));
        }
    }
}
