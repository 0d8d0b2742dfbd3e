package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.chart.Chart;
import org.sideport.chart.Layer;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortTimesView.Term;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

class CohortTimesTest {

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

    /** Five trainees; the rhexis takes 10 t seconds in each of the last two cases, and very long in the first. */
    private void fiveTrainees() {
        workspace.change(s -> {
            for (int t = 1; t <= 5; t++) {
                for (int c = 1; c <= 3; c++) {
                    String code = "C-" + t + c;
                    s.cases()
                            .add(new SurgicalCase(
                                    code, "T0" + t, LocalDate.of(2026, 1, 1).plusDays(c), "phaco", Map.of(), null));
                    long seconds = c == 1 ? 900 : 10L * t;
                    s.taggings()
                            .save(
                                    code,
                                    "A1",
                                    new Tagging(
                                            TaggingStyle.START_AND_END,
                                            List.of(
                                                    new PhaseSpan(
                                                            "main_incision",
                                                            MediaTime.ZERO,
                                                            MediaTime.ofSeconds(20),
                                                            null),
                                                    new PhaseSpan(
                                                            "rhexis",
                                                            MediaTime.ofSeconds(30),
                                                            MediaTime.ofSeconds(30 + seconds),
                                                            null)),
                                            List.of()));
                }
            }
        });
    }

    private static Term term(CohortTimesView view, String id) {
        return view.terms().stream().filter(t -> t.id().equals(id)).findFirst().orElseThrow();
    }

    /** Medians 10, 20, 30, 40, 50: quartiles 20, 30, 40 by hand (type 7). Each trainee counts once, the old cases not. */
    @Test
    void eachTraineeCountsOnceByTheLatestCases() {
        fiveTrainees();
        CohortTimesView view = new CohortTimes(workspace).show("phaco", 2);
        Term rhexis = term(view, "rhexis");
        assertThat(rhexis.cases()).isEqualTo(10);
        assertThat(rhexis.quartiles()).isTrue();
        assertThat(List.of(rhexis.lowUs(), rhexis.middleUs(), rhexis.highUs())).containsExactly(20e6, 30e6, 40e6);
        assertThat(term(view, ProgressView.WHOLE).middleUs()).isCloseTo(60e6, within(1.0));
    }

    /**
     * What the chart holds the cohort against is what was published: Cataract-101 (Schoeffmann et al. 2018, doi
     * 10.1145/3204949.3208137), quartiles and median in seconds out of its annotation table.
     */
    @ParameterizedTest
    @CsvSource({
        "published_little_experience, Rhexis, 43.9, 65.1, 85.9",
        "published_much_experience, Rhexis, 21.8, 24.8, 30.8",
    })
    void theDrawnReferenceIsThePublishedOne(String against, String phase, double q1, double median, double q3) {
        fiveTrainees();
        CohortTimesView view = new CohortTimes(workspace).show("phaco", 2);
        Chart chart = new UnitCharts(new ProgressWords(Locale.UK))
                .times(view, against, true)
                .get(0);
        List<Layer> layers = chart.layers();
        Layer.Whiskers halves = (Layer.Whiskers) layers.get(3);
        Layer.Points middles = (Layer.Points) layers.get(4);
        Layer.Stretch half = halves.at().stream()
                .filter(s -> s.label().equals(phase))
                .findFirst()
                .orElseThrow();
        assertThat(half.low()).isCloseTo(q1, within(.05));
        assertThat(half.high()).isCloseTo(q3, within(.05));
        assertThat(middles.at().stream()
                        .filter(a -> a.label().equals(phase))
                        .findFirst()
                        .orElseThrow()
                        .y())
                .isCloseTo(median, within(.05));
        assertThat(chart.note()).contains("Schoeffmann", "Speed is not competence");
        assertThat(chart.sentence()).contains("Rhexis median 30 s, 20 s to 40 s (n = 5)");
    }
}
