package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.geometry.Rectangle2D;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.image.Image;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.StackPane;
import javafx.scene.paint.Color;
import javafx.scene.shape.Shape;
import javafx.stage.Stage;
import org.sideport.app.AppContext;
import org.sideport.app.Hands;
import org.sideport.app.PhaseColours;
import org.sideport.app.RealWindow;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.Comment;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.player.DemoRecordings;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.TagSession;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;
import tools.jackson.databind.JsonNode;

/**
 * A consultant's first hour by keys and mouse in the real program on an empty folder, as a process that a test may kill at
 * the end: import, live tagging, refining, a comment with a drawing, a measured rhexis, undoing and redoing all of it, and
 * two cases side by side. What is expected is in {@code demo-data}, as the generator drew it. A failure ends the process.
 */
public final class WholeJob {

    static final String HALF = "hold the flap nea";

    private final FxRobot robot = new FxRobot();
    private final Path folder;
    private Stage stage;
    private Workspace workspace;
    private AppContext context;
    private Hands hands;

    private WholeJob(Path folder) {
        this.folder = folder;
    }

    public static void main(String[] args) {
        WholeJob job = new WholeJob(Path.of(args[0]));
        try {
            job.work();
        } catch (Throwable failure) {
            failure.printStackTrace();
            job.tell();
            System.exit(1);
        }
    }

    private void work() throws Exception {
        step("open");
        stage = FxToolkit.registerPrimaryStage();
        workspace = Workspace.create(folder);
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
            window.begin();
            context.findPlayer();
        });
        hands = new Hands(robot, context);
        beginAsAssessor();
        step("import");
        takeIn("D-001", DemoRecordings.D001);
        takeIn("D-002", DemoRecordings.D002);
        step("tag live");
        review("D-001");
        hands.enter("#annotator", "A1");
        Hands.until(() -> robot.lookup("#running-phase").query().isVisible());
        Hands.until(() -> context.playerText() != null && !context.playerText().isEmpty());
        Tagging truth = Hands.truth("D-001");
        tagLive(truth);
        step("refine");
        refine(truth);
        step("comment");
        comment();
        step("measure");
        measure();
        step("undo and redo");
        undoAndRedoAll(truth);
        step("compare");
        tagSecond();
        compare();
        step("half a sentence");
        beHalfway();
        step("done");
        Files.createFile(folder.resolve("ready"));
        Thread.sleep(Long.MAX_VALUE);
    }

    /** For whoever reads of a failure. */
    private void tell() {
        try {
            if (context != null) {
                System.out.println(context.notices().all());
                session("D-001").tagging().spans().forEach(System.out::println);
            }
            picture("failed");
        } catch (Exception unknown) {
            unknown.printStackTrace();
        }
    }

    private static void step(String what) {
        System.out.println("-- " + what);
    }

    private void beginAsAssessor() throws Exception {
        Hands.until(() -> robot.lookup("#first-steps").tryQuery().isPresent());
        robot.clickOn("#role-ASSESSOR");
        picture("1-first");
        robot.type(KeyCode.ESCAPE);
        Hands.until(() -> robot.lookup("#first-steps").tryQuery().isEmpty());
        assertThat(robot.lookup(".table-row-cell")
                        .match(row ->
                                row.isVisible() && row instanceof javafx.scene.control.TableRow<?> r && !r.isEmpty())
                        .tryQuery())
                .as("an empty workspace")
                .isEmpty();
    }

    /** Drops the files on the window and fills in the dialog that opens. */
    private void takeIn(String code, String... files) throws Exception {
        Stage[] source = new Stage[1];
        List<File> dropped =
                Arrays.stream(files).map(f -> DemoRecordings.file(f).toFile()).toList();
        robot.interact(() -> {
            StackPane pane = new StackPane(new Label(code));
            pane.setOnDragDetected(event -> {
                ClipboardContent content = new ClipboardContent();
                content.putFiles(dropped);
                pane.startDragAndDrop(TransferMode.COPY).setContent(content);
                event.consume();
            });
            source[0] = new Stage();
            source[0].setX(1400);
            source[0].setY(100);
            source[0].setScene(new Scene(pane, 200, 200));
            source[0].show();
        });
        WaitForAsyncUtils.waitForFxEvents();
        robot.moveTo(new Point2D(1500, 200)).press(MouseButton.PRIMARY);
        for (int x = 1490; x >= 500; x -= 15) {
            robot.moveTo(new Point2D(x, 400));
        }
        robot.release(MouseButton.PRIMARY);
        Hands.until(() -> robot.lookup("#new-code").tryQuery().isPresent());
        robot.interact(source[0]::hide);
        replace("#new-code", code);
        replace("#new-trainee", "T02");
        Hands.until(() -> !robot.lookup("#save-case").query().isDisabled());
        picture("2-import-" + code);
        robot.clickOn("#save-case");
        Hands.until(() -> robot.lookup("#new-code").tryQuery().isEmpty());
        assertThat(workspace.read(s -> s.cases().get(code)).recording().segments())
                .extracting(segment -> segment.file().getFileName().toString())
                .containsExactly(files);
        Hands.until(() -> robot.lookup(code).tryQuery().isPresent());
    }

    private void replace(String field, String words) {
        robot.clickOn(field);
        robot.press(KeyCode.CONTROL).type(KeyCode.A).release(KeyCode.CONTROL);
        robot.write(words);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void review(String code) throws Exception {
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT1).release(KeyCode.ALT);
        Hands.until(() -> robot.lookup(code).tryQuery().isPresent());
        robot.clickOn(code);
        robot.type(KeyCode.ENTER);
        Hands.until(() -> context.current().opened() != null
                && context.current().opened().code().equals(code)
                && hands.text("#frame-number").startsWith("frame 0 of"));
    }

    private TagSession session(String code) {
        return new TagRecording(workspace).open(code, "A1");
    }

    /** At twice the speed; a machine that is too busy to show frames at that pace gets further tries at slower ones. */
    private void tagLive(Tagging truth) throws Exception {
        int boundaries = Boundary.of(truth).size();
        for (double rate : new double[] {2, 1, 0.5}) {
            hands.tagLive(truth, rate);
            Thread.sleep(3000);
            if (Boundary.of(session("D-001").tagging()).size() == boundaries || rate == 0.5) {
                System.out.println("tagged live at " + rate);
                break;
            }
            undo(() -> robot.lookup("#undo").query().isDisabled());
            robot.type(KeyCode.HOME);
            Hands.until(() -> hands.shown().micros() == 0);
        }
        assertThat(Boundary.of(session("D-001").tagging())).hasSize(boundaries);
        assertThat(session("D-001").tagging().spans())
                .extracting(PhaseSpan::phase)
                .containsExactlyElementsOf(
                        truth.spans().stream().map(PhaseSpan::phase).toList());
        assertThat(session("D-001").confirmed()).isEmpty();
        picture("3-tagged");
    }

    private void refine(Tagging truth) throws Exception {
        Hands.until(() -> context.recordingLanes().framesProperty().get() != null);
        robot.type(KeyCode.HOME);
        Hands.until(() -> hands.shown().micros() == 0);
        hands.control(KeyCode.R);
        List<Boundary> aims = Boundary.of(truth);
        for (int i = 0; i < aims.size(); i++) {
            int number = i;
            hands.moveBoundaryTo(aims.get(i).at());
            robot.type(KeyCode.ENTER);
            Hands.until(() -> session("D-001").confirmed().size() == number + 1);
        }
        Hands.until(() -> hands.text("#refine-progress").equals("All " + aims.size() + " confirmed"));
        robot.type(KeyCode.ESCAPE);
        assertTrue(truth);
        // on the screen each block has the colour of its phase, right up to its true ends
        Procedure procedure = context.current().opened().procedure();
        WaitForAsyncUtils.waitForFxEvents();
        for (PhaseSpan span : truth.spans()) {
            Color fill = Color.web(
                    PhaseColours.of(procedure, procedure.find(span.phase()).orElseThrow())
                            .fill());
            long length = span.end().micros() - span.start().micros();
            for (double share : new double[] {0.12, 0.88}) {
                assertThat(near(onLane("steps", span.start().micros() + (long) (share * length), -8), fill))
                        .as(span.phase() + " on the screen")
                        .isTrue();
            }
        }
        picture("4-refined");
    }

    private void assertTrue(Tagging truth) {
        assertThat(session("D-001").tagging().spans())
                .extracting(PhaseSpan::phase, PhaseSpan::start, PhaseSpan::end)
                .containsExactlyElementsOf(truth.spans().stream()
                        .map(span -> org.assertj.core.groups.Tuple.tuple(span.phase(), span.start(), span.end()))
                        .toList());
        assertThat(session("D-001").confirmed()).containsExactlyInAnyOrderElementsOf(Boundary.of(truth));
    }

    private TimelineView lane() {
        return robot.lookup("#timeline-lane").queryAs(TimelineView.class);
    }

    private Point2D onLane(String lane, long us, double up) {
        return lane().localToScreen(lane().xOf(us), lane().yOf(lane) + up);
    }

    /** Whether the very pixel of the screen has this colour. */
    private boolean near(Point2D at, Color colour) {
        Image shot = robot.capture(new Rectangle2D(at.getX(), at.getY(), 1, 1)).getImage();
        Color seen = shot.getPixelReader().getColor(0, 0);
        return Math.abs(seen.getRed() - colour.getRed()) < 0.02
                && Math.abs(seen.getGreen() - colour.getGreen()) < 0.02
                && Math.abs(seen.getBlue() - colour.getBlue()) < 0.02;
    }

    private Comment stored() {
        return new CommentCase(workspace).of("D-001").get(0).comment();
    }

    private void comment() throws Exception {
        hands.goTo(711);
        assertThat(Hands.stamp(context.desk()))
                .as("the picture itself says its number")
                .isEqualTo(711);
        robot.press(KeyCode.SHIFT).type(KeyCode.M).release(KeyCode.SHIFT);
        Hands.until(() -> robot.lookup("#comment-writer").query().isVisible());
        robot.clickOn("#draw-arrow");
        robot.drag(hands.at(200, 120), MouseButton.PRIMARY);
        robot.moveTo(hands.at(260, 180));
        robot.dropTo(hands.at(300, 220));
        Hands.until(() -> new CommentCase(workspace).of("D-001").size() == 1);
        robot.clickOn("#tone-praise");
        robot.clickOn("#comment-text");
        robot.write("a round rhexis");
        robot.clickOn("#comment-done");
        Hands.until(() -> stored().text().equals("a round rhexis"));
        assertThat(stored().from()).isEqualTo(MediaTime.ofMicros(711 * Hands.FRAME));
        assertThat(stored().drawing().get(0).points().get(1).x() * 640).isCloseTo(300, within(2.0));
        assertThat(stored().drawing().get(0).points().get(1).y() * 480).isCloseTo(220, within(2.0));
        robot.moveTo(hands.at(20, 20));
        Shape line = robot.lookup("#drawing-layer .mark-line").query();
        Hands.until(() -> near(hands.at(240, 160), (Color) line.getStroke()));
        picture("5-comment");
    }

    private void measure() throws Exception {
        JsonNode truth = Hands.truthFile("D-001");
        JsonNode still = truth.get("rhexis_still");
        double limbusMm = truth.get("limbus_diameter_mm").asDouble();
        double limbusPx = limbusMm / still.get("mm_per_px_x").asDouble();
        hands.goTo(still.get("frame").asInt());
        robot.clickOn("#tab-measure");
        hands.enter("#own-width", String.valueOf(limbusMm));
        robot.clickOn("#measure-limbus");
        hands.clickAround(
                still.get("limbus_x").asDouble(), still.get("limbus_y").asDouble(), limbusPx, limbusPx, 10);
        robot.type(KeyCode.ENTER);
        Hands.until(() -> new MeasureCase(workspace).of("D-001").size() == 1);
        robot.clickOn("#measure-rhexis");
        hands.clickAround(
                still.get("centre_x").asDouble(),
                still.get("centre_y").asDouble(),
                still.get("diameter_px_x").asDouble(),
                still.get("diameter_px_y").asDouble(),
                10);
        robot.type(KeyCode.ENTER);
        Hands.until(() -> new MeasureCase(workspace).of("D-001").size() == 2);
        Measurement rhexis = new MeasureCase(workspace).of("D-001").get(1);
        var diameter = rhexis.value("apparent_diameter").orElseThrow();
        assertThat(truth.get("rhexis_diameter_mm").asDouble())
                .as("the generator's truth within the stated limits")
                .isBetween(diameter.lower(), diameter.upper());
        Hands.until(() -> robot.lookup("#rhexis-apparent_diameter").tryQuery().isPresent());
        assertThat(hands.text("#rhexis-apparent_diameter")).contains("±").endsWith("mm");
        picture("6-measured");
        // taken away and put back
        robot.clickOn("#remove-" + rhexis.id());
        Hands.until(() -> new MeasureCase(workspace).of("D-001").size() == 1);
        hands.control(KeyCode.Z);
        Hands.until(() -> new MeasureCase(workspace).of("D-001").contains(rhexis));
    }

    private void undoAndRedoAll(Tagging truth) throws Exception {
        robot.clickOn("#tab-comments");
        Comment whole = stored();
        undo(() -> new CommentCase(workspace).of("D-001").isEmpty());
        redo(() -> !new CommentCase(workspace).of("D-001").isEmpty() && stored().equals(whole));

        robot.clickOn("#tab-phases");
        undo(() -> robot.lookup("#undo").query().isDisabled());
        assertThat(session("D-001").tagging().isEmpty()).as("nothing is left").isTrue();
        redo(() -> robot.lookup("#redo").query().isDisabled());
        assertTrue(truth);
    }

    private void undo(java.util.concurrent.Callable<Boolean> all) throws Exception {
        for (int i = 0; !all.call(); i++) {
            assertThat(i).as("steps of undo").isLessThan(500);
            hands.control(KeyCode.Z);
        }
    }

    private void redo(java.util.concurrent.Callable<Boolean> all) throws Exception {
        for (int i = 0; !all.call(); i++) {
            assertThat(i).as("steps of redo").isLessThan(500);
            hands.redo();
        }
    }

    /** Two steps of the second case, each on its exact frame. */
    private void tagSecond() throws Exception {
        review("D-002");
        Procedure procedure = context.current().opened().procedure();
        int tagged = 0;
        for (PhaseSpan span : Hands.truth("D-002").spans()) {
            if (Set.of("rhexis", "hydrodissection").contains(span.phase())) {
                hands.goTo(span.start().micros() / Hands.FRAME);
                robot.type(KeyCode.getKeyCode(
                        procedure.find(span.phase()).orElseThrow().key().toUpperCase(java.util.Locale.ROOT)));
                int now = ++tagged;
                Hands.until(() -> session("D-002").tagging().spans().size() == now);
                hands.goTo(span.end().micros() / Hands.FRAME);
                robot.type(KeyCode.DIGIT0);
                Hands.until(
                        () -> !session("D-002").tagging().spans().get(now - 1).isOpen());
            }
        }
        assertThat(session("D-002").tagging().spans())
                .extracting(PhaseSpan::start)
                .containsExactly(MediaTime.ofSeconds(20.8), MediaTime.ofSeconds(29.2));
    }

    /** {@code truth-phases.csv}: the rhexis starts at 18.4 s and at 20.8 s, frames 460 and 520. */
    private void compare() throws Exception {
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT4).release(KeyCode.ALT);
        Hands.until(() -> robot.lookup("#case-left").tryQuery().isPresent());
        hands.enter("#case-left", "D-001");
        hands.enter("#case-right", "D-002");
        Hands.until(() -> robot.lookup("#go-rhexis").tryQuery().isPresent());
        robot.clickOn("#go-rhexis");
        Hands.until(() -> Hands.stamp(context.pair().desk(Side.LEFT)) == 460
                && Hands.stamp(context.pair().desk(Side.RIGHT)) == 520);
        picture("7-compare");
    }

    private void beHalfway() throws Exception {
        review("D-001");
        Hands.until(() -> lane().modelProperty().get().durationUs() > 0
                && session("D-001").tagging().spans().size() > 1);
        Hands.until(() -> robot.lookup("#running-phase").query().isVisible());
        Thread.sleep(500);
        robot.clickOn(onLane("steps", 23_000_000, 0));
        Hands.until(() -> !lane().selectionProperty().get().isEmpty());
        hands.goTo(781);
        robot.press(KeyCode.SHIFT).type(KeyCode.M).release(KeyCode.SHIFT);
        Hands.until(() -> robot.lookup("#comment-writer").query().isVisible());
        robot.clickOn("#comment-text");
        robot.write(HALF);
        picture("8-halfway");
    }

    private void picture(String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        RealWindow.picture(
                "job-" + name,
                () -> robot.capture(new Rectangle2D(0, 0, 1280, 800)).getImage());
        Bounds window = stage.getScene().getRoot().getLayoutBounds();
        assertThat(window.getWidth()).isEqualTo(1280);
    }
}
