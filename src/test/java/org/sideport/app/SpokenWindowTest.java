package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Labeled;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.frame.MainWindow;
import org.sideport.app.voice.MadeSound;
import org.sideport.app.voice.Microphone;
import org.sideport.app.voice.Speakers;
import org.sideport.app.voice.VoiceInput;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** A comment is spoken and heard in a real window, with a made sound; needs no sound device. D-001: 25 frames a second. */
@Timeout(180)
class SpokenWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private AppContext context;
    private Stage stage;
    private Workspace workspace;

    @BeforeEach
    void makeFolder() throws Exception {
        folder = Files.createTempDirectory("sideport-spoken");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        stage = FxToolkit.registerPrimaryStage();
    }

    private void open(VoiceInput input) throws Exception {
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC(), input, new Speakers());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
        });
        RealWindow.untilCasesAreListed(robot, 15);
        robot.clickOn(".table-row-cell");
        robot.type(KeyCode.ENTER);
        until(() -> text("#frame-number").startsWith("frame 0 of"));
        RealWindow.enterAnnotator(robot, "A1");
    }

    @AfterEach
    void closeWindow() throws Exception {
        robot.release(new KeyCode[0]);
        RealWindow.close(robot, context, folder);
    }

    private void until(Callable<Boolean> condition) throws Exception {
        try {
            WaitForAsyncUtils.waitFor(15, TimeUnit.SECONDS, condition);
        } catch (java.util.concurrent.TimeoutException late) {
            picture("spoken-failed-" + System.nanoTime());
            throw late;
        }
        WaitForAsyncUtils.waitForFxEvents();
    }

    private String text(String id) {
        return robot.lookup(id).<Labeled>queryAs(Labeled.class).getText();
    }

    private boolean isThere(String id) {
        return robot.lookup(id).tryQuery().isPresent();
    }

    private void goTo(long frame) throws Exception {
        robot.interact(() -> context.desk().scrub(MediaTime.ofMicros(frame * 40_000)));
        until(() -> text("#frame-number").startsWith("frame " + frame + " of"));
    }

    private Point2D at(double x, double y) {
        Node layer = robot.lookup("#drawing-layer").query();
        Bounds area = layer.localToScreen(layer.getLayoutBounds());
        return new Point2D(area.getMinX() + x * area.getWidth(), area.getMinY() + y * area.getHeight());
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

    private void hold() {
        robot.press(KeyCode.F6);
    }

    private void letGo() {
        robot.release(KeyCode.F6);
    }

    @Test
    void aCommentIsSpokenOverAStandingAndARunningPictureDrawnOnAndHeardAgain() throws Exception {
        open(new MadeSound(System::nanoTime));
        goTo(711);
        hold();
        letGo();
        until(() -> robot.lookup("#notice").query().isVisible());
        picture("spoken-first");
        assertThat(isThere("#recording-sign"))
                .as("first it is said what a voice tells")
                .isFalse();

        hold();
        until(() -> isThere("#recording-sign"));
        WaitForAsyncUtils.sleep(300, TimeUnit.MILLISECONDS);
        robot.clickOn("#live-arrow");
        robot.drag(at(0.3, 0.3), MouseButton.PRIMARY);
        robot.moveTo(at(0.4, 0.4));
        robot.dropTo(at(0.5, 0.5));
        until(() -> isThere("#drawing-layer .mark-line"));
        picture("spoken-recording");
        robot.interact(() -> {
            context.desk().setRate(0.5);
            context.desk().play();
        });
        until(() -> context.desk().timeProperty().get().micros() > 711 * 40_000 + 400_000);
        robot.interact(() -> context.desk().pause());
        WaitForAsyncUtils.sleep(500, TimeUnit.MILLISECONDS);
        letGo();
        until(() -> stored().size() == 1);
        assertThat(isThere("#recording-sign")).isFalse();

        Comment comment = stored().get(0).comment();
        Voice voice = Objects.requireNonNull(comment.voice());
        assertThat(comment.from()).isEqualTo(MediaTime.ofMicros(711 * 40_000));
        assertThat(voice.seen().seenAt(0)).isEqualTo(new SeenTrack.Seen(comment.from(), 0, List.of()));
        assertThat(voice.seen().pieces(voice.lengthUs()))
                .extracting(SeenTrack.Piece::rate)
                .contains(0.0, 0.5);
        long drawn = voice.seen().events().stream()
                .filter(event -> event instanceof org.sideport.model.SeenEvent.Drawn)
                .findFirst()
                .orElseThrow()
                .atUs();

        // heard from somewhere else on the recording
        goTo(20);
        until(() -> isThere("#hear-28440000"));
        robot.clickOn("#hear-28440000");
        until(() -> isThere("#hearing-sign"));
        until(() -> text("#frame-number").startsWith("frame 711 of"));
        until(() -> isThere("#drawing-layer .mark-line"));
        picture("spoken-hearing");
        assertThat(drawn).isPositive();
        until(() -> !isThere("#hearing-sign"));
        picture("spoken-after");
        assertThat(context.desk().rateProperty().get()).as("as before").isEqualTo(0.5);

        // any key ends it
        robot.clickOn("#hear-28440000");
        until(() -> isThere("#hearing-sign"));
        robot.type(KeyCode.X);
        until(() -> !isThere("#hearing-sign"));

        robot.interact(() -> context.theme().lightProperty().set(true));
        WaitForAsyncUtils.waitForFxEvents();
        picture("spoken-light");
        robot.interact(() -> context.theme().lightProperty().set(false));
    }

    @Test
    void whatIsThrownAwayByEscapeComesBackByUndo() throws Exception {
        open(new MadeSound(System::nanoTime));
        robot.interact(() -> context.settings().put("voice_told", true));
        hold();
        letGo();
        until(() -> isThere("#recording-sign"));
        WaitForAsyncUtils.sleep(700, TimeUnit.MILLISECONDS);
        robot.type(KeyCode.ESCAPE);
        until(() -> !isThere("#recording-sign"));
        until(() -> robot.lookup("#notice").query().isVisible());
        assertThat(stored()).isEmpty();
        robot.press(KeyCode.CONTROL).type(KeyCode.Z).release(KeyCode.CONTROL);
        until(() -> stored().size() == 1);
        robot.press(KeyCode.CONTROL).type(KeyCode.Z).release(KeyCode.CONTROL);
        until(() -> stored().isEmpty());
    }

    @Test
    void withoutAMicrophoneThereIsAClearMessage() throws Exception {
        open(() -> {
            throw new VoiceInput.Unavailable(VoiceInput.Unavailable.Reason.NO_MICROPHONE);
        });
        robot.interact(() -> context.settings().put("voice_told", true));
        robot.clickOn("#tab-comments");
        until(() -> robot.lookup("#speak").match(Node::isVisible).tryQuery().isPresent());
        WaitForAsyncUtils.sleep(300, TimeUnit.MILLISECONDS);
        robot.clickOn("#speak");
        until(() -> robot.lookup("#notice").query().isVisible());
        picture("spoken-no-microphone");
        assertThat(isThere("#recording-sign")).isFalse();
        assertThat(stored()).isEmpty();
    }

    /** Whether this computer has one or not, asking for it ends in words or in a microphone. */
    @Test
    void theSystemsOwnMicrophoneIsOpenedOrRefusedInWords() throws Exception {
        open(new Microphone());
        try (VoiceInput.Line line = new Microphone().open()) {
            assertThat(line.read(new short[960])).isPositive();
        } catch (VoiceInput.Unavailable none) {
            assertThat(none.reason()).isNotNull();
        }
    }
}
