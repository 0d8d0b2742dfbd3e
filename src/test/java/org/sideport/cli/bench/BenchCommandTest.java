package org.sideport.cli.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.File;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class BenchCommandTest {

    @TempDir
    Path home;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... arguments) {
        List<String> all = new ArrayList<>(List.of("bench"));
        all.addAll(List.of(arguments));
        return Main.run(
                all.toArray(String[]::new), new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), home);
    }

    @Test
    void eachMeasurementSaysItsTimesAndTheirRatio() {
        assertThat(run("stats", "--only", "bca,icc,mixed", "--repeats", "2", "--json"))
                .as(err.toString())
                .isZero();
        JsonNode json = JsonMapper.builder().build().readTree(out.toString());
        assertThat(json.at("/measurements")).hasSize(3);
        for (JsonNode one : json.at("/measurements")) {
            assertThat(one.at("/time_us").asLong()).isPositive();
            if (one.at("/baseline_time_us").isNull()) {
                assertThat(one.at("/ratio").isNull()).isTrue();
                assertThat(one.at("/note").asString()).isNotEmpty();
            } else {
                double ratio = (double) one.at("/baseline_time_us").asLong()
                        / one.at("/time_us").asLong();
                assertThat(one.at("/ratio").asDouble()).isCloseTo(ratio, within(0.01 * ratio));
            }
            // R is not everywhere; where it is, it must come to our figure
            assertThat(one.at("/same_result").toString()).isIn("true", "null");
        }
        assertThat(json.at("/measurements/0/baseline").asString()).isEqualTo("10 000 sorts of 200 values");
    }

    @Test
    void oneMeasurementIsALine() {
        assertThat(run("--only", "bca", "--repeats", "1")).isZero();
        assertThat(out.toString().lines()).hasSize(1);
        assertThat(out.toString())
                .matches("BCa limits of a mean, 10 000 resamples of 200 values: [0-9.]+ ms, 10 000 sorts of 200 values"
                        + " [0-9.]+ ms, ratio [0-9.]+\\R");
    }

    /** Drawn on a screen, or said clearly that there is none. */
    @Test
    void theTimelinesRedrawsAreMeasuredWhereThereIsAScreen() {
        int code = run("timeline", "--repeats", "2", "--json");
        if (code == 2) {
            assertThat(err.toString()).contains("no screen").contains("xvfb-run");
            return;
        }
        assertThat(code).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(out.toString());
        assertThat(json.at("/timeline_spans").asInt()).isEqualTo(5000);
        assertThat(json.at("/timeline_events").asInt()).isEqualTo(2000);
        assertThat(json.at("/timeline_redraws").asInt()).isEqualTo(68);
        assertThat(json.at("/timeline_redraw_ms_median").asDouble()).isPositive();
        // no more than a few texts: nothing is made anew for each block
        assertThat(json.at("/timeline_redraw_allocated_bytes_median").asLong()).isBetween(1L, 200_000L);
    }

    @Test
    void whatThereIsNotIsNamed() {
        assertThat(run("pictures")).isEqualTo(2);
        assertThat(err.toString()).contains("pictures").contains("write: stats, media, store, playback, app");
        assertThat(run("--only", "icd")).isEqualTo(2);
        assertThat(err.toString()).contains("icd").contains("bca");
        assertThat(run("--repeats", "0")).isEqualTo(2);
    }

    @Test
    @Tag("slow")
    void readingOfRecordingsIsMeasuredInFlatFigures() {
        assertThat(run("media", "--minutes", "1", "--repeats", "1", "--json"))
                .as(err.toString())
                .isZero();
        JsonNode json = JsonMapper.builder().build().readTree(out.toString());
        for (String key : List.of("index_ratio", "random_frame_ratio", "step_forward_ratio", "traces_ratio")) {
            // null where the reference is not installed
            assertThat(json.has(key)).as(key).isTrue();
            assertThat(json.get(key).isNull() || json.get(key).asDouble() > 0)
                    .as(key)
                    .isTrue();
        }
        assertThat(json.get("step_back_ratio").asDouble()).isPositive();
        assertThat(json.get("scrub_ms_median").asDouble()).isPositive();
        assertThat(json.has("resident_mb")).isTrue();
        // 8 bytes of time and 4 of packet, and a key packet in fifty
        assertThat(json.get("index_bytes_per_frame").asDouble()).isBetween(12.0, 24.0);
    }

    @Test
    void noMinutesAreNoRecording() {
        assertThat(run("media", "--minutes", "0")).isEqualTo(2);
        assertThat(err.toString()).contains("--minutes");
    }

    @Test
    void aReferenceThatIsNotInstalledIsSaidToBeMissing() {
        assertThat(Program.on(home.toString(), "ffprobe")).isNull();
        assertThat(Program.on(null, "ffprobe")).isNull();
    }

    @Test
    void theMedianOfAnEvenNumberLiesBetweenTheMiddleTwo() {
        assertThat(Stopwatch.median(new double[] {5, 1, 3})).isEqualTo(3);
        assertThat(Stopwatch.median(new double[] {4, 1, 3, 9})).isEqualTo(3.5);
    }

    @Test
    void warmUpsAreRunButNotTimed() {
        int[] runs = {0};
        Stopwatch.Timing timing = new Stopwatch(2, 3).time(() -> {
            runs[0]++;
            if (runs[0] <= 2) {
                sleep();
            }
            return runs[0];
        });
        assertThat(runs[0]).isEqualTo(5);
        assertThat(timing.value()).isEqualTo(5);
        assertThat(timing.seconds()).isLessThan(0.05);
    }

    private static void sleep() {
        try {
            Thread.sleep(60);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void theScriptsLinesAreRead() {
        Rscript.Result result = Rscript.parse(
                List.of("Loading", "seconds 0.5 ", "seconds 0.7", "seconds 0.6", "value -20696.601801680674"));
        assertThat(result.seconds()).isEqualTo(0.6);
        assertThat(result.value()).isEqualTo(-20696.601801680674);
        assertThat(result.note()).isNull();
        assertThat(Rscript.parse(List.of("nothing")).note()).isEqualTo("the reference printed no time");
        assertThat(Rscript.parse(List.of("seconds 1")).value()).isNull();
    }

    @Test
    void theProgramIsLookedForInTheFoldersOfThePath() throws IOException {
        assertThat(Rscript.isOn(null)).isFalse();
        assertThat(Rscript.isOn("")).isFalse();
        Path bin = Files.createDirectory(home.resolve("bin"));
        String path = home + File.pathSeparator + bin;
        assertThat(Rscript.isOn(path)).isFalse();
        Path program = Files.createFile(bin.resolve("Rscript.exe"));
        assertThat(program.toFile().setExecutable(true)).isTrue();
        assertThat(Rscript.isOn(path)).isTrue();
    }

    @Test
    void anotherResultIsSaidAloud() {
        Measurement measurement = new BootstrapMeasurement();
        MeasurementResult same = new MeasurementResult(measurement, 0.5, 100, "R", 2.0, 100.00001, null);
        assertThat(same.line()).endsWith(": 500.0 ms, R 2000 ms, ratio 4.00, same result");
        assertThat(same.ratio()).isEqualTo(4);
        MeasurementResult other = new MeasurementResult(measurement, 0.5, 100, "R", 2.0, 101.0, null);
        assertThat(other.sameResult()).isFalse();
        assertThat(other.line()).contains("BUT ANOTHER RESULT: 100.0 and 101.0");
        MeasurementResult none = new MeasurementResult(measurement, 0.5, 100, "R", null, null, "no R");
        assertThat(none.ratio()).isNull();
        assertThat(none.sameResult()).isNull();
        assertThat(none.line()).endsWith(": 500.0 ms; no R");
    }

    /** The data reach the reference with all their digits, one row for each case. */
    @Test
    void theDataFileHoldsEveryCase() throws IOException {
        Path file = home.resolve("data.csv");
        ((Measurement.Baseline.Script) new MixedModelMeasurement().baseline()).write(file);
        List<String> lines = Files.readAllLines(file);
        assertThat(lines).hasSize(1 + 200 * 300);
        assertThat(lines.get(0)).isEqualTo("subject,time,value");
        assertThat(lines.get(3)).startsWith("T1,1.58496250072115"); // log2(3) = 1.5849625007211562
        assertThat(Double.parseDouble(Measurement.number(Math.PI))).isEqualTo(Math.PI);
    }
}
