package org.sideport.stats.gtheory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.variance.Table;

class GStudyTest {

    private static GStudy study(LongData data) {
        return GStudy.of(data, "subject", Map.of(), GStudy.Method.AUTOMATIC).orElseThrow();
    }

    private static EffectVariance line(GStudy study, String name) {
        return study.find(name).orElseThrow(() -> new AssertionError(name + " in " + study.lines()));
    }

    /** R's aov and Brennan's formulas: src/test/oracle/gtheory/meansquares.R. */
    @ParameterizedTest
    @CsvSource({
        "pr-balanced, subject × rater (crossed)",
        "pcr-balanced, subject × case × rater (crossed)",
        "pcir-balanced, subject × case × item × rater (crossed)",
        "r-in-p-balanced, 'subject, rater in subject'",
        "c-in-p-by-r-balanced, 'subject × rater, case in subject'"
    })
    void balancedDesignsAgreeWithR(String name, String design) {
        LongData data = Table.data(name);
        GStudy study = study(data);
        List<String[]> expected = Table.rows("ms-expected").stream()
                .filter(r -> r[0].equals(name))
                .toList();

        assertThat(study.design().describe()).isEqualTo(design);
        assertThat(study.method()).isEqualTo("mean squares");
        assertThat(study.lines()).hasSameSizeAs(expected);
        String widest = String.join(":", study.design().names());
        for (String[] row : expected) {
            EffectVariance line = line(study, row[1].equals(widest) ? "residual" : row[1]);
            assertThat(line.variance()).as(row[1]).isCloseTo(Double.parseDouble(row[4]), within(1e-8));
            assertThat(line.used()).isEqualTo(Math.max(0, line.variance()));
            boolean warned = study.warnings().stream()
                    .anyMatch(
                            w -> w.startsWith("the variance of " + line.effect().label() + " comes out negative"));
            if (!line.effect().isResidual()) {
                assertThat(warned).as(row[1]).isEqualTo(row[4].startsWith("-"));
            }
        }
        assertThat(study.n()).isEqualTo(data.size());
        assertThat(study.mean())
                .isCloseTo(Arrays.stream(data.values()).average().orElseThrow(), within(1e-10));
        assertThat(study.criterion()).isNull();
        assertThat(study.total())
                .isCloseTo(
                        expected.stream()
                                .mapToDouble(r -> Math.max(0, Double.parseDouble(r[4])))
                                .sum(),
                        within(1e-7));
    }

    /** lme4, see src/test/oracle/gtheory/reml.R; the names there list the facets in the order of the model. */
    @ParameterizedTest
    @ValueSource(strings = {"pr-missing", "pcr-missing", "pcr-boundary", "r-in-p", "c-in-p-by-r", "r-in-p-replicated"})
    void incompleteDesignsAgreeWithLme4(String name) {
        GStudy study = study(Table.data(name));
        Map<String, String> ours = Map.of("rater", "subject:rater", "case", "subject:case");
        assertThat(study.method()).isEqualTo("REML");
        int seen = 0;
        for (String[] row : Table.rows("reml-expected")) {
            if (!row[0].equals(name) || row[2].equals("mean")) {
                continue;
            }
            if (row[2].equals("criterion")) {
                assertThat(study.criterion()).isNotNull().isCloseTo(Double.parseDouble(row[3]), within(1e-6));
                continue;
            }
            boolean nested = study.design().names().contains(row[2])
                    && !study.design().facet(row[2]).within().isEmpty();
            EffectVariance line = line(study, nested ? ours.get(row[2]) : row[2]);
            assertThat(line.variance()).as(row[2]).isCloseTo(Double.parseDouble(row[3]), within(1e-5));
            seen++;
        }
        assertThat(study.lines()).hasSize(seen);
    }

    @Test
    void remlOfBalancedDataEqualsMeanSquares() {
        LongData data = Table.data("pcr-balanced");
        GStudy squares = study(data);
        GStudy reml = GStudy.of(data, "subject", Map.of(), GStudy.Method.REML).orElseThrow();
        assertThat(reml.method()).isEqualTo("REML");
        for (EffectVariance line : squares.lines()) {
            assertThat(line(reml, line.effect().name()).variance()).isCloseTo(line.variance(), within(1e-7));
        }
    }

    @Test
    void noDataAtAllAreRefused() {
        LongData none =
                new LongData(List.of(Factor.of("subject", List.of()), Factor.of("rater", List.of())), new double[0]);
        assertThat(GStudy.of(none, "subject", Map.of(), GStudy.Method.AUTOMATIC))
                .isInstanceOf(Outcome.Refused.class);
    }

    @Test
    void meanSquaresOfIncompleteDataAreRefused() {
        assertRefused(
                GStudy.of(Table.data("pcr-missing"), "subject", Map.of(), GStudy.Method.MEAN_SQUARES),
                Refusal.Reason.UNSUITABLE_DATA,
                "not balanced");
    }

    @Test
    void labelsThatStartAnewAreNestedOnRequest() {
        LongData balanced = Table.data("r-in-p-balanced");
        Factor plain = Factor.of(
                "rater",
                balanced.factor("rater").levels().stream()
                        .map(l -> l.split("-")[1])
                        .toList());
        LongData anew = new LongData(List.of(balanced.factor("subject"), plain), balanced.values());

        GStudy crossed = study(anew);
        assertThat(crossed.design().describe()).isEqualTo("subject × rater (crossed)");
        GStudy nested = GStudy.of(anew, "subject", Map.of("rater", Set.of("subject")), GStudy.Method.AUTOMATIC)
                .orElseThrow();
        assertThat(nested.design().describe()).isEqualTo("subject, rater in subject");
        assertThat(nested.levels()).isEqualTo(Map.of("subject", 9, "rater", 27));
        assertThat(nested.levelsWithin("rater")).isEqualTo(3);
        assertThat(line(nested, "subject").variance()).isCloseTo(2.050925926, within(1e-8));
    }

    @Test
    void aFacetOfOneLevelIsLeftOutWithAWarning() {
        LongData data = Table.data("pr-balanced");
        Factor one = Factor.of("case", Collections.nCopies(data.size(), "C1"));
        GStudy study = study(new LongData(List.of(data.factor("subject"), data.factor("rater"), one), data.values()));
        assertThat(study.design().names()).containsExactly("subject", "rater");
        assertThat(study.warnings()).anyMatch(w -> w.startsWith("there is only one case, C1"));
        assertThat(line(study, "subject").variance()).isCloseTo(1.07637601, within(1e-6));

        assertRefused(
                GStudy.of(
                        new LongData(List.of(data.factor("subject"), one), data.values()),
                        "subject",
                        Map.of(),
                        GStudy.Method.AUTOMATIC),
                Refusal.Reason.TOO_FEW,
                "fewer than two");
        Factor alone = Factor.of("subject", Collections.nCopies(data.size(), "T1"));
        assertRefused(
                GStudy.of(
                        new LongData(List.of(alone, data.factor("rater")), data.values()),
                        "subject",
                        Map.of(),
                        GStudy.Method.AUTOMATIC),
                Refusal.Reason.TOO_FEW,
                "of subject");
    }

    /** Each person has one rater of many persons: person × rater is the person. */
    @Test
    void whatCannotBeToldApartIsNamed() {
        LongData data = Table.data("pr-missing");
        Factor own = Factor.of(
                "rater",
                Arrays.stream(data.factor("subject").codes())
                        .mapToObj(c -> "A" + c % 6)
                        .toList());
        GStudy study = study(new LongData(List.of(data.factor("subject"), own), data.values()));
        assertThat(study.lines()).extracting(l -> l.effect().name()).containsExactly("subject", "rater", "residual");
        assertThat(study.warnings()).anyMatch(w -> w.contains("cannot tell subject × rater from subject"));
    }

    /** Each case was seen by one rater: case in subject has one score only. */
    @Test
    void singleScoresStayInTheResidualWithAWarning() {
        LongData data = Table.data("pr-missing");
        List<String> cases =
                IntStream.range(0, data.size()).mapToObj(i -> "C" + i).toList();
        GStudy study = study(new LongData(
                List.of(data.factor("subject"), Factor.of("case", cases), data.factor("rater")), data.values()));
        assertThat(study.warnings()).anyMatch(w -> w.contains("has one score only"));
        assertThat(line(study, "subject").variance()).isGreaterThan(0);
    }

    @Test
    void nothingSeenTwiceIsRefused() {
        LongData data = new LongData(
                List.of(Factor.of("subject", List.of("T1", "T2", "T3")), Factor.of("rater", List.of("A1", "A2", "A3"))),
                new double[] {1, 2, 3});
        assertRefused(
                GStudy.of(data, "subject", Map.of(), GStudy.Method.REML),
                Refusal.Reason.NOT_IDENTIFIED,
                "more than one score");
    }

    @Test
    void publishedComponentsMustFitTheDesign() {
        Design design = Design.crossed("person", "rater");
        GStudy study = GStudy.published(design, Map.of(Set.of("person"), 2.0, Set.of("person", "rater"), 1.0), 7.0);
        assertThat(study.lines()).extracting(EffectVariance::variance).containsExactly(2.0, 0.0, 1.0);
        assertThat(study.mean()).isEqualTo(7);
        assertThat(study.levelsWithin("rater")).isEqualTo(1);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> GStudy.published(design, Map.of(Set.of("case"), 2.0), null))
                .withMessageContaining("case");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new EffectVariance(design.effects().get(0), 2, Double.NaN, null));
    }

    @Property(tries = 25)
    void relabellingAndShufflingChangeNothingScalingSquares(
            @ForAll long seed,
            @ForAll @DoubleRange(min = 0.2, max = 20) double factor,
            @ForAll @IntRange(min = -50, max = 50) int shift) {
        LongData data = Table.data("c-in-p-by-r-balanced");
        List<Integer> order =
                new ArrayList<>(IntStream.range(0, data.size()).boxed().toList());
        Collections.shuffle(order, new Random(seed));
        LongData other = new LongData(
                data.factors().stream()
                        .map(f -> Factor.of(
                                f.name(),
                                order.stream().map(i -> "z" + f.codes()[i] * 7).toList()))
                        .toList(),
                order.stream()
                        .mapToDouble(i -> shift - factor * data.values()[i])
                        .toArray());
        GStudy plain = study(data);
        GStudy changed = study(other);
        for (EffectVariance line : plain.lines()) {
            assertThat(line(changed, line.effect().name()).variance())
                    .isCloseTo(factor * factor * line.variance(), within(1e-8 * factor * factor));
        }
        assertThat(changed.mean()).isCloseTo(shift - factor * plain.mean(), withinPercentage(1e-6));
    }

    static void assertRefused(Outcome<?> outcome, Refusal.Reason reason, String words) {
        assertThat(outcome).isInstanceOfSatisfying(Outcome.Refused.class, refused -> {
            assertThat(refused.refusal().reason()).isEqualTo(reason);
            assertThat(refused.refusal().why()).contains(words);
        });
    }
}
