package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.chart.Chart;
import org.sideport.chart.Layer;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.progress.PlanCharts;
import org.sideport.workflow.progress.ProgressWords;

class PlanMarkingTest {

    /** Of 1, 2, 3, 4, 5, 6 and 8 performances (below). */
    private static final double[] PUBLISHED = {.442, .613, .704, .760, .798, .826, .864};

    private static final int[] CASES = {1, 2, 3, 4, 5, 6, 8};

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

    /**
     * A unit whose marks differ between trainees by 44.2 % of all variance, as those of 44 published G-studies did (Andersen
     * 2021, doi 10.1097/ACM.0000000000004150): two cases each at the trainee's mean ± 50 thousandths, means 500, 500 ± 100,
     * 500 ± 54. Mean squares by hand: within 2 × 50² = 5000, between means 6458, so trainees 6458 − 2500 = 3958 and 3958 /
     * 8958 = .4418. So many performances reach what follows from it, and 0.80 takes six.
     */
    @Test
    void sixCasesReachEightTenthsWhereTraineesAreFortyFourPercent() {
        MadeUpMarks marks = new MadeUpMarks(workspace);
        int[] means = {400, 446, 500, 554, 600};
        for (int t = 0; t < means.length; t++) {
            for (int c = 0; c < 2; c++) {
                String code = "C-" + t + c;
                marks.addCase(code, "T0" + t, 1 + 2 * t + c);
                marks.mark(code, "A1", "scale", true, java.util.Map.of("score", means[t] + (c == 0 ? 50 : -50)));
            }
        }

        MarkingPlan plan = new PlanMarking(workspace).show("scale", null, 0.8, 20);

        MarkingPlan.Found found = plan.found().orElseThrow();
        for (int i = 0; i < CASES.length; i++) {
            MarkingPlan.Place place = found.curve().get(CASES[i] - 1);
            assertThat(place.cases()).isEqualTo(CASES[i]);
            assertThat(place.phi()).isCloseTo(PUBLISHED[i], within(.001));
            assertThat(place.minutes()).isEqualTo(20.0 * CASES[i]);
        }
        assertThat(found.curve())
                .as("with one assessor nothing is known of two")
                .allMatch(p -> p.assessorsEach() == 1);
        assertThat(found.plans()).hasSize(1);
        assertThat(found.plans().get(0).cases()).isEqualTo(6);
        assertThat(found.plans().get(0).minutes()).isEqualTo(120);

        PlanCharts charts = new PlanCharts(new ProgressWords(Locale.UK));
        assertThat(charts.sentence(plan)).contains("6 cases × 1 assessor (120 min)", "Φ 0.80");
        Chart chart = charts.all(plan).get(0);
        Layer.Curve curve = (Layer.Curve) chart.layers().get(0);
        assertThat(curve.at().get(4).y()).as("what is drawn is what is told").isCloseTo(.798, within(.001));
        assertThat(charts.meanings()).anyMatch(w -> w.startsWith("Φ (phi")).anyMatch(w -> w.startsWith("G ("));
    }

    @Test
    void whatCannotBePlannedIsSaid() {
        new MadeUpMarks(workspace);
        PlanMarking planning = new PlanMarking(workspace);
        MarkingPlan plan = planning.show("scale", null, 0.8, 15);
        PlanCharts german = new PlanCharts(new ProgressWords(Locale.GERMANY));
        assertThat(german.all(plan)).isEmpty();
        assertThat(german.sentence(plan)).startsWith("Das lässt sich nicht sagen");
        assertThatThrownBy(() -> planning.show("scale", null, 1.2, 15)).hasMessageContaining("cannot be planned");
    }
}
