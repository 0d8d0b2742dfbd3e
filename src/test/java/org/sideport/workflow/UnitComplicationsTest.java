package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.chart.Chart;
import org.sideport.chart.Layer;
import org.sideport.model.MediaTime;
import org.sideport.model.PointEvent;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.stats.Outcome;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.ComplicationsView.OfTrainee;
import org.sideport.workflow.UnitComplications.Question;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

class UnitComplicationsTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private final UnitCharts charts = new UnitCharts(new ProgressWords(Locale.UK));

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** Cases of a trainee, the first of them with a tear, the last {@code untagged} without tags. */
    private void cases(String trainee, int n, int failures, int untagged) {
        workspace.change(s -> {
            for (int i = 1; i <= n; i++) {
                String code = trainee + "-" + i;
                s.cases()
                        .add(new SurgicalCase(
                                code, trainee, LocalDate.of(2026, 1, 1).plusDays(i), "phaco", Map.of(), null));
                if (i <= n - untagged) {
                    s.taggings()
                            .save(
                                    code,
                                    "A1",
                                    new Tagging(
                                            TaggingStyle.START_AND_END,
                                            List.of(),
                                            i <= failures
                                                    ? List.of(new PointEvent(
                                                            "capsule_tear_posterior", MediaTime.ofSeconds(5), null, ""))
                                                    : List.of()));
                }
            }
        });
    }

    private ComplicationsView show(int fewest, String... complete) {
        return new UnitComplications(workspace).show(new Question("phaco", Set.of(complete), fewest));
    }

    /** 12 of 100 known cases; what is drawn is what is told. Limits of 12 in 100 by Clopper & Pearson: .0636 to .2002 (from memory; agrees with the F form of the limits). */
    @Test
    void theFunnelStandsAroundTheRateOfTheUnit() {
        cases("T01", 50, 2, 0);
        cases("T02", 55, 10, 5);

        ComplicationsView view = show(0);

        assertThat(view.cases()).isEqualTo(105);
        assertThat(view.known()).as("without tags nobody knows").isEqualTo(100);
        assertThat(view.rate()).isEqualTo(0.12);
        assertThat(view.rateLimits().lower()).isCloseTo(0.0636, within(1e-4));
        assertThat(view.rateLimits().upper()).isCloseTo(0.2002, within(1e-4));
        Chart chart = charts.funnel(view).orElseThrow();
        Layer.Points points = chart.layers().stream()
                .filter(l -> l instanceof Layer.Points)
                .map(l -> (Layer.Points) l)
                .findFirst()
                .orElseThrow();
        assertThat(points.at()).containsExactly(new Layer.At(50, 4, "T01"), new Layer.At(50, 20, "T02"));
        assertThat(chart.sentence())
                .contains("100 cases", "5 more have no tags", "12 with an event", "12.0 %", "Nobody lies outside");
    }

    /** Case by case only where the log is stated to be complete. */
    @Test
    void onlyACompleteLogIsChartedCaseByCase() {
        cases("T01", 30, 1, 0);
        cases("T02", 30, 1, 0);
        ComplicationsView view = show(0, "T02");
        OfTrainee first = view.trainees().get(0);
        OfTrainee second = view.trainees().get(1);
        assertThat(first.monitoring()).isInstanceOf(Outcome.Refused.class);
        assertThat(charts.watch(view, first)).isEmpty();
        assertThat(charts.watch(view, second).orElseThrow().id()).isEqualTo("watch-t02");
    }

    /** A count below five is not told, nor the one from which it could be worked out. */
    @Test
    void smallCountsAreHiddenWhereOthersLook() {
        cases("T01", 20, 1, 0);
        cases("T02", 20, 7, 0);
        cases("T03", 20, 8, 0);
        ComplicationsView view = show(5);
        assertThat(view.failures()).isEqualTo(16);
        assertThat(view.trainees()).extracting(OfTrainee::masked).containsExactly(true, true, false);
        assertThat(view.trainees().get(0).share()).isNull();
        assertThat(view.trainees().get(1).failures()).isZero();
        Chart chart = charts.funnel(view).orElseThrow();
        assertThat(org.sideport.chart.ChartFiles.csv(chart)).contains("T03").doesNotContain("T01", "T02");
        assertThat(chart.sentence()).contains("2 trainees are left out: counts below 5");
    }

    /** Where the whole unit has few, neither its rate nor anybody's share is told. */
    @Test
    void fewOfTheWholeUnitAreHiddenToo() {
        cases("T01", 20, 1, 0);
        cases("T02", 20, 2, 0);
        ComplicationsView view = show(5);
        assertThat(view.masked()).isTrue();
        assertThat(view.rate()).isNull();
        assertThat(view.trainees()).allMatch(OfTrainee::masked);
        assertThat(charts.funnel(view)).isEmpty();
        assertThat(charts.sentence(view))
                .isEqualTo("40 cases with a known outcome: fewer than 5 had an event that counts,"
                        + " too few to be passed on.");
    }
}
