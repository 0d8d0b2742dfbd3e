package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import org.sideport.stats.data.Factor;

/** What must hold for any data. */
class MixedModelPropertyTest {

    /** Unbalanced series of several subjects; some with no true differences, so that singular fits occur. */
    private static MixedData series(long seed, int subjects, boolean differ) {
        Random random = new Random(seed);
        List<String> labels = new ArrayList<>();
        List<double[]> rows = new ArrayList<>();
        for (int s = 0; s < subjects; s++) {
            double level = differ ? 2 * random.nextGaussian() : 0;
            double slope = differ ? 0.4 * random.nextGaussian() : 0;
            int cases = 3 + random.nextInt(8);
            for (int n = 1; n <= cases; n++) {
                double grade = random.nextInt(4);
                labels.add("T" + s);
                rows.add(new double[] {n, grade, 10 + level + (slope - 0.5) * n + 0.7 * grade + random.nextGaussian()});
            }
        }
        Column one = Column.intercept(rows.size());
        Column time = new Column("case", column(rows, 0));
        Column grade = new Column("grade", column(rows, 1));
        return new MixedData(
                column(rows, 2), List.of(one, time, grade), List.of(one, time), Factor.of("subject", labels));
    }

    private static double[] column(List<double[]> rows, int at) {
        return rows.stream().mapToDouble(r -> r[at]).toArray();
    }

    private static MixedFit fit(MixedData data) {
        return MixedModel.fit(data, MixedOptions.standard()).orElseThrow();
    }

    @Property(tries = 60)
    void noNeighbouringCovarianceHasALowerCriterion(
            @ForAll @LongRange(min = 0, max = 100_000) long seed,
            @ForAll @IntRange(min = 5, max = 12) int subjects,
            @ForAll boolean differ,
            @ForAll Criterion criterion) {
        MixedData data = series(seed, subjects, differ);
        MixedFit fit = MixedModel.fit(data, MixedOptions.standard().withCriterion(criterion))
                .orElseThrow();
        double[][] optimum = fit.solution().factor();
        Random random = new Random(seed);
        for (double size : new double[] {1e-3, 1e-2, 0.1, 1}) {
            for (int i = 0; i < 10; i++) {
                double[][] moved = {
                    {optimum[0][0] + size * random.nextGaussian(), size * random.nextGaussian()},
                    {optimum[1][0] + size * random.nextGaussian(), optimum[1][1] + size * random.nextGaussian()}
                };
                assertThat(fit.deviance().profiled(moved)).isGreaterThanOrEqualTo(fit.criterion() - 1e-9);
                // and no other residual SD at that covariance does better than the profiled one
                assertThat(fit.deviance().at(moved, fit.randomEffects().residualSd() * Math.exp(size)))
                        .isGreaterThanOrEqualTo(fit.deviance().profiled(moved) - 1e-9);
            }
        }
        assertThat(fit.explainedVariance().marginal()).isBetween(0.0, 1.0);
        assertThat(fit.explainedVariance().conditional())
                .isBetween(fit.explainedVariance().marginal(), 1.0);
    }

    @Property(tries = 30)
    void aNewUnitAndOriginOfTheValueChangeTheFiguresAccordingly(
            @ForAll @LongRange(min = 0, max = 100_000) long seed,
            @ForAll @DoubleRange(min = 0.01, max = 1000) double unit,
            @ForAll @DoubleRange(min = -10_000, max = 10_000) double origin) {
        MixedData data = series(seed, 8, true);
        double[] changed =
                Arrays.stream(data.response()).map(y -> unit * y + origin).toArray();
        MixedFit before = fit(data);
        MixedFit after = fit(new MixedData(changed, data.fixed(), data.random(), data.subject()));
        // rounding of y itself at a far origin
        double tolerance = 1e-6 + 1e-10 * (Math.abs(origin) / unit);
        assertThat(after.fixedEffect("case").estimate().value() / unit)
                .isCloseTo(before.fixedEffect("case").estimate().value(), within(tolerance));
        assertThat((after.fixedEffect("intercept").estimate().value() - origin) / unit)
                .isCloseTo(before.fixedEffect("intercept").estimate().value(), within(tolerance));
        assertThat(after.fixedEffect("grade").df())
                .isCloseTo(
                        before.fixedEffect("grade").df(),
                        within(1e-3 * before.fixedEffect("grade").df()));
        assertThat(after.randomEffects().residualSd() / unit)
                .isCloseTo(before.randomEffects().residualSd(), within(tolerance));
        int degrees = data.size() - 3;
        assertThat(after.criterion()).isCloseTo(before.criterion() + 2 * degrees * Math.log(unit), within(1e-5));
        assertThat(after.intraclassCorrelation().value())
                .isCloseTo(before.intraclassCorrelation().value(), within(1e-5));
    }

    /** With a full covariance matrix another origin and unit of time is the same model. */
    @Property(tries = 30)
    void aNewUnitAndOriginOfTimeLeaveTheModelAsItIs(
            @ForAll @LongRange(min = 0, max = 100_000) long seed,
            @ForAll @DoubleRange(min = 0.01, max = 100) double unit,
            @ForAll @DoubleRange(min = -50, max = 50) double origin) {
        MixedData data = series(seed, 8, true);
        Column moved = new Column(
                "case",
                Arrays.stream(data.fixed().get(1).values())
                        .map(t -> unit * t + origin)
                        .toArray());
        MixedFit before = fit(data);
        MixedFit after = fit(new MixedData(
                data.response(),
                List.of(data.fixed().get(0), moved, data.fixed().get(2)),
                List.of(data.fixed().get(0), moved),
                data.subject()));
        assertThat(after.fixedEffect("case").estimate().value() * unit)
                .isCloseTo(before.fixedEffect("case").estimate().value(), within(1e-6));
        assertThat(after.randomEffects().components().get(1).sd() * unit)
                .isCloseTo(before.randomEffects().components().get(1).sd(), within(1e-5));
        assertThat(after.randomEffects().singular())
                .isEqualTo(before.randomEffects().singular());
        // p fixed effects: the REML criterion holds the log determinant of X'V⁻¹X, which takes the unit twice
        assertThat(after.criterion()).isCloseTo(before.criterion() + 2 * Math.log(unit), within(1e-6));
        assertThat(after.population(1, 5 * unit + origin, 2).value())
                .isCloseTo(before.population(1, 5, 2).value(), within(1e-5));
        assertThat(after.own("T3", new double[] {1, 5 * unit + origin, 2}, new double[] {1, 5 * unit + origin})
                        .se())
                .isCloseTo(
                        before.own("T3", new double[] {1, 5, 2}, new double[] {1, 5})
                                .se(),
                        within(1e-5));
    }

    @Property(tries = 30)
    void orderOfRowsAndNamesOfSubjectsDoNotMatter(@ForAll @LongRange(min = 0, max = 100_000) long seed) {
        MixedData data = series(seed, 7, true);
        List<Integer> order =
                new ArrayList<>(IntStream.range(0, data.size()).boxed().toList());
        Collections.shuffle(order, new Random(seed + 1));
        List<Column> fixed = data.fixed().stream()
                .map(c -> new Column(c.name(), pick(c.values(), order)))
                .toList();
        List<String> labels =
                order.stream().map(i -> "X" + (100 - data.subject().codes()[i])).toList();
        MixedFit before = fit(data);
        MixedFit after = fit(
                new MixedData(pick(data.response(), order), fixed, fixed.subList(0, 2), Factor.of("subject", labels)));
        assertThat(after.criterion()).isCloseTo(before.criterion(), within(1e-9));
        for (int j = 0; j < 3; j++) {
            FixedEffect one = before.fixedEffects().get(j);
            FixedEffect other = after.fixedEffects().get(j);
            assertThat(other.estimate().value()).isCloseTo(one.estimate().value(), within(1e-7));
            assertThat(other.estimate().se()).isCloseTo(one.estimate().se(), within(1e-7));
            assertThat(other.df()).isCloseTo(one.df(), within(1e-3 * one.df()));
        }
        for (SubjectEffect subject : before.subjectEffects()) {
            String renamed = "X" + (100 - Integer.parseInt(subject.subject().substring(1)));
            SubjectEffect same = after.subjectEffects().stream()
                    .filter(s -> s.subject().equals(renamed))
                    .findFirst()
                    .orElseThrow();
            assertThat(same.n()).isEqualTo(subject.n());
            assertThat(same.deviation("case").blup())
                    .isCloseTo(subject.deviation("case").blup(), within(1e-6));
        }
        for (int i = 0; i < order.size(); i++) {
            assertThat(after.residuals().standardised()[i])
                    .isCloseTo(before.residuals().standardised()[order.get(i)], within(1e-5));
        }
    }

    private static double[] pick(double[] values, List<Integer> order) {
        return order.stream().mapToDouble(i -> values[i]).toArray();
    }

    /** The predicted deviations of the random intercept and slope add up to zero over the subjects, weighted by V⁻¹. */
    @Property(tries = 20)
    void limitsOfADeviationHoldItAndShrinkageIsAShare(@ForAll @LongRange(min = 0, max = 100_000) long seed) {
        MixedFit fit = fit(series(seed, 6, seed % 3 != 0));
        double[][] covariance = fit.randomCovariance();
        for (SubjectEffect subject : fit.subjectEffects()) {
            for (int k = 0; k < 2; k++) {
                SubjectEffect.Deviation d = subject.deviations().get(k);
                assertThat(d.shrinkage()).isBetween(0.0, 1.0);
                assertThat(d.conditionalSd()).isLessThanOrEqualTo(Math.sqrt(covariance[k][k]) + 1e-9);
                assertThat(d.own().limits().contains(d.own().value())).isTrue();
                double population = fit.fixedEffects().get(k).estimate().value();
                assertThat(d.own().value()).isCloseTo(population + d.blup(), within(1e-9));
            }
        }
    }
}
