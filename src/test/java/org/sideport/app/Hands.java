package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.Callable;
import javafx.application.Platform;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Labeled;
import javafx.scene.input.KeyCode;
import javafx.scene.robot.Robot;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.picture.ShownFrame;
import org.sideport.demo.FrameStamp;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.player.DemoRecordings;
import org.sideport.timing.TagCsvReader;
import org.sideport.timing.TagTable;
import org.testfx.api.FxRobot;
import org.testfx.util.WaitForAsyncUtils;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What a person does with keys and mouse in a real window on recordings of 25 frames a second. */
public final class Hands {

    public static final long FRAME = 40_000;

    private final FxRobot robot;
    private final AppContext context;

    public Hands(FxRobot robot, AppContext context) {
        this.robot = robot;
        this.context = context;
    }

    public static void until(Callable<Boolean> condition) throws Exception {
        RealWindow.until(60, condition);
    }

    public String text(String id) {
        return robot.lookup(id).<Labeled>queryAs(Labeled.class).getText();
    }

    public void control(KeyCode key) {
        robot.press(KeyCode.CONTROL).type(key).release(KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
    }

    public void redo() {
        robot.press(KeyCode.CONTROL, KeyCode.SHIFT).type(KeyCode.Z).release(KeyCode.SHIFT, KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
    }

    public void enter(String field, String words) {
        robot.clickOn(field);
        robot.write(words);
        robot.type(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
    }

    public void goTo(long frame) throws Exception {
        robot.interact(() -> context.desk().scrub(MediaTime.ofMicros(frame * FRAME)));
        until(() -> text("#frame-number").startsWith("frame " + frame + " of"));
    }

    public MediaTime shown() {
        return context.desk().timeProperty().get();
    }

    // ---- the truth, as the generator drew it

    /** @param code of a case in {@code demo-data/truth-phases.csv} */
    public static Tagging truth(String code) {
        return new TagCsvReader(null)
                .read(DemoRecordings.file("truth-phases.csv")).entries().stream()
                        .filter(entry -> entry.caseCode().equals(code))
                        .map(TagTable.Entry::tagging)
                        .findFirst()
                        .orElseThrow();
    }

    /** The further truth of a recording: {@code demo-data/CODE-truth.json}. */
    public static JsonNode truthFile(String code) throws Exception {
        return JsonMapper.builder().build().readTree(Files.readString(DemoRecordings.file(code + "-truth.json")));
    }

    /** The number written in the picture that a desk shows; -1 without one. */
    public static int stamp(PictureDesk desk) {
        ShownFrame shown = desk.shownProperty().get();
        if (shown == null) {
            return -1;
        }
        int width = shown.picture().width();
        int height = shown.picture().height();
        int[] argb = new int[width * height];
        ByteBuffer.wrap(shown.picture().bgra())
                .order(ByteOrder.LITTLE_ENDIAN)
                .asIntBuffer()
                .get(argb);
        return FrameStamp.read(argb, width, height).orElse(-1);
    }

    // ---- tagging

    private record Press(MediaTime truth, long delayUs, String key) {}

    /** What a person would press: every start, and every end that no start follows at once, late by 150 to 650 ms. */
    private static List<Press> presses(Procedure procedure, Tagging truth, double rate) {
        Random person = new Random(20261125);
        List<Press> presses = new ArrayList<>();
        for (PhaseSpan span : truth.spans()) {
            String key = procedure.find(span.phase()).orElseThrow().key();
            presses.add(new Press(span.start(), delay(person, rate), key));
            MediaTime end = span.end();
            if (truth.spans().stream().noneMatch(next -> next.start().equals(end))) {
                presses.add(new Press(end, delay(person, rate), "0"));
            }
        }
        return presses;
    }

    private static long delay(Random person, double rate) {
        return Math.round((150 + person.nextInt(500)) * 1000 * rate);
    }

    private static KeyCode code(String key) {
        return key.chars().allMatch(Character::isDigit)
                ? KeyCode.getKeyCode(key)
                : KeyCode.getKeyCode(key.toUpperCase(Locale.ROOT));
    }

    /** Plays from where it stands at a rate and presses each key some reaction after its moment; then stops. */
    public void tagLive(Tagging truth, double rate) throws Exception {
        PictureDesk desk = context.desk();
        Procedure procedure = context.current().opened().procedure();
        robot.interact(() -> desk.setRate(rate));
        robot.type(KeyCode.SPACE);
        until(() -> desk.playingProperty().get());
        for (Press press : presses(procedure, truth, rate)) {
            long due = press.truth().micros() + press.delayUs();
            long end = System.nanoTime() + 90_000_000_000L;
            while (shown().micros() < due) {
                assertThat(System.nanoTime()).as("it plays on").isLessThan(end);
                Thread.sleep(2);
            }
            pressAtOnce(code(press.key()));
        }
        WaitForAsyncUtils.waitForFxEvents();
        // it may have come to the end of the recording meanwhile, where Space would begin anew
        boolean[] plays = new boolean[1];
        robot.interact(() -> plays[0] = desk.playingProperty().get());
        if (plays[0]) {
            robot.type(KeyCode.SPACE);
        }
        until(() -> !desk.playingProperty().get());
    }

    /** Without waiting for what the robot of the tests waits for around each key: while video plays, that takes seconds. */
    private static void pressAtOnce(KeyCode key) {
        Platform.runLater(() -> new Robot().keyType(key));
    }

    // ---- refining

    /** Moves the boundary that is being refined by arrow keys, as a person would: in tens as long as it is far. */
    public void moveBoundaryTo(MediaTime aim) throws Exception {
        until(() -> context.desk().shownProperty().get().frame().start().equals(shown()));
        long frames = (aim.micros() - refinedAt().micros()) / FRAME;
        while (Math.abs(frames) > 0) {
            KeyCode arrow = frames > 0 ? KeyCode.RIGHT : KeyCode.LEFT;
            if (Math.abs(frames) >= 6) {
                robot.press(KeyCode.SHIFT).type(arrow).release(KeyCode.SHIFT);
            } else {
                robot.type(arrow);
            }
            WaitForAsyncUtils.waitForFxEvents();
            long left = (aim.micros() - refinedAt().micros()) / FRAME;
            assertThat(left).as("it moves").isNotEqualTo(frames);
            frames = left;
        }
        assertThat(refinedAt()).isEqualTo(aim);
    }

    private MediaTime refinedAt() {
        return MediaTime.parse(text("#refine-time"));
    }

    // ---- on the picture

    /** Where a pixel of a 640 × 480 picture lies on the screen. */
    public Point2D at(double x, double y) {
        Node layer = robot.lookup("#drawing-layer").query();
        Bounds area = layer.localToScreen(layer.getLayoutBounds());
        return new Point2D(area.getMinX() + x / 640 * area.getWidth(), area.getMinY() + y / 480 * area.getHeight());
    }

    public void clickAround(double x, double y, double diameterX, double diameterY, int n) {
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * (i + 0.3) / n;
            robot.clickOn(at(x + diameterX / 2 * Math.cos(angle), y + diameterY / 2 * Math.sin(angle)));
        }
    }
}
