package org.sideport.app.timeline;

import static org.assertj.core.api.Assertions.assertThat;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import javafx.application.Application;
import javafx.geometry.Point2D;
import javafx.scene.AccessibleAttribute;
import javafx.scene.Scene;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuItem;
import javafx.scene.image.WritableImage;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.VBox;
import javafx.scene.paint.Color;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.Texts;
import org.sideport.model.MediaTime;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** The control alone in a real window: 100 s of 25 frames a second on 1000 pixels, so a pixel is 100 ms. */
@Timeout(180)
class TimelineWindowTest {

    private static final Tint ORANGE = new Tint(Color.rgb(230, 159, 0), Color.BLACK);
    private static final Tint BLUE = new Tint(Color.rgb(86, 180, 233), Color.BLACK);

    private final FxRobot robot = new FxRobot();
    private final List<TimelineEdit> edits = new ArrayList<>();
    private final List<Long> visits = new ArrayList<>();
    private TimelineView view;
    private String theme;

    private static Lane.Span span(String name, double start, double end, Tint tint) {
        return new Lane.Span(
                name, Math.round(start * 1e6), Math.round(end * 1e6), false, false, name, "Phase " + name, tint, "");
    }

    private static TimelineModel model() {
        return new TimelineModel(
                100_000_000,
                List.of(
                        new Lane.Spans(
                                "phases",
                                "Phases",
                                true,
                                true,
                                List.of(span("A", 10, 30, ORANGE), span("B", 30, 50, BLUE), span("C", 60, 80, ORANGE))),
                        new Lane.Spans("other", "A2", false, false, List.of(span("X", 12, 33, BLUE))),
                        new Lane.Points(
                                "events",
                                "Events",
                                true,
                                List.of(
                                        new Lane.Point("e1", 20_000_000, Lane.Mark.COMPLICATION, "Tear", "small"),
                                        new Lane.Point("e2", 70_000_000, Lane.Mark.MOMENT, "Handed over", "")))),
                List.of(55_000_000L),
                List.of(),
                List.of(new Stretch(90_000_000, 95_000_000)),
                List.of(40_040_000L),
                List.of());
    }

    @BeforeEach
    void openWindow() throws Exception {
        theme = Application.getUserAgentStylesheet();
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            Application.setUserAgentStylesheet(new PrimerDark().getUserAgentStylesheet());
            view = new TimelineView(new Texts());
            view.modelProperty().set(model());
            long[] starts = new long[2500];
            for (int i = 0; i < starts.length; i++) {
                starts[i] = i * 40_000L;
            }
            view.framesProperty().set(new FrameGrid(starts));
            view.labelsProperty()
                    .set(List.of(new LabelChoice("a", "Phase A", false), new LabelChoice("z", "Phase Z", false)));
            view.handlerProperty().set(new TimelineHandler() {
                @Override
                public void seek(long us) {
                    visits.add(us);
                    view.playheadProperty().set(MediaTime.ofMicros(us));
                }

                @Override
                public void scrub(long us) {
                    visits.add(us);
                    view.playheadProperty().set(MediaTime.ofMicros(us));
                }

                @Override
                public void edit(TimelineEdit edit) {
                    edits.add(edit);
                }
            });
            // another test may have left the stage a size of its own
            stage.setScene(new Scene(new VBox(view), 1080, 300)); // 80 pixels for the lanes' names
            stage.setX(0);
            stage.setY(0);
            stage.sizeToScene();
            stage.show();
            stage.toFront();
        });
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(view.scaleProperty().get().usPerPixel()).isEqualTo(100_000);
    }

    @AfterEach
    void closeWindow() throws Exception {
        FxToolkit.cleanupStages();
        robot.interact(() -> Application.setUserAgentStylesheet(theme));
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(20, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private Point2D at(double seconds, String lane) {
        return view.localToScreen(view.xOf(Math.round(seconds * 1e6)), view.yOf(lane));
    }

    private Color pixel(double seconds, String lane, double dy) {
        WritableImage[] image = new WritableImage[1];
        robot.interact(() -> image[0] = view.snapshot(null, null));
        return image[0].getPixelReader()
                .getColor((int) view.xOf(Math.round(seconds * 1e6)), (int) (view.yOf(lane) + dy));
    }

    private void keys(KeyCode... keys) {
        robot.push(keys);
        WaitForAsyncUtils.waitForFxEvents();
    }

    @Test
    void aBoundaryIsDraggedToTheFrameUnderTheMouse() throws Exception {
        robot.drag(at(30, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(34, "phases"));
        robot.moveTo(at(25.53, "phases"));
        robot.interact(() -> {});
        // while under way it is drawn there: B has come to where A was
        assertThat(pixel(27, "phases", 0)).isEqualTo(BLUE.fill());
        robot.drop();

        assertThat(edits).hasSize(1);
        TimelineEdit.MoveBoundary move = (TimelineEdit.MoveBoundary) edits.get(0);
        assertThat(move.lane()).isEqualTo("phases");
        assertThat(move.fromUs()).isEqualTo(30_000_000);
        assertThat(move.toUs() % 40_000).as("on a frame").isZero();
        assertThat(move.toUs()).isBetween(25_400_000L, 25_700_000L);
        assertThat(visits.get(visits.size() - 1)).as("the picture followed").isEqualTo(move.toUs());
        // nobody changed the model, so all is drawn as it was
        assertThat(pixel(27, "phases", -6)).isEqualTo(ORANGE.fill());
    }

    @Test
    void aBoundaryIsDrawnToACutNearby() {
        robot.drag(at(30, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(38, "phases"));
        robot.dropTo(at(40.4, "phases")); // four pixels off the cut at 40.04 s

        assertThat(edits).containsExactly(new TimelineEdit.MoveBoundary("phases", 30_000_000, 40_040_000));
    }

    @Test
    void escapeLetsGoOfABoundary() {
        robot.drag(at(30, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(40, "phases"));
        robot.type(KeyCode.ESCAPE);
        robot.drop();

        assertThat(edits).isEmpty();
    }

    @Test
    void aBoundaryDoesNotPassItsNeighbour() {
        robot.drag(at(30, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(40, "phases"));
        robot.dropTo(at(70, "phases"));

        // B ends at 50 s; the frame before that starts at 49.96 s
        assertThat(edits).containsExactly(new TimelineEdit.MoveBoundary("phases", 30_000_000, 49_960_000));
    }

    @Test
    void aRubberBandSelectsWhatLiesInIt() {
        robot.drag(at(56, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(40, "other"));
        robot.dropTo(at(15, "events"));

        assertThat(view.selectionProperty().get()).containsExactlyInAnyOrder("A", "B", "X", "e1");
    }

    @Test
    void aSelectedBlockIsDraggedWhole() {
        robot.clickOn(at(20, "phases"));
        robot.drag(at(20, "phases"), MouseButton.PRIMARY);
        robot.moveTo(at(22, "phases"));
        robot.dropTo(at(25, "phases"));

        assertThat(edits).hasSize(1);
        TimelineEdit.MoveItems move = (TimelineEdit.MoveItems) edits.get(0);
        assertThat(move.keys()).containsExactly("A");
        assertThat(move.byUs() % 40_000).isZero();
        assertThat(move.byUs()).isBetween(4_800_000L, 5_200_000L);
    }

    @Test
    void anotherAnnotatorsBlocksStayWhereTheyAre() {
        robot.clickOn(at(20, "other"));
        assertThat(view.selectionProperty().get()).containsExactly("X");
        robot.drag(at(33, "other"), MouseButton.PRIMARY);
        robot.moveTo(at(36, "other"));
        robot.dropTo(at(40, "other"));
        keys(KeyCode.PERIOD);

        assertThat(edits).isEmpty();
    }

    @Test
    void everythingIsDoneByKeys() {
        robot.interact(view::requestFocus);
        keys(KeyCode.ALT, KeyCode.RIGHT);
        assertThat(view.selectionProperty().get()).containsExactly("A");
        keys(KeyCode.ALT, KeyCode.RIGHT);
        assertThat(view.selectionProperty().get()).containsExactly("B");
        assertThat(visits).endsWith(30_000_000L);

        keys(KeyCode.PERIOD);
        keys(KeyCode.SHIFT, KeyCode.COMMA);
        keys(KeyCode.CONTROL, KeyCode.PERIOD);
        assertThat(edits)
                .containsExactly(
                        new TimelineEdit.MoveBoundary("phases", 30_000_000, 30_040_000),
                        new TimelineEdit.MoveBoundary("phases", 50_000_000, 49_960_000),
                        new TimelineEdit.MoveItems(Set.of("B"), 40_000));
        edits.clear();

        robot.interact(() -> view.playheadProperty().set(MediaTime.ofSeconds(40)));
        keys(KeyCode.CONTROL, KeyCode.P);
        keys(KeyCode.ALT, KeyCode.SHIFT, KeyCode.RIGHT);
        keys(KeyCode.CONTROL, KeyCode.J);
        assertThat(edits)
                .containsExactly(new TimelineEdit.Split("B", 40_000_000), new TimelineEdit.Merge(List.of("B", "C")));

        keys(KeyCode.CONTROL, KeyCode.A);
        assertThat(view.selectionProperty().get()).containsExactlyInAnyOrder("A", "B", "C");
        keys(KeyCode.ESCAPE);
        assertThat(view.selectionProperty().get()).isEmpty();
        keys(KeyCode.ALT, KeyCode.RIGHT);
        keys(KeyCode.ALT, KeyCode.DOWN);
        keys(KeyCode.ALT, KeyCode.DOWN);
        assertThat(view.selectionProperty().get()).containsAnyOf("e1", "e2");
    }

    @Test
    void theMenuCallsABlockOtherwise() throws Exception {
        robot.rightClickOn(at(70, "phases"));
        until(() -> robot.lookup("#timeline-relabel").tryQuery().isPresent());
        assertThat(view.selectionProperty().get()).containsExactly("C");
        List<MenuItem> items = ((TimelineSkin) view.getSkin()).menu().items();
        assertThat(items.stream().filter(MenuItem::isDisable).map(MenuItem::getId))
                .as("one block alone cannot be joined")
                .containsExactly("timeline-join");
        robot.interact(() -> ((Menu) items.get(0)).getItems().get(1).fire());

        assertThat(edits).containsExactly(new TimelineEdit.Relabel(Set.of("C"), "z"));
    }

    @Test
    void singleFramesAreShownAndStepped() {
        robot.interact(() -> {
            view.requestFocus();
            view.playheadProperty().set(MediaTime.ofMicros(30_000_000));
        });
        keys(KeyCode.CONTROL, KeyCode.DIGIT1);
        // 48 pixels for a frame of 40 ms
        assertThat(view.scaleProperty().get().usPerPixel()).isBetween(800.0, 850.0);
        double before = view.xOf(view.playheadProperty().get().micros());
        robot.interact(() -> view.playheadProperty()
                .set(MediaTime.ofMicros(view.framesProperty().get().step(30_000_000, 1))));
        double after = view.xOf(view.playheadProperty().get().micros());
        assertThat(after - before).isBetween(47.0, 49.0);

        // the first frame of B is blue from its first pixel on, the last of A orange up to its last
        assertThat(pixel(30.002, "phases", -9)).isEqualTo(BLUE.fill());
        assertThat(pixel(29.990, "phases", -9)).isEqualTo(ORANGE.fill());

        keys(KeyCode.CONTROL, KeyCode.DIGIT0);
        assertThat(view.scaleProperty().get().isWhole()).isTrue();
    }

    @Test
    void theWheelZoomsAroundTheMouseAndPans() {
        robot.moveTo(at(50, "other"));
        robot.press(KeyCode.CONTROL);
        robot.scroll(3, javafx.geometry.VerticalDirection.UP);
        robot.release(KeyCode.CONTROL);
        TimeScale closer = view.scaleProperty().get();
        assertThat(closer.usPerPixel()).isLessThan(100_000);
        assertThat(view.xOf(50_000_000))
                .as("what was under the mouse stays there")
                .isBetween(578.0, 582.0);

        robot.scroll(1, javafx.geometry.VerticalDirection.DOWN);
        assertThat(view.scaleProperty().get().startUs()).isNotEqualTo(closer.startUs());
    }

    @Test
    void theTooltipSaysTimeLengthAndPercentile() throws Exception {
        robot.interact(() -> view.lengthNoteProperty().set(span -> span.key().equals("A") ? "Longer than 4 of 5" : ""));
        robot.moveTo(at(20, "phases"));
        TimelineMouse mouse = ((TimelineSkin) view.getSkin()).mouse();
        until(() -> !mouse.said().isEmpty());

        assertThat(mouse.said().lines())
                .containsExactly("Phase A", "0:00:10.000 to 0:00:30.000", "Length 0:00:20.000", "Longer than 4 of 5");
        robot.moveTo(at(40, "phases"));
        until(() -> mouse.said().startsWith("Phase B"));
        assertThat(mouse.said().lines()).hasSize(3);
        robot.moveTo(at(20, "events"));
        until(() -> mouse.said().startsWith("Tear"));
        assertThat(mouse.said()).isEqualTo("Tear\n0:00:20.000\nsmall");
        robot.moveTo(at(92, "events"));
        until(() -> mouse.said().startsWith("Doubtful"));
        robot.moveTo(at(5, "events"));
        until(() -> mouse.said().isEmpty());
    }

    @Test
    void aScreenReaderHearsWhereOneStandsAndWhatIsSelected() {
        robot.interact(() -> {
            view.playheadProperty().set(MediaTime.ofSeconds(20));
            view.selectionProperty().set(Set.of("B"));
        });

        assertThat((String) view.queryAccessibleAttribute(AccessibleAttribute.TEXT))
                .contains("0:00:20.000", "Phases: Phase A", "A2: Phase X", "Selected: Phase B");
        assertThat(view.queryAccessibleAttribute(AccessibleAttribute.VALUE)).isEqualTo(20_000_000.0);
    }

    @Test
    void howeverMuchChangesItIsDrawnOnceInAPulse() {
        TimelineSkin skin = (TimelineSkin) view.getSkin();
        int before = skin.paintings();
        robot.interact(() -> {
            for (int i = 0; i < 100; i++) {
                view.zoom(1.01);
                view.pan(1);
            }
        });
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(skin.paintings() - before).isEqualTo(1);

        // playing moves the playhead and draws nothing anew
        int playing = skin.paintings();
        robot.interact(view::showWhole);
        WaitForAsyncUtils.waitForFxEvents();
        int whole = skin.paintings();
        for (int i = 0; i < 5; i++) {
            long us = 10_000_000L * i;
            robot.interact(() -> view.playheadProperty().set(MediaTime.ofMicros(us)));
            WaitForAsyncUtils.waitForFxEvents();
        }
        assertThat(whole).isEqualTo(playing + 1);
        assertThat(skin.paintings()).isEqualTo(whole);
    }

    @Test
    void bothThemesDrawItInTheirOwnColours() {
        Color dark = pixel(97, "other", 0);
        robot.interact(() -> Application.setUserAgentStylesheet(new PrimerLight().getUserAgentStylesheet()));
        WaitForAsyncUtils.waitForFxEvents();
        Color light = pixel(97, "other", 0);

        assertThat(dark.getBrightness()).isLessThan(0.25);
        assertThat(light.getBrightness()).isGreaterThan(0.9);
        assertThat(pixel(40, "phases", -8)).as("phases keep their colour").isEqualTo(BLUE.fill());
    }

    @Test
    void clickingTwiceShowsABlockAsLargeAsMayBe() {
        robot.doubleClickOn(at(20, "phases"));

        // A lasts 20 s; a twentieth of it is left free at either side: 22 s on 1000 pixels
        assertThat(view.scaleProperty().get().usPerPixel()).isBetween(21_900.0, 22_100.0);
        assertThat(edits).isEmpty();
    }

    @Test
    void theMapShowsTheWholeAndTakesOneThere() {
        robot.interact(() -> view.show(0, 10_000_000));
        WaitForAsyncUtils.waitForFxEvents();
        // the map's scale is that of the whole: 70 s are at 80 + 700 pixels
        robot.clickOn(view.localToScreen(80 + 700, view.getHeight() - 6));

        TimeScale now = view.scaleProperty().get();
        assertThat((now.startUs() + now.endUs()) / 2).isBetween(69_500_000.0, 70_500_000.0);
    }
}
