package org.sideport.app.progress;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import javafx.scene.Node;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.AppContext;
import org.sideport.app.Bench;
import org.sideport.app.RealWindow;
import org.sideport.app.frame.MainWindow;
import org.sideport.chart.Look;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The screen by keys in a real window. */
class ProgressWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private AppContext context;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-window");
        Workspace workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        String trainee = workspace.read(s -> s.cases().get("C-1").trainee());
        for (int i = 2; i <= 5; i++) {
            String code = "C-" + i;
            MediaTime end = MediaTime.ofSeconds(30 + i);
            workspace.change(s -> {
                s.cases().add(new SurgicalCase(code, trainee, LocalDate.of(2026, 5, 1), "phaco", Map.of(), null));
                s.taggings()
                        .save(
                                code,
                                "A1",
                                new Tagging(
                                        TaggingStyle.START_AND_END,
                                        List.of(new PhaseSpan("rhexis", MediaTime.ZERO, end, null)),
                                        List.of()));
            });
        }
        workspace.change(s -> s.comments()
                .save(
                        "C-1",
                        new Comment(
                                "k1",
                                "A1",
                                CommentTone.IMPROVE,
                                "centre the eye",
                                null,
                                MediaTime.ofMicros(2_000_000),
                                null,
                                List.of())));
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            RealWindow.show(new MainWindow(context, stage), stage, 1280, 800);
        });
        RealWindow.untilCasesAreListed(robot, 30);
    }

    @AfterEach
    void closeWindow() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    private Image drawn() {
        return robot.lookup("#chart-time-rhexis .image-view")
                .tryQuery()
                .or(() -> robot.lookup("#chart-time-rhexis")
                        .tryQueryAs(ChartPane.class)
                        .map(pane -> pane.getChildrenUnmodifiable().get(0)))
                .map(view -> ((ImageView) view).getImage())
                .orElse(null);
    }

    @Test
    void oneKeyLeadsToTheChartsAndACommentLeadsIntoItsMoment() throws Exception {
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT5).release(KeyCode.ALT);
        RealWindow.until(30, () -> robot.lookup("#progress-summary").tryQuery().isPresent());
        assertThat(robot.lookup("#chart-time-rhexis").tryQuery())
                .as("a step is not shown at first")
                .isEmpty();
        robot.interact(() -> robot.lookup("#progress-steps")
                .queryAs(javafx.scene.control.CheckBox.class)
                .fire());
        RealWindow.until(30, () -> drawn() != null);
        Node chart = robot.lookup("#chart-time-rhexis").query();
        assertThat(chart.getAccessibleText()).startsWith("Rhexis: 4 cases with a time, from 32 s to 35 s.");
        assertThat(drawn().getPixelReader().getArgb(1, 1) & 0xFFFFFF).isEqualTo(Look.DARK.background());

        robot.type(KeyCode.F9);
        RealWindow.until(30, () -> (drawn().getPixelReader().getArgb(1, 1) & 0xFFFFFF) == Look.LIGHT.background());

        robot.interact(() -> robot.lookup("#show-k1")
                .queryAs(javafx.scene.control.Button.class)
                .fire());
        RealWindow.until(
                30,
                () -> context.desk().shownProperty().get() != null
                        && context.desk().shownProperty().get().frame().start().micros() == 2_000_000);
        assertThat(context.current().opened().code()).isEqualTo("C-1");
    }
}
