package org.sideport.stats.casemix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.casemix.OddsTable.CompositeRisk;
import org.sideport.stats.casemix.OddsTable.OddsFactor;
import org.sideport.stats.casemix.OddsTable.OddsLevel;

class OddsTableTest {

    private static OddsLevel level(String name, double ratio) {
        return new OddsLevel(name, ratio, List.of(), null, null);
    }

    private static OddsFactor factor(String name, double... ratios) {
        List<OddsLevel> levels = new ArrayList<>(List.of(level("0", 1)));
        for (int i = 0; i < ratios.length; i++) {
            levels.add(level(Integer.toString(i + 1), ratios[i]));
        }
        return new OddsFactor(name, null, levels);
    }

    private static final OddsTable TABLE = new OddsTable(
            "t",
            "s",
            "n",
            0.0075,
            "b",
            List.of(
                    new OddsFactor(
                            "age",
                            null,
                            List.of(
                                    new OddsLevel("under 60", 1, List.of(), null, 60.0),
                                    new OddsLevel("60-69", 1.14, List.of(), 60.0, 70.0),
                                    new OddsLevel("70 or more", 1.42, List.of("old"), 70.0, null))),
                    factor("a", 1.28, 1.58, 2.99),
                    factor("b", 2.92, 1.45, 1.63, 1.14),
                    new OddsFactor("grade", "it is judged", List.of(level("high", 1), level("low", 3.73)))));

    /** Products and risks with p0 = .75 %: R, src/test/oracle/casemix/expected.R. */
    @ParameterizedTest
    @CsvSource({
        "1, 0.0075",
        "1.42, 0.0106165578428",
        "5.2966, 0.038484360718",
        "4.2218304, 0.0309166660899",
        "25.602896384, 0.162109076745",
        "95.4988035123, 0.41916300674"
    })
    void oddsAreMultipliedAndTurnedIntoARisk(double ratio, double risk) {
        OddsTable table = new OddsTable("t", "s", "n", 0.0075, "b", List.of(factor("f", ratio)));
        CompositeRisk found = table.risk(Map.of("f", "1"), Set.of()).orElseThrow();
        assertThat(found.ratio()).isEqualTo(ratio);
        assertThat(found.risk()).isCloseTo(risk, within(1e-12));
    }

    @Test
    void levelsAreFoundByNameOtherWordOrNumber() {
        assertThat(TABLE.risk(Map.of("age", "72", "a", "0", "b", "0"), Set.of("grade"))
                        .orElseThrow()
                        .ratio())
                .isEqualTo(1.42);
        OddsFactor age = TABLE.factors().get(0);
        assertThat(age.find("59.9")).map(OddsLevel::name).contains("under 60");
        assertThat(age.find("-3")).map(OddsLevel::name).contains("under 60");
        assertThat(age.find("60")).map(OddsLevel::name).contains("60-69");
        assertThat(age.find("69.99")).map(OddsLevel::name).contains("60-69");
        assertThat(age.find("70")).map(OddsLevel::name).contains("70 or more");
        assertThat(age.find(" OLD ")).map(OddsLevel::name).contains("70 or more");
        assertThat(age.find("60-69")).map(OddsLevel::name).contains("60-69");
        assertThat(age.find("sixty")).isEmpty();
        assertThat(TABLE.factors().get(1).find("7")).isEmpty();
        assertThat(age.reference().name()).isEqualTo("under 60");
    }

    @Test
    void factorsCanBeLeftOut() {
        Map<String, String> levels = Map.of("age", "75", "grade", "LOW", "other", "x");
        assertThat(TABLE.leftOutByDefault()).containsExactly("grade");
        CompositeRisk with = TABLE.risk(levels, Set.of()).orElseThrow();
        assertThat(with.ratio()).isCloseTo(1.42 * 3.73, within(1e-12));
        assertThat(with.risk()).isCloseTo(0.038484360718, within(1e-12));
        assertThat(with.assumed()).containsExactly("a", "b");
        assertThat(with.counted()).extracting(OddsTable.Counted::factor).containsExactly("age", "grade");
        CompositeRisk without = TABLE.risk(levels, TABLE.leftOutByDefault()).orElseThrow();
        assertThat(without.ratio()).isEqualTo(1.42);
        assertThat(without.counted()).hasSize(1);
    }

    @Test
    void anotherBaselineCanBeTaken() {
        OddsTable own = TABLE.withBaseline(0.02, "own unit");
        assertThat(own.risk(Map.of(), Set.of()).orElseThrow().risk()).isCloseTo(0.02, within(1e-15));
        assertThat(own.baselineSource()).isEqualTo("own unit");
        assertThat(own.title()).isEqualTo("t");
        assertThat(own.factors()).isEqualTo(TABLE.factors());
    }

    @Test
    void unknownLevelsAreRefusedWithTheKnownOnes() {
        Outcome<CompositeRisk> refused = TABLE.risk(Map.of("grade", "middle"), Set.of());
        Refusal refusal = ((Outcome.Refused<CompositeRisk>) refused).refusal();
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal.why()).isEqualTo("the table has no level middle of grade");
        assertThat(refusal.remedy()).isEqualTo("write one of high, low");
    }

    @Test
    void impossibleTablesAreProgrammingErrors() {
        assertThatThrownBy(() -> level("x", 0)).hasMessageContaining("above 0");
        assertThatThrownBy(() -> level("x", Double.NaN)).hasMessageContaining("above 0");
        assertThatThrownBy(() -> level("x", Double.POSITIVE_INFINITY)).hasMessageContaining("above 0");
        assertThatThrownBy(() -> new OddsFactor("f", null, List.of(level("a", 1), level("a", 2))))
                .hasMessageContaining("f has a level twice");
        assertThatThrownBy(() -> new OddsFactor("f", null, List.of(level("a", 2))))
                .hasMessageContaining("no level with odds ratio 1");
        assertThatThrownBy(() -> TABLE.withBaseline(0, "")).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> TABLE.withBaseline(1, "")).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> new OddsTable("t", "s", "n", 0.1, "b", List.of(factor("f", 2), factor("f", 3))))
                .hasMessageContaining("f is there twice");
    }

    /** The risk lies between 0 and 1, and on the side of the baseline on which the product lies of 1. */
    @Property(tries = 200)
    void riskIsAProbability(
            @ForAll @Scale(6) @DoubleRange(min = 1e-6, max = 0.999) double baseline,
            @ForAll @Scale(3) @DoubleRange(min = 1e-3, max = 1e3) double first,
            @ForAll @Scale(3) @DoubleRange(min = 1e-3, max = 1e3) double second) {
        OddsTable table = new OddsTable("t", "s", "n", baseline, "b", List.of(factor("f", first), factor("g", second)));
        CompositeRisk found = table.risk(Map.of("f", "1", "g", "1"), Set.of()).orElseThrow();
        assertThat(found.risk()).isGreaterThan(0).isLessThan(1);
        assertThat(Math.signum(found.ratio() - 1) * (found.risk() - baseline)).isGreaterThanOrEqualTo(-1e-12);
        double odds = found.risk() / (1 - found.risk());
        assertThat(odds * (1 - baseline) / baseline / first / second).isCloseTo(1, within(1e-6));
    }

    @Property(tries = 200)
    void riskRisesWithEachRatio(
            @ForAll @DoubleRange(min = 0.01, max = 100) double ratio,
            @ForAll @DoubleRange(min = 1.01, max = 10) double more) {
        OddsTable table =
                new OddsTable("t", "s", "n", 0.01, "b", List.of(factor("f", ratio, ratio * more), factor("g", 3)));
        Map<String, String> low = Map.of("f", "1", "g", "1");
        Map<String, String> high = Map.of("f", "2", "g", "1");
        assertThat(table.risk(high, Set.of()).orElseThrow().risk())
                .isGreaterThan(table.risk(low, Set.of()).orElseThrow().risk());
    }

    @Property(tries = 100)
    void orderOfTheCasesColumnsDoesNotMatter(
            @ForAll @IntRange(max = 3) int a, @ForAll @IntRange(max = 4) int b, @ForAll long seed) {
        Map<String, String> levels =
                new HashMap<>(Map.of("age", "65", "a", Integer.toString(a), "b", Integer.toString(b), "grade", "low"));
        List<String> names = new ArrayList<>(levels.keySet());
        Collections.shuffle(names, new Random(seed));
        Map<String, String> shuffled = new LinkedHashMap<>();
        names.forEach(name -> shuffled.put(name, levels.get(name)));
        List<OddsFactor> factors = new ArrayList<>(TABLE.factors());
        Collections.shuffle(factors, new Random(seed));
        double risk = TABLE.risk(levels, Set.of()).orElseThrow().risk();
        assertThat(TABLE.risk(shuffled, Set.of()).orElseThrow().risk()).isEqualTo(risk);
        assertThat(new OddsTable("t", "s", "n", 0.0075, "b", factors)
                        .risk(levels, Set.of())
                        .orElseThrow()
                        .risk())
                .isCloseTo(risk, within(1e-14));
    }
}
