package org.sideport.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

class ChartDataTest {

    @Test
    void theCsvHoldsEveryValueToTheLastDigit() throws Exception {
        Chart chart = SampleCharts.times();
        List<CSVRecord> rows;
        try (CSVParser parser = CSVParser.parse(
                ChartFiles.csv(chart),
                CSVFormat.DEFAULT
                        .builder()
                        .setHeader()
                        .setSkipHeaderRecord(true)
                        .get())) {
            assertThat(parser.getHeaderNames())
                    .containsExactly("layer", "kind", "case number", "time (s)", "low", "high", "label");
            rows = parser.getRecords();
        }
        List<CSVRecord> own =
                rows.stream().filter(r -> r.get("layer").equals("own")).toList();
        Layer.Points points = (Layer.Points) chart.layers().get(3);
        assertThat(own).hasSize(3);
        IntStream.range(0, 3).forEach(i -> {
            assertThat(Double.parseDouble(own.get(i).get("case number")))
                    .isEqualTo(points.at().get(i).x());
            assertThat(Double.parseDouble(own.get(i).get("time (s)")))
                    .isEqualTo(points.at().get(i).y());
        });
        assertThat(rows.stream().filter(r -> r.get("kind").equals("band")).map(r -> r.get("low") + " " + r.get("high")))
                .containsExactly("50.0 200.0", "30.0 90.0");
        assertThat(rows.stream().filter(r -> r.get("kind").equals("level")).map(r -> r.get("time (s)")))
                .containsExactly("24.8");
        // OWASP, CSV injection: a cell must not begin with an equals sign
        assertThat(own.get(1).get("label")).isEqualTo("'=1+1");
        assertThat(rows).hasSize(2 + 1 + 2 + 3);
    }

    @Test
    void sharesOfAnAxisAreThoseOfTheRule() {
        Axis log = Axis.of("time", "s", 10, 1000, Axis.Scale.LOG);
        assertThat(log.share(100)).isCloseTo(0.5, within(1e-15));
        assertThat(Axis.of("n", "", 0, 20, Axis.Scale.LINEAR).share(5)).isEqualTo(0.25);
    }

    @Test
    void ticksAreRoundAndWithinTheRange() {
        assertThat(Axis.of("t", "s", 10, 1000, Axis.Scale.LOG).ticks().stream().map(Axis.Tick::text))
                .containsExactly("10", "20", "50", "100", "200", "500", "1000");
        assertThat(Axis.of("n", "", 0, 20, Axis.Scale.LINEAR).ticks().stream().map(Axis.Tick::text))
                .containsExactly("0", "5", "10", "15", "20");
        assertThat(Axis.of("s", "", 0.1, 0.35, Axis.Scale.LINEAR).ticks().stream()
                        .map(Axis.Tick::text))
                .containsExactly("0.1", "0.15", "0.2", "0.25", "0.3", "0.35");
        // over less than a power of ten, 1-2-5 leaves 500 alone
        assertThat(Axis.of("t", "s", 240, 960, Axis.Scale.LOG).ticks().stream().map(Axis.Tick::text))
                .containsExactly("300", "400", "500", "600", "700", "800", "900");
        assertThat(Axis.of("t", "s", 21, 47, Axis.Scale.LOG).ticks().stream().map(Axis.Tick::text))
                .containsExactly("25", "30", "35", "40", "45");
    }

    @Test
    void anAxisAroundValuesHoldsThemAllAlsoWhereThereIsOneOnly() {
        for (Axis.Scale scale : Axis.Scale.values()) {
            Axis one = Axis.around("t", "", scale, 7);
            assertThat(one.low()).isLessThan(7);
            assertThat(one.high()).isGreaterThan(7);
            Axis none = Axis.around("t", "", scale);
            assertThat(none.low()).isLessThan(none.high());
            Axis some = Axis.around("t", "", scale, 3, 1, 400, Double.NaN);
            assertThat(some.low()).isLessThan(1);
            assertThat(some.high()).isGreaterThan(400);
        }
    }

    @Test
    void aChartWithoutASentenceIsRefused() {
        assertThatThrownBy(() -> new Chart("x", "", SampleCharts.CASES, SampleCharts.SECONDS, List.of(), "", " "))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
