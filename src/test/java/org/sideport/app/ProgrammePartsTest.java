package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Proxy;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import javafx.scene.control.ComboBox;
import javafx.scene.layout.BorderPane;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Theme;
import org.sideport.app.people.Me;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.progress.ChartKit;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** Who is offered which parts of the programme's screen. */
class ProgrammePartsTest {

    @TempDir
    Path temp;

    private final FxRobot robot = new FxRobot();

    /** Nobody goes anywhere here. */
    private static Navigator nowhere() {
        return (Navigator) Proxy.newProxyInstance(
                Navigator.class.getClassLoader(), new Class<?>[] {Navigator.class}, (proxy, method, arguments) -> {
                    throw new UnsupportedOperationException(method.getName());
                });
    }

    private List<ProgrammePane> offered(Bench bench, Role role) {
        Workspace own = bench.workspace.as(new Caller.Person("X1", Set.of(role)));
        ChartKit charts = new ChartKit(bench.work, bench.work, bench.notices, new Theme(bench.settings), bench.texts);
        AtomicReference<List<ProgrammePane>> found = new AtomicReference<>();
        robot.interact(() -> found.set(new ProgrammeParts(
                        own,
                        Clock.systemUTC(),
                        new Vocabularies(own),
                        bench.work,
                        bench.work,
                        bench.work,
                        bench.settings,
                        charts)
                .offered(new Me(own.caller()), nowhere())));
        return found.get();
    }

    @Test
    void anAssessorSeesTheOwnCalibrationByAnyRubricAndADirectorEntersTheReference() throws Exception {
        FxToolkit.registerPrimaryStage();
        try (Bench bench = new Bench(temp)) {
            assertThat(offered(bench, Role.TRAINEE)).isEmpty();
            List<ProgrammePane> forAssessor = offered(bench, Role.ASSESSOR);
            assertThat(forAssessor)
                    .extracting(ProgrammePane::id)
                    .contains("calibration")
                    .doesNotContain("assignments", "people", "store");
            ProgrammePane calibration = forAssessor.stream()
                    .filter(p -> p.id().equals("calibration"))
                    .findFirst()
                    .orElseThrow();
            robot.interact(calibration::shown);
            assertThat(calibration.node().lookup("#enter-reference")).isNull();
            BorderPane pane = (BorderPane) calibration.node();
            @SuppressWarnings("unchecked")
            ComboBox<Rubric> rubrics = (ComboBox<Rubric>) pane.lookup("#calibration-rubric");
            assertThat(rubrics.getItems()).extracting(Rubric::id).contains("phaco-competency", "msics-competency");
            assertThat(bench.notice()).isEmpty();
            assertThat(offered(bench, Role.DIRECTOR).stream()
                            .filter(p -> p.id().equals("calibration"))
                            .findFirst()
                            .orElseThrow()
                            .node()
                            .lookup("#enter-reference"))
                    .isNotNull();
        }
    }
}
