package org.sideport.stats.variance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.stats.data.Factor;

/** 2 000 persons × 6 cases × 3 raters with gaps, the data and lme4's answer from src/test/oracle/gtheory/large.R. */
class LargeDesignTest {

    private static final int P = 2000;
    private static final int C = 6;
    private static final int R = 3;

    private long seed = 20090;

    private double uniform() {
        seed = 16807 * seed % 2147483647L;
        return seed / 2147483647.0;
    }

    private double[] effects(int k, double sd) {
        double[] u = new double[k];
        for (int i = 0; i < k; i++) {
            u[i] = (uniform() - 0.5) * Math.sqrt(12) * sd;
        }
        return u;
    }

    @Test
    void agreesWithLme4InAFewSeconds() {
        double[] p = effects(P, 1);
        double[] c = effects(C, .5);
        double[] r = effects(R, .4);
        double[] pc = effects(P * C, .6);
        double[] pr = effects(P * R, .4);
        double[] cr = effects(C * R, .2);
        double[] e = effects(P * C * R, .8);
        List<int[]> rows = new ArrayList<>();
        List<Double> scores = new ArrayList<>();
        for (int i = 0; i < P * C * R; i++) {
            if (uniform() >= 0.125) {
                int person = i / (C * R);
                int kase = i / R % C;
                int rater = i % R;
                rows.add(new int[] {person, kase, rater});
                scores.add(3
                        + p[person]
                        + c[kase]
                        + r[rater]
                        + pc[person * C + kase]
                        + pr[person * R + rater]
                        + cr[kase * R + rater]
                        + e[i]);
            }
        }
        double[] y = scores.stream().mapToDouble(d -> d).toArray();
        assertThat(y).hasSize(31389);
        assertThat(java.util.Arrays.stream(y).sum()).isCloseTo(91695.5537564479, within(1e-8));
        Factor person = factor("p", rows, 0, P);
        Factor kase = factor("c", rows, 1, C);
        Factor rater = factor("r", rows, 2, R);

        VarianceComponents fit = Reml.fit(
                        y,
                        List.of(
                                person,
                                kase,
                                rater,
                                Crossing.of(List.of(person, kase)),
                                Crossing.of(List.of(person, rater)),
                                Crossing.of(List.of(kase, rater))))
                .orElseThrow();

        // lme4 rests a trifle short of the minimum, so that its criterion may be undercut.
        assertThat(fit.criterion()).isNotNull().isBetween(93758.8858904 - 1e-6, 93758.8858904 + 1e-7);
        assertThat(fit.mean()).isCloseTo(2.91940372, within(1e-4));
        assertThat(fit.component("p").variance()).isCloseTo(0.985473257, withinPercentage(0.005));
        assertThat(fit.component("p:c").variance()).isCloseTo(0.361855824, withinPercentage(0.005));
        assertThat(fit.component("p:r").variance()).isCloseTo(0.164610856, withinPercentage(0.005));
        assertThat(fit.component("c").variance()).isCloseTo(0.288783235, withinPercentage(0.05));
        assertThat(fit.component("r").variance()).isCloseTo(0.147434663, withinPercentage(0.05));
        assertThat(fit.component("c:r").variance()).isCloseTo(0.034079665, withinPercentage(0.05));
        assertThat(fit.residual().variance()).isCloseTo(0.631268852, withinPercentage(0.005));
    }

    private static Factor factor(String name, List<int[]> rows, int column, int levels) {
        return new Factor(
                name,
                IntStream.range(0, levels).mapToObj(i -> name + i).toList(),
                rows.stream().mapToInt(row -> row[column]).toArray());
    }
}
