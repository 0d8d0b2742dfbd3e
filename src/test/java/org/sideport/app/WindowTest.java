package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import javafx.geometry.Point2D;
import javafx.scene.control.Labeled;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.frame.MainWindow;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.Vocabularies;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The whole program in a real window, with mouse and keyboard, on a real store and D-001 (25 frames a second). */
@Timeout(180)
class WindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private MainWindow window;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-window");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
        });
        RealWindow.untilCasesAreListed(robot, 30);
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

    private Tagging stored() {
        return new TagRecording(workspace).open("C-1", "A1").tagging();
    }

    private void type(String id, String words) {
        robot.clickOn(id);
        robot.write(words);
        robot.type(KeyCode.ENTER);
    }

    private void openReview() throws Exception {
        robot.clickOn(".table-row-cell");
        robot.type(KeyCode.ENTER);
        until(() -> text("#frame-number").startsWith("frame 0 of"));
        RealWindow.enterAnnotator(robot, "A1");
    }

    private void stepOn(int frames) {
        for (int i = 0; i < frames; i++) {
            robot.type(KeyCode.RIGHT);
        }
    }

    private static MediaTime frame(long number) {
        return MediaTime.ofMicros(number * 40_000);
    }

    /** Where a time lies on the screen, at the height of the phase blocks. */
    private Point2D onLane(MediaTime time) {
        TimelineView lane = robot.lookup("#timeline-lane").queryAs(TimelineView.class);
        return lane.localToScreen(lane.xOf(time.micros()), lane.yOf("phases"));
    }

    private static List<Lane.Span> blocks(TimelineView lane, String id) {
        return lane.modelProperty().get().lanes().stream()
                .filter(each -> each.id().equals(id))
                .flatMap(each -> ((Lane.Spans) each).spans().stream())
                .toList();
    }

    @Test
    void aCaseIsOpenedSteppedTaggedDraggedAndUndone() throws Exception {
        openReview();

        stepOn(3);
        until(() -> text("#frame-number").startsWith("frame 3 of"));
        assertThat(text("#time")).isEqualTo("0:00:00.120");

        robot.type(KeyCode.DIGIT1);
        until(() -> stored().spans().size() == 1);
        assertThat(stored().spans().get(0).start()).isEqualTo(frame(3));

        // twenty seconds on, the next phase
        robot.clickOn(onLane(MediaTime.ofSeconds(20)));
        until(() -> !text("#frame-number").startsWith("frame 3 of"));
        MediaTime clicked = context.desk().timeProperty().get();
        assertThat(clicked.seconds()).isBetween(19.8, 20.2);
        robot.type(KeyCode.T);
        until(() -> stored().spans().size() == 2);
        assertThat(stored().spans().get(1))
                .extracting(PhaseSpan::phase, PhaseSpan::start)
                .containsExactly("rhexis", clicked);
        TimelineView lane = robot.lookup("#timeline-lane").queryAs(TimelineView.class);
        until(() -> blocks(lane, "phases").size() == 2 && blocks(lane, "steps").size() == 1);

        // drag their boundary ten seconds back
        robot.drag(onLane(clicked), MouseButton.PRIMARY);
        robot.moveTo(onLane(MediaTime.ofSeconds(15)));
        robot.dropTo(onLane(MediaTime.ofSeconds(10)));
        until(() -> !stored().spans().get(1).start().equals(clicked));
        MediaTime dragged = stored().spans().get(1).start();
        assertThat(dragged.seconds()).isBetween(9.8, 10.2);
        assertThat(dragged.micros() % 40_000).as("on a frame").isZero();
        assertThat(stored().spans().get(0).end()).isEqualTo(dragged);
        until(() -> context.desk().timeProperty().get().equals(dragged));

        robot.press(KeyCode.CONTROL).type(KeyCode.Z).release(KeyCode.CONTROL);
        until(() -> stored().spans().get(1).start().equals(clicked));
    }

    @Test
    void typingACodeTagsNothing() throws Exception {
        openReview();
        robot.clickOn("#annotator");
        robot.eraseText(5);
        robot.write("t1");
        robot.type(KeyCode.ENTER);
        until(() -> context.settings().get("annotator", "").equals("t1"));

        assertThat(new TagRecording(workspace).open("C-1", "t1").tagging().spans())
                .isEmpty();
        assertThat(stored().spans()).isEmpty();
        robot.type(KeyCode.DIGIT2);
        until(() ->
                new TagRecording(workspace).open("C-1", "t1").tagging().spans().size() == 1);
    }

    @Test
    void anEventIsWrittenWithMouseAndKeys() throws Exception {
        openReview();
        stepOn(2);
        until(() -> text("#frame-number").startsWith("frame 2 of"));
        robot.type(KeyCode.M);
        until(() -> robot.lookup("#event-kinds").tryQuery().isPresent());
        robot.clickOn("Iris prolapse");
        robot.clickOn("#severity-minor");
        robot.clickOn("#event-note");
        robot.write("side port");
        robot.clickOn("#event-keep");
        until(() -> !stored().events().isEmpty());

        assertThat(stored().events().get(0).at()).isEqualTo(frame(2));
        assertThat(stored().events().get(0).kind()).isEqualTo("iris_prolapse");
        assertThat(stored().events().get(0).note()).isEqualTo("side port");
    }

    @Test
    void everyItemIsMarkedByKeysAndTheRatingSigned() throws Exception {
        robot.clickOn(".table-row-cell");
        until(() -> robot.lookup("#mark").tryQuery().isPresent());
        robot.clickOn("#mark");
        until(() -> robot.lookup(".item-card").tryQuery().isPresent());
        type("#assessor", "A1");
        until(() -> text("#score-share").equals(Formats.UNKNOWN)
                && text("#score-missing").startsWith("Missing"));

        Rubric rubric = new Vocabularies(workspace).rubrics("phaco").get(0);
        for (Rubric.Item item : rubric.items()) {
            assertThat(robot.lookup("#sign").query().isDisabled()).isTrue();
            robot.type(KeyCode.getKeyCode(Integer.toString(rubric.maximumOf(item))));
            robot.type(KeyCode.TAB);
        }
        until(() -> !robot.lookup("#sign").query().isDisabled());
        assertThat(text("#score-share")).isEqualTo("100 %");
        assertThat(new MarkCase(workspace).open("C-1", "A1", false, rubric).state())
                .isEqualTo(RatingState.DRAFT);

        robot.clickOn("#sign");
        until(() -> robot.lookup("#sign-yes").tryQuery().isPresent());
        robot.clickOn("#sign-yes");
        until(() -> new MarkCase(workspace).open("C-1", "A1", false, rubric).state() == RatingState.SIGNED);
        until(() -> text("#score-state").equals("Signed by A1"));
    }

    /** This window was not told of LibVLC, so it plays as on a machine without. */
    @Test
    void withoutLibVlcItPlaysFrameByFrameAndStopsOnAnExactFrame() throws Exception {
        openReview();
        robot.type(KeyCode.SPACE);
        until(() -> context.desk().shownProperty().get().frame().number() > 20);
        assertThat(context.desk().playingProperty().get()).isTrue();
        assertThat(robot.lookup("#mute").query().isDisabled()).isTrue();

        robot.type(KeyCode.SPACE);
        until(() -> text("#frame-number").startsWith("frame "));
        long number = context.desk().shownProperty().get().frame().number();
        assertThat(context.desk().timeProperty().get()).isEqualTo(frame(number));
        assertThat(text("#time")).isEqualTo(Formats.clock(frame(number)));
    }
}
