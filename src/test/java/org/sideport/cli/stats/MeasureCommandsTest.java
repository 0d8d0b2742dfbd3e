package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The commands quantiles, segments, circle and ellipse, run within this process. */
class MeasureCommandsTest extends StatsRun {

    private static final String GANDER = "x,y\n1,7\n2,6\n5,8\n7,7\n9,5\n3,7\n";

    /** Quantiles by R 4.2.2 (src/test/oracle/describe/describe.R). */
    @Test
    void quantilesByGroupAndType() throws IOException {
        String data = file("v.csv", "group,value\na,3\na,7\na,8\na,9\na,12\na,15\na,21\na,40\nb,1\nb,\n");
        JsonNode seven = run("quantiles", data, "--json").json();
        assertThat(seven.at("/type").asInt()).isEqualTo(7);
        assertThat(seven.at("/groups/0/n").asInt()).isEqualTo(8);
        assertThat(seven.at("/groups/0/quantiles/1/value").asDouble()).isEqualTo(7.75);
        assertThat(seven.at("/groups/0/quantiles/4/value").asDouble()).isCloseTo(26.7, within(1e-12));
        assertThat(seven.at("/groups/0/quantiles/4/upper").isNull()).isTrue();
        assertThat(seven.at("/groups/0/geometric_mean/lower").asDouble()).isCloseTo(5.7930621882407, within(1e-9));
        assertThat(seven.at("/groups/0/geometric_sd").asDouble()).isCloseTo(2.17414206749524, within(1e-12));
        assertThat(seven.at("/groups/1/sd").isNull()).isTrue();
        assertThat(seven.at("/groups/1/geometric_mean").isNull()).isTrue();
        assertThat(seven.at("/groups/1/quantiles/2/lower").isNull()).isTrue();
        assertThat(seven.at("/warnings")).hasSize(2);
        JsonNode eight = run("quantiles", data, "--type", "8", "--p", "0.1,0.9", "--json")
                .json();
        assertThat(eight.at("/groups/0/quantiles/0/value").asDouble()).isCloseTo(3.66666666666667, within(1e-12));
        assertThat(eight.at("/groups/0/quantiles/1/value").asDouble()).isCloseTo(36.8333333333333, within(1e-12));
        Run text = run("quantiles", data, "--p", "0,0.125,1");
        assertThat(text.code()).isZero();
        assertThat(text.out())
                .contains("p12.5")
                .contains("not a standard to pass")
                .contains("type 7");
    }

    /** 3 of 10 below and 2 equal: 40 %; limits by R's prop.test and binom.test of 3 and of 5 in 10. */
    @Test
    void percentilesWithinAReference() throws IOException {
        String reference = file("r.csv", "group,value\na,10\na,1\na,5\na,2\na,5\na,3\na,6\na,7\na,8\na,9\nb,100\n");
        String values = file("v.csv", "group,value\na,5\nc,5\n");
        JsonNode json =
                run("quantiles", values, "--reference", reference, "--json").json();
        assertThat(json.at("/percentiles/0/percentile/estimate").asDouble()).isEqualTo(0.4);
        assertThat(json.at("/percentiles/0/percentile/n").asInt()).isEqualTo(10);
        assertThat(json.at("/percentiles/0/percentile/lower").asDouble()).isCloseTo(0.1077913, within(1e-6));
        assertThat(json.at("/percentiles/1/percentile").isNull()).isTrue();
        JsonNode exact = run("quantiles", values, "--reference", reference, "--exact", "--json")
                .json();
        assertThat(exact.at("/percentiles/0/percentile/lower").asDouble()).isCloseTo(0.06673951, within(1e-7));
        String ungrouped = file("u.csv", "value\n50\n");
        JsonNode all =
                run("quantiles", ungrouped, "--reference", reference, "--json").json();
        assertThat(all.at("/percentiles/0/percentile/n").asInt()).isEqualTo(11);
        assertThat(all.at("/percentiles/0/percentile/estimate").asDouble()).isCloseTo(10.0 / 11, within(1e-12));
        Run text = run("quantiles", values, "--reference", reference);
        assertThat(text.out())
                .contains("40.0 %")
                .contains("speed is not competence")
                .contains("Group c: the reference sample is empty");
    }

    /** AAAABBBBCC found as AAABBBBBCC, a letter a second: accuracy .9, overlaps .75 .8 1, kappa .84375, edit score 100. */
    @Test
    void agreementOfTwoTaggers() throws IOException {
        String tags = file(
                "t.csv",
                "case,annotator,phase,start,end\nC1,A1,a,0,4\nC1,A1,b,4,8\nC1,A1,c,8,0:10\n"
                        + "C1,A2,a,0,3\nC1,A2,b,3,8\nC1,A2,c,8,10\nC2,A1,a,0,4\n");
        Run run = run("segments", tags, "--frame-rate", "25", "--order", "a,c,b", "--json");
        assertThat(run.code()).as(run.err()).isZero();
        JsonNode json = run.json();
        assertThat(json.at("/reference").asString()).isEqualTo("A1");
        assertThat(json.at("/kappa/estimate").asDouble()).isCloseTo(0.84375, within(1e-12));
        assertThat(json.at("/kappa/lower").isNull()).isTrue();
        JsonNode first = json.at("/cases/0");
        assertThat(json.at("/cases")).hasSize(1);
        assertThat(first.at("/compared_us").asLong()).isEqualTo(10_000_000);
        assertThat(first.at("/accuracy").asDouble()).isEqualTo(0.9);
        assertThat(first.at("/frames/compared").asLong()).isEqualTo(250);
        assertThat(first.at("/frames/kappa").asDouble()).isCloseTo(0.84375, within(1e-12));
        assertThat(first.at("/overlap/0/overlap").asDouble()).isEqualTo(0.75);
        assertThat(first.at("/overlap/1/overlap").asDouble()).isEqualTo(0.8);
        assertThat(first.at("/overlap/2/overlap").asDouble()).isEqualTo(1);
        assertThat(first.at("/edit_score").asDouble()).isEqualTo(100);
        assertThat(first.at("/f1/2/overlap_percent").asInt()).isEqualTo(50);
        assertThat(first.at("/f1/2/f1").asDouble()).isEqualTo(1);
        assertThat(first.at("/boundaries/max_absolute_us").asLong()).isEqualTo(1_000_000);
        assertThat(first.at("/boundaries/mean_us").asLong()).isEqualTo(-250_000);
        assertThat(first.at("/missed")).isEmpty();
        assertThat(first.at("/orders/0/episodes/1/total_us").asLong()).isEqualTo(4_000_000);
        assertThat(first.at("/orders/0/standard/edit_distance").asInt()).isEqualTo(2);
        assertThat(first.at("/orders/0/standard/discordant_pairs").asInt()).isEqualTo(1);
        assertThat(json.at("/warnings").toString()).contains("C2 is left out").contains("too few to resample");
        Run text = run("segments", tags, "--annotators", "A2,A1", "--order", "a,b,c");
        assertThat(text.out())
                .contains("90.0 %")
                .contains("0.844")
                .contains("standard order")
                .contains("agreement says that tags can be repeated, not that they are right");
        assertThat(run("segments", tags, "--annotators", "A2,A1", "--json")
                        .json()
                        .at("/cases/0/boundaries/mean_us")
                        .asLong())
                .isEqualTo(250_000);
    }

    /** 3 of 5 labelled seconds agree; 5 more are idle by both: 8 of 10. */
    @Test
    void idleTimeCountsOrNot() throws IOException {
        String tags = file(
                "t.csv",
                "case,annotator,phase,start,end\nC1,A1,a,0,2\nC1,A1,Idle,2,8\nC1,A1,b,8,10\n"
                        + "C1,A2,a,0,3\nC1,A2,b,9,10\n");
        JsonNode with = run("segments", tags, "--idle", "Idle", "--json").json();
        assertThat(with.at("/accuracy").asDouble()).isEqualTo(0.8);
        JsonNode without = run("segments", tags, "--idle", "Idle", "--leave-idle-out", "--json")
                .json();
        assertThat(without.at("/accuracy").asDouble()).isEqualTo(0.6);
        assertThat(run("segments", tags, "--idle", "Idle").out()).contains("(no phase)");
    }

    @Test
    void segmentsThatCannotBeComparedAreNamed() throws IOException {
        String head = "case,annotator,phase,start,end\n";
        Run one = run("segments", file("a.csv", head + "C1,A1,a,0,2\n"));
        assertThat(one.code()).isEqualTo(2);
        assertThat(one.err()).contains("1 annotators: A1").contains("--annotators");
        Run three = run("segments", file("b.csv", head + "C1,A1,a,0,2\nC1,A2,a,0,2\nC1,A3,a,0,2\n"));
        assertThat(three.err()).contains("3 annotators");
        Run never = run("segments", file("c.csv", head + "C1,A1,a,0,2\nC2,A2,a,0,2\n"));
        assertThat(never.code()).isEqualTo(1);
        assertThat(never.out()).contains("no case was tagged by both A1 and A2");
        Run open = run("segments", file("d.csv", head + "C1,A1,a,0,\nC1,A2,a,0,2\n"));
        assertThat(open.code()).isEqualTo(2);
        assertThat(open.err()).contains("has no end");
        Run nobody = run("segments", file("e.csv", "case,phase,start,end\nC1,a,0,1\n"));
        assertThat(nobody.code()).isEqualTo(2);
        assertThat(nobody.err()).contains("annotator is empty");
        Run events = run("segments", file("f.csv", "case,annotator,event,at\nC1,A1,tear,1\n"));
        assertThat(events.err()).contains("events, not phases");
        String two = file("g.csv", head + "C1,A1,a,0,2\nC1,A2,a,0,2\n");
        assertThat(run("segments", two, "--frame-rate", "0").code()).isEqualTo(2);
        assertThat(run("segments", two, "--resamples", "10").code()).isEqualTo(2);
        Run same = run("segments", two);
        assertThat(same.code()).isZero();
        assertThat(same.out()).contains("There is no kappa");
    }

    /** Gander, Golub & Strebel 1994: centre (4.7398, 2.9835), radius 4.7142. */
    @Test
    void theCircleOfThePaper() throws IOException {
        String points = file("p.csv", GANDER);
        Run run = run("circle", points, "--json");
        assertThat(run.code()).as(run.err()).isZero();
        JsonNode json = run.json();
        assertThat(json.at("/centre_x_px").asDouble()).isCloseTo(4.7398, within(5e-5));
        assertThat(json.at("/centre_y_px").asDouble()).isCloseTo(2.9835, within(5e-5));
        assertThat(json.at("/radius_px").asDouble()).isCloseTo(4.7142, within(5e-5));
        assertThat(json.at("/click_sd_estimated").asBoolean()).isTrue();
        assertThat(json.at("/decentration").isMissingNode()).isTrue();
        // unit errors of a click: the radius has 1.91393406433 (R)
        JsonNode unit = run(
                        "circle",
                        points,
                        "--click-sd",
                        "1",
                        "--mm-per-px",
                        "0.5",
                        "--mm-per-px-sd",
                        "0",
                        "--centre",
                        "4.7398,0",
                        "--json")
                .json();
        assertThat(unit.at("/unit").asString()).isEqualTo("mm");
        assertThat(unit.at("/diameter/estimate").asDouble()).isCloseTo(4.7142, within(5e-5));
        assertThat(unit.at("/diameter/se").asDouble()).isCloseTo(1.91393406433, within(1e-6));
        assertThat(unit.at("/decentration/estimate").asDouble()).isCloseTo(2.9835 / 2, within(5e-5));
        Run text = run("circle", points);
        assertThat(text.out())
                .contains("apparent diameter")
                .contains("cornea")
                .contains("zoom")
                .contains("in pixels");
        assertThat(run("circle", points, "--mm-per-px", "0.5").out()).contains("3.6 %");
    }

    /** Section 5 of the paper: semi-axes 6.5187 and 3.0319, angle .3596. */
    @Test
    void theEllipseOfThePaper() throws IOException {
        String points = file("p.csv", GANDER + "6,2\n8,4\n");
        JsonNode json = run("ellipse", points, "--centre", "2.6996, 0", "--centre-sd", "0.5", "--json")
                .json();
        assertThat(json.at("/semi_major_px").asDouble()).isCloseTo(6.5187, within(6e-5));
        assertThat(json.at("/semi_minor_px").asDouble()).isCloseTo(3.0319, within(6e-5));
        assertThat(json.at("/angle_degrees").asDouble()).isCloseTo(Math.toDegrees(0.3596), within(3e-3));
        assertThat(json.at("/axis_ratio/estimate").asDouble()).isCloseTo(3.0319 / 6.5187, within(2e-5));
        assertThat(json.at("/decentration/estimate").asDouble()).isCloseTo(3.8160, within(1e-4));
        Run text = run("ellipse", points);
        assertThat(text.code()).isZero();
        assertThat(text.out()).contains("circularity").contains("Only 8 points");
    }

    @Test
    void pointsThatFixNothingAreAFinding() throws IOException {
        String line = file("l.csv", "x,y\n0,0\n1,1\n2,2\n3,3\n4,4\n5,5\n");
        for (String shape : List.of("circle", "ellipse")) {
            Run run = run(shape, line);
            assertThat(run.code()).isEqualTo(1);
            assertThat(run.out()).contains("lie on a line");
            JsonNode json = run(shape, line, "--json").json();
            assertThat(json.at("/refused/reason").asString()).isEqualTo("not_identified");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--level 1",
                "--click-sd 0",
                "--mm-per-px -1",
                "--mm-per-px-sd 0.1",
                "--mm-per-px 1 --mm-per-px-sd -0.1",
                "--centre 5",
                "--centre 1,2,3",
                "--centre-sd -1"
            })
    void wrongOptionsOfAFitAreBadInput(String options) throws IOException {
        String points = file("p.csv", GANDER);
        String[] given = options.split(" ");
        Run run = run(with(given, "circle", points));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(given[given.length - 2]);
    }

    @Test
    void wrongQuantilesAreBadInput() throws IOException {
        String data = file("v.csv", "value\n1\n2\n");
        assertThat(run("quantiles", data, "--type", "10").err()).contains("1 to 9");
        assertThat(run("quantiles", data, "--type", "0").code()).isEqualTo(2);
        assertThat(run("quantiles", data, "--p", "0.5,2").err()).contains("between 0 and 1");
        assertThat(run("quantiles", data, "--confidence", "0").code()).isEqualTo(2);
        assertThat(run("quantiles", file("w.csv", "x\n1\n")).err()).contains("no column value");
        assertThat(run("circle", file("q.csv", "x,z\n1,2\n")).err()).contains("no column y");
    }

    @ParameterizedTest
    @ValueSource(strings = {"quantiles", "segments", "circle", "ellipse"})
    void helpShowsTheColumnsAndAnExample(String command) {
        Run run = run(command, "--help");
        assertThat(run.code()).isZero();
        assertThat(run.out()).containsPattern("(x,y|group,value|case,annotator,phase,start,end)");
        assertThat(run.out()).containsPattern("(612,402|rhexis,65.1|C07,A1,rhexis,84.2,139.1)");
        assertThat(run.out()).contains("default: 0.95");
    }
}
