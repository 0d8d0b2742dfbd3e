package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Set;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.scene.paint.Color;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.frame.MainWindow;
import org.sideport.app.timeline.TimelineView;
import org.sideport.media.FramePicture;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;
import org.sideport.model.Role;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.assign.Assignments;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** What is hidden of a case's picture is black on the screen of who marks it blind: standing, dragged along, and playing. */
class BlindPictureTest {

    /** Within the eye, where the drawn pictures of 640 by 480 are bright (demo-data/README.md). */
    private static final MaskArea AREA = new MaskArea(260, 180, 120, 120);

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-blind");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        new HideAreas(workspace).replace("C-1", List.of(AREA));
        new Assignments(workspace, Clock.systemUTC())
                .give(List.of("C-1"), "A2", new Assignments.Terms(Purpose.FIRST, Set.of(Hidden.TRAINEE), null));
        stage = FxToolkit.registerPrimaryStage();
    }

    private void openAs(Workspace seen) throws Exception {
        robot.interact(() -> {
            context = new AppContext(seen, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
            context.findPlayer();
        });
        RealWindow.untilCasesAreListed(robot, 30);
        robot.clickOn(".table-row-cell").type(KeyCode.ENTER);
        RealWindow.until(60, () -> context.desk().shownProperty().get() != null);
    }

    @AfterEach
    void close() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    /** The brightest point within the area, 0 to 1, as the screen shows it. */
    private double brightest() {
        double[] most = new double[1];
        robot.interact(() -> {
            Node picture = robot.lookup("#picture").query();
            Scene scene = picture.getScene();
            Image image = scene.snapshot(null);
            var view = picture.localToScene(((org.sideport.app.picture.PictureView) picture)
                    .areaProperty()
                    .get());
            double scale = view.getHeight() / 480;
            for (int y = AREA.y() + 4; y < AREA.y() + AREA.height() - 4; y += 4) {
                for (int x = AREA.x() + 4; x < AREA.x() + AREA.width() - 4; x += 4) {
                    Color color = image.getPixelReader()
                            .getColor((int) (view.getMinX() + x * scale), (int) (view.getMinY() + y * scale));
                    most[0] = Math.max(most[0], color.getBrightness());
                }
            }
        });
        return most[0];
    }

    @Test
    void whoMarksBlindSeesBlackWhetherItStandsOrPlays() throws Exception {
        openAs(workspace.as(new Caller.Person("A2", Set.of(Role.ASSESSOR))));
        assertThat(brightest()).as("standing").isZero();
        TimelineView lane = robot.lookup("#timeline-lane").queryAs(TimelineView.class);
        assertThat(brightest(context.desk().shownProperty().get().picture()))
                .as("pixels of the frame")
                .isZero();
        robot.clickOn(lane).type(KeyCode.SPACE);
        RealWindow.until(60, () -> context.desk().liveProperty().get());
        assertThat(brightest()).as("playing").isZero();
        robot.type(KeyCode.SPACE);
        RealWindow.until(60, () -> !context.desk().liveProperty().get());
        assertThat(brightest()).as("standing again").isZero();
    }

    @Test
    void whoMaySeeAllSeesThePicture() throws Exception {
        openAs(workspace);
        assertThat(brightest()).isGreaterThan(0.3);
        try (RecordingFrames frames =
                RecordingFrames.open(List.of(DemoRecordings.file(DemoRecordings.D001[0])), Progress.NONE)) {
            assertThat(brightest(frames.picture(frames.frame(0)))).isGreaterThan(80);
        }
    }

    /** The brightest blue, green or red within the area, 0 to 255. */
    private static int brightest(FramePicture picture) {
        int most = 0;
        for (int y = AREA.y(); y < AREA.y() + AREA.height(); y++) {
            for (int x = AREA.x(); x < AREA.x() + AREA.width(); x++) {
                for (int colour = 0; colour < 3; colour++) {
                    most = Math.max(most, picture.bgra()[(y * picture.width() + x) * 4 + colour] & 0xff);
                }
            }
        }
        return most;
    }
}
