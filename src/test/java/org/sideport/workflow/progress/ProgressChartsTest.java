package org.sideport.workflow.progress;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.TermTimes;

class ProgressChartsTest {

    private static final ProgressWords ENGLISH = new ProgressWords(Locale.UK);

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void rhexis(int number, double seconds, Map<String, String> descriptors) {
        String code = "C-" + number;
        workspace.change(s -> {
            s.cases()
                    .add(new SurgicalCase(
                            code, "T01", LocalDate.of(2026, 1, 1).plusDays(number), "phaco", descriptors, null));
            s.taggings()
                    .save(
                            code,
                            "A1",
                            new Tagging(
                                    TaggingStyle.START_AND_END,
                                    List.of(new PhaseSpan(
                                            "rhexis", MediaTime.ZERO, new MediaTime(Math.round(seconds * 1e6)), null)),
                                    List.of()));
        });
    }

    private ProgressView view() {
        return new FollowProgress(workspace).show(new FollowProgress.Question("T01", "phaco", null, 6, false));
    }

    private static TermTimes rhexis(ProgressView view) {
        return view.times().stream()
                .filter(t -> t.id().equals("rhexis"))
                .findFirst()
                .orElseThrow();
    }

    private static <T extends Layer> T layer(Chart chart, Class<T> kind, Ink ink) {
        return chart.layers().stream()
                .filter(l -> kind.isInstance(l) && l.ink() == ink)
                .map(kind::cast)
                .findFirst()
                .orElseThrow();
    }

    /**
     * Rhexis in Cataract-101 (Schoeffmann et al. 2018, doi 10.1145/3204949.3208137; worked out from its annotation table):
     * much experience (n = 56) median 24.8 s, quartiles 21.8 and 30.8; little (n = 45) 65.1, 43.9 and 85.9.
     */
    @Test
    void timesAreDrawnAgainstThePublishedQuartilesWithSourceAndCaveat() {
        rhexis(1, 65.1, Map.of());
        ProgressView view = view();
        Chart chart = new ProgressCharts(view, ENGLISH).time(rhexis(view), ProgressCharts.usual(rhexis(view)));
        Layer.Level median = layer(chart, Layer.Level.class, Ink.REFERENCE);
        assertThat(median.y()).isEqualTo(24.8);
        Layer.Band middle = layer(chart, Layer.Band.class, Ink.REFERENCE);
        assertThat(middle.ranges()).allMatch(r -> r.low() == 21.8 && r.high() == 30.8);
        assertThat(chart.note()).contains("n = 56", "doi 10.1145/3204949.3208137", "never a norm", "not competence");

        Held little = rhexis(view).references().stream()
                .filter(h -> h.id().equals("published_little_experience"))
                .findFirst()
                .orElseThrow();
        Chart other = new ProgressCharts(view, ENGLISH).time(rhexis(view), little);
        assertThat(layer(other, Layer.Level.class, Ink.REFERENCE).y()).isEqualTo(65.1);
        assertThat(layer(other, Layer.Band.class, Ink.REFERENCE).ranges())
                .allMatch(r -> r.low() == 43.9 && r.high() == 85.9);
        // a trainee who takes as long as the median of little experience lies on its line
        assertThat(layer(other, Layer.Points.class, Ink.MAIN).at().get(0).y()).isEqualTo(65.1);
    }

    @Test
    void timeStandsOnALogarithmicAxisAndTheMixOfCasesInTheShape() {
        rhexis(1, 100, Map.of("nuclear_grade", "1"));
        rhexis(2, 50, Map.of("nuclear_grade", "4"));
        rhexis(3, 25, Map.of());
        ProgressView view = view();
        Chart chart = new ProgressCharts(view, ENGLISH).time(rhexis(view), null);
        assertThat(chart.y().scale()).isEqualTo(Axis.Scale.LOG);
        assertThat(chart.layers().stream()
                        .filter(l -> l instanceof Layer.Points)
                        .collect(Collectors.toMap(
                                l -> ((Layer.Points) l).mark(),
                                l -> ((Layer.Points) l).at().get(0).label())))
                .isEqualTo(Map.of(Mark.DISC, "C-1", Mark.TRIANGLE, "C-2", Mark.RING, "C-3"));
        // halving takes the same length anywhere on it
        double first = chart.y().share(100) - chart.y().share(50);
        assertThat(chart.y().share(50) - chart.y().share(25)).isCloseTo(first, within(1e-12));
    }

    @Test
    void ofFewCasesTheChartSaysThatItCannotSay() {
        rhexis(1, 100, Map.of());
        rhexis(2, 50, Map.of());
        ProgressView view = view();
        Chart chart = new ProgressCharts(view, ENGLISH).time(rhexis(view), null);
        assertThat(chart.sentence())
                .isEqualTo(
                        "Rhexis: 2 cases with a time, from 50 s to 100 s. Not enough cases to say whether it changes:"
                                + " 2 cases with a time, a curve needs 10. Not enough cases to compare the latest 6 with"
                                + " those before: 2 cases with a time, at least 5 are needed on either side (common"
                                + " practice, no source). What others took is hidden: no other person with a time, and"
                                + " fewer than 5 at like numbers of cases (rule of the unit).");
        assertThat(chart.layers()).hasSize(1);
        assertThat(new ProgressCharts(view, ENGLISH).monitoring()).isEmpty();
    }

    private static Properties words(String name) throws IOException {
        Properties words = new Properties();
        try (InputStream in = Objects.requireNonNull(ProgressWords.class.getResourceAsStream(name))) {
            words.load(new InputStreamReader(in, StandardCharsets.UTF_8));
        }
        return words;
    }

    @Test
    void bothLanguagesHaveTheSameKeysAndTakeTheSameValues() throws Exception {
        Properties english = words("charts.properties");
        Properties german = words("charts_de.properties");
        assertThat(german.stringPropertyNames()).isEqualTo(english.stringPropertyNames());
        for (String key : english.stringPropertyNames()) {
            assertThat(places(german.getProperty(key))).as(key).isEqualTo(places(english.getProperty(key)));
        }
    }

    private static Set<String> places(String text) {
        return Pattern.compile("\\{\\d")
                .matcher(text)
                .results()
                .map(MatchResult::group)
                .collect(Collectors.toSet());
    }

    @Test
    void numbersAreWrittenAsTheReaderWritesThem() {
        assertThat(new ProgressWords(Locale.GERMANY).number(-1234.5, 1)).isEqualTo("−1.234,5");
        assertThat(ENGLISH.seconds(9_960_000)).isEqualTo("10.0 s");
        assertThat(ENGLISH.seconds(83_400_000)).isEqualTo("83 s");
    }
}
