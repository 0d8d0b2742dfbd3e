package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.Labeled;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.assertj.core.groups.Tuple;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.Rubric;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.Vocabularies;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;
import tools.jackson.databind.JsonNode;

/** Comments, drawings and measuring in a real window, on a real store and D-001 (640 × 480, 25 frames a second). */
@Timeout(180)
class TalkWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private Hands hands;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-talk");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        stage = FxToolkit.registerPrimaryStage();
        showWindow(1280, 800);
    }

    private void showWindow(double width, double height) throws Exception {
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, width, height);
        });
        hands = new Hands(robot, context);
        RealWindow.untilCasesAreListed(robot, 30);
        robot.clickOn(".table-row-cell");
        robot.type(KeyCode.ENTER);
        until(() -> text("#frame-number").startsWith("frame 0 of"));
    }

    @AfterEach
    void closeWindow() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        RealWindow.until(30, condition);
    }

    private String text(String id) {
        return robot.lookup(id).<Labeled>queryAs(Labeled.class).getText();
    }

    private List<CommentThread> stored() {
        return new CommentCase(workspace).of("C-1");
    }

    private void picture(String name) throws IOException {
        RealWindow.picture(name, () -> {
            Image[] shot = new Image[1];
            robot.interact(() -> shot[0] = stage.getScene().snapshot(null));
            return shot[0];
        });
    }

    @Test
    void anArrowIsDrawnKeptAndComesBackAtItsPlaceInAWindowOfAnotherSize() throws Exception {
        RealWindow.enterAnnotator(robot, "A1");
        hands.goTo(711);
        robot.press(KeyCode.SHIFT).type(KeyCode.M).release(KeyCode.SHIFT);
        until(() -> robot.lookup("#comment-writer").query().isVisible());
        robot.clickOn("#draw-arrow");
        robot.drag(hands.at(200, 120), MouseButton.PRIMARY);
        robot.moveTo(hands.at(260, 180));
        robot.dropTo(hands.at(300, 220));
        until(() -> stored().size() == 1);
        DrawnMark arrow = stored().get(0).comment().drawing().get(0);
        assertThat(arrow.kind()).isEqualTo(DrawnMark.Kind.ARROW);
        // a pixel of the screen is less than one of the picture here
        assertThat(arrow.points().get(0).x() * 640).isCloseTo(200, within(2.0));
        assertThat(arrow.points().get(0).y() * 480).isCloseTo(120, within(2.0));
        assertThat(arrow.points().get(1).x() * 640).isCloseTo(300, within(2.0));
        assertThat(arrow.points().get(1).y() * 480).isCloseTo(220, within(2.0));
        assertThat(stored().get(0).comment().from()).isEqualTo(MediaTime.ofMicros(711 * 40_000));

        // what is being drawn shows on its own frame only
        assertThat(robot.lookup("#drawing-layer .mark-line").tryQuery()).isPresent();
        hands.goTo(712);
        until(() -> robot.lookup("#drawing-layer .mark-line").tryQuery().isEmpty());
        hands.goTo(711);
        until(() -> robot.lookup("#drawing-layer .mark-line").tryQuery().isPresent());

        robot.clickOn("#tone-praise");
        robot.clickOn("#comment-text");
        robot.write("a round rhexis");
        picture("comment-writing");
        robot.clickOn("#comment-done");
        until(() -> stored().get(0).comment().text().equals("a round rhexis"));
        picture("comment-dark");
        robot.interact(() -> context.theme().lightProperty().set(true));
        WaitForAsyncUtils.waitForFxEvents();
        picture("comment-light");
        robot.interact(() -> context.theme().lightProperty().set(false));

        // the program anew, in a smaller window of another shape
        robot.interact(() -> {
            stage.hide();
            context.close();
        });
        workspace = Workspace.open(folder);
        showWindow(1000, 760);
        robot.clickOn("#tab-comments");
        until(() -> robot.lookup("#comment-time-28440000").tryQuery().isPresent());
        robot.clickOn("#comment-time-28440000");
        until(() -> robot.lookup("#drawing-layer .mark-line").tryQuery().isPresent());
        Node line = robot.lookup("#drawing-layer .mark-line").query();
        Bounds seen = line.localToScreen(line.getLayoutBounds());
        // tail and tip are opposite corners of the box; half a stroke of 2 to 3 pixels stands out
        assertThat(seen.getMinX()).isCloseTo(hands.at(200, 120).getX(), within(4.0));
        assertThat(seen.getMinY()).isCloseTo(hands.at(200, 120).getY(), within(4.0));
        assertThat(seen.getMaxX()).isCloseTo(hands.at(300, 220).getX(), within(4.0));
        assertThat(seen.getMaxY()).isCloseTo(hands.at(300, 220).getY(), within(4.0));
        picture("comment-small");

        // not on another frame
        robot.type(KeyCode.RIGHT);
        until(() -> text("#frame-number").startsWith("frame 712 of"));
        assertThat(robot.lookup("#drawing-layer .mark-line").tryQuery()).isEmpty();
    }

    @Test
    void theTraineeSeesWhatIsNewAndAnswersWithTheKeyboard() throws Exception {
        CommentSession assessor = new CommentCase(workspace).open("C-1", "A1");
        Rubric rubric = new Vocabularies(workspace).rubrics("phaco").get(0);
        assessor.save(new Comment(
                CommentSession.newId(),
                "A1",
                CommentTone.IMPROVE,
                "Hold the flap nearer to where it tears: it ran out here, and the rescue cost you a minute.",
                new ItemLink(rubric.id(), rubric.items().get(3).id()),
                MediaTime.ofMicros(500 * 40_000),
                MediaTime.ofMicros(620 * 40_000),
                List.of(DrawnMark.words(MarkColour.SKY_BLUE, new PicturePoint(0.3, 0.4), "runs out"))));
        Comment question = new Comment(
                CommentSession.newId(),
                "A1",
                CommentTone.QUESTION,
                "Why did you stop here?",
                null,
                MediaTime.ofMicros(900 * 40_000),
                null,
                List.of());
        assessor.save(question);
        robot.clickOn("#annotator");
        robot.write("T02");
        robot.type(KeyCode.ENTER);
        Tab tab = robot.lookup(".side-tabs").queryAs(TabPane.class).getTabs().stream()
                .filter(t -> "tab-comments".equals(t.getId()))
                .findFirst()
                .orElseThrow();
        until(() -> tab.getText().equals("Comments (2)"));
        robot.clickOn("#tab-comments");
        picture("comment-unread");
        robot.clickOn("#comment-time-20000000");
        until(() -> tab.getText().equals("Comments (1)"));
        until(() -> robot.lookup("#drawing-layer .mark-words").tryQuery().isPresent());
        robot.clickOn("#filter-unread");
        robot.clickOn("#answer-36000000");
        robot.write("The view had gone");
        robot.type(KeyCode.ENTER);
        until(() -> tab.getText().equals("Comments"));
        assertThat(stored().get(1).replies())
                .extracting(CommentReply::author, CommentReply::text)
                .containsExactly(Tuple.tuple("T02", "The view had gone"));
        robot.clickOn("#filter-unread");
        picture("comment-answered");

        // undo belongs to comments while their tab is open
        robot.clickOn("#tab-comments");
        robot.press(KeyCode.CONTROL).type(KeyCode.Z).release(KeyCode.CONTROL);
        until(() -> stored().get(1).replies().isEmpty());
    }

    @Test
    void aRhexisIsMeasuredByClicksOnItsTrueOutline() throws Exception {
        JsonNode truth = Hands.truthFile("D-001");
        JsonNode still = truth.get("rhexis_still");
        double limbusMm = truth.get("limbus_diameter_mm").asDouble();
        double limbusPx = limbusMm / still.get("mm_per_px_x").asDouble();
        RealWindow.enterAnnotator(robot, "A1");
        hands.goTo(still.get("frame").asInt());
        robot.clickOn("#tab-measure");
        robot.clickOn("#measure-rhexis");
        WaitForAsyncUtils.waitForFxEvents();
        picture("measure-start");
        until(() -> robot.lookup("#notice").query().isVisible());
        assertThat(robot.lookup("#measure-marking").query().isVisible()).isFalse();

        robot.clickOn("#own-width");
        robot.write(String.valueOf(limbusMm));
        robot.type(KeyCode.ENTER);
        robot.clickOn("#measure-limbus");
        hands.clickAround(
                still.get("limbus_x").asDouble(), still.get("limbus_y").asDouble(), limbusPx, limbusPx, 10);
        robot.type(KeyCode.ENTER);
        until(() -> new MeasureCase(workspace).of("C-1").size() == 1);
        robot.clickOn("#measure-rhexis");
        hands.clickAround(
                still.get("centre_x").asDouble(),
                still.get("centre_y").asDouble(),
                still.get("diameter_px_x").asDouble(),
                still.get("diameter_px_y").asDouble(),
                10);
        picture("measure-marking");
        robot.type(KeyCode.ENTER);
        until(() -> new MeasureCase(workspace).of("C-1").size() == 2);
        Measurement rhexis = new MeasureCase(workspace).of("C-1").get(1);
        assertThat(rhexis.shape()).isEqualTo(MeasuredShape.RHEXIS);
        var diameter = rhexis.value("apparent_diameter").orElseThrow();
        double true_ = truth.get("rhexis_diameter_mm").asDouble();
        assertThat(diameter.value()).isCloseTo(true_, within(0.1));
        assertThat(diameter.lower()).isLessThan(true_);
        assertThat(diameter.upper()).isGreaterThan(true_);
        until(() -> robot.lookup("#rhexis-apparent_diameter").tryQuery().isPresent());
        assertThat(text("#rhexis-apparent_diameter"))
                .startsWith("5.")
                .contains("±")
                .endsWith("mm");
        robot.clickOn("#central-zone");
        assertThat(robot.lookup("#measure-layer .mark-dashed").queryAll())
                .as("3.0 and 3.5 mm")
                .hasSize(2);
        picture("measure-dark");
        robot.interact(() -> context.theme().lightProperty().set(true));
        WaitForAsyncUtils.waitForFxEvents();
        picture("measure-light");

        // the next frame has no scale of its own
        robot.interact(() -> context.desk().step(1));
        until(() -> text("#frame-number").startsWith("frame 712 of"));
        robot.clickOn("#measure-distance");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#measure-marking").query().isVisible()).isFalse();
        assertThat(robot.lookup("#measure-layer .mark-line").tryQuery())
                .as("neither outlines nor the zone of another frame")
                .isEmpty();
        picture("measure-refused");
    }
}
