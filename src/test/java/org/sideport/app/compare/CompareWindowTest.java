package org.sideport.app.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import javafx.scene.control.Labeled;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.AppContext;
import org.sideport.app.Bench;
import org.sideport.app.Hands;
import org.sideport.app.RealWindow;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.frame.MainWindow;
import org.sideport.app.picture.ShownFrame;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.player.DemoRecordings;
import org.sideport.player.VlcDiscovery;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.Exemplars;
import org.sideport.workflow.TagExchange;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/**
 * Two drawn recordings in a real window. Where their phases start is known from {@code demo-data/truth-phases.csv}; both
 * have 25 frames a second, so a phase that starts at {@code s} seconds starts with frame {@code 25 s}, which is written in
 * the picture.
 */
@Timeout(240)
class CompareWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-compare");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "D-001", DemoRecordings.D001);
        Bench.addCase(workspace, "D-002", DemoRecordings.D002);
        new TagExchange(workspace).importCsv(tags(), null, false);
        new Exemplars(workspace, Clock.systemUTC()).name("D-002", "TRUTH", "Dyed capsule", "calm hands", "A1", false);
        stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(
                    window,
                    stage,
                    Integer.getInteger("sideport.width", 1280),
                    Integer.getInteger("sideport.height", 800));
        });
    }

    /** The tags of the two that are here. */
    private Path tags() throws IOException {
        List<String> lines = Files.readAllLines(DemoRecordings.file("truth-phases.csv")).stream()
                .filter(line -> line.startsWith("case") || line.startsWith("D-001") || line.startsWith("D-002"))
                .toList();
        return Files.write(folder.resolve("tags.csv"), lines);
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

    private void typeCase(String field, String code) {
        robot.clickOn(field);
        robot.write(code);
        robot.type(KeyCode.ENTER);
    }

    private void openBoth() throws Exception {
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT4).release(KeyCode.ALT);
        until(() -> robot.lookup("#case-left").tryQuery().isPresent());
        typeCase("#case-left", "D-001");
        until(() -> robot.lookup("#compare-second").query().isVisible());
        robot.clickOn("#use-exemplar");
        robot.clickOn("D-002: Dyed capsule  (usual)");
        until(() -> stamp(Side.LEFT) == 0 && stamp(Side.RIGHT) == 0);
    }

    /** The number written in the picture that is on the screen; -1 without one. */
    private int stamp(Side side) {
        return Hands.stamp(context.pair().desk(side));
    }

    private static int frameAt(double seconds) {
        return (int) Math.round(seconds * 25);
    }

    /** For the eye, where a folder is named: the window in the dark and the light theme. */
    private void snapshot(String name) throws Exception {
        if (System.getProperty("sideport.pictures") != null) {
            write(name + "-dark");
            robot.interact(() -> context.theme().lightProperty().set(true));
            write(name + "-light");
            robot.interact(() -> context.theme().lightProperty().set(false));
        }
    }

    private void write(String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        RealWindow.picture(name, () -> {
            Image[] shot = new Image[1];
            robot.interact(() -> shot[0] = stage.getScene().snapshot(null));
            return shot[0];
        });
    }

    @Test
    void bothGoToTheSamePhaseAndShowItsTrueFrames() throws Exception {
        openBoth();

        // rhexis: 18.4 s on the left, 20.8 s on the right
        robot.clickOn("#go-rhexis");
        until(() -> stamp(Side.LEFT) == frameAt(18.4) && stamp(Side.RIGHT) == frameAt(20.8));
        snapshot("compare");

        // the next on both sides is hydrodissection: 28.92 s and 29.2 s
        robot.type(KeyCode.PAGE_DOWN);
        until(() -> stamp(Side.LEFT) == frameAt(28.92) && stamp(Side.RIGHT) == frameAt(29.2));
        assertThat(text("#time-left")).isEqualTo("0:00:28.920");
        assertThat(text("#time-right")).isEqualTo("0:00:29.200");

        // 4.2 s on the left are 4 s on the right: 21 frames on are 20
        for (int i = 0; i < 21; i++) {
            robot.type(KeyCode.RIGHT);
        }
        until(() -> stamp(Side.LEFT) == frameAt(28.92) + 21 && stamp(Side.RIGHT) == frameAt(29.2) + 20);

        robot.type(KeyCode.PAGE_UP);
        until(() -> stamp(Side.LEFT) == frameAt(28.92) && stamp(Side.RIGHT) == frameAt(29.2));
    }

    @Test
    void byTheClockBothShowTheSameMomentAndTheOtherSideCanLead() throws Exception {
        openBoth();
        robot.clickOn("#go-rhexis");
        until(() -> stamp(Side.LEFT) == frameAt(18.4));
        robot.type(KeyCode.A);
        until(() -> stamp(Side.RIGHT) == frameAt(18.4));
        robot.type(KeyCode.A);
        until(() -> stamp(Side.RIGHT) == frameAt(20.8));

        // the right leads: its rhexis lasts 7.6 s, the left one's 9.6 s, so 19 frames there are 24 here
        robot.type(KeyCode.S);
        for (int i = 0; i < 19; i++) {
            robot.type(KeyCode.RIGHT);
        }
        until(() -> stamp(Side.RIGHT) == frameAt(20.8) + 19 && stamp(Side.LEFT) == frameAt(18.4) + 24);
    }

    @Test
    void whereOneSideLacksAPhaseItStandsStillAndItIsSaid() throws Exception {
        openBoth();
        // only the right one polishes the capsule, from 58.6 s: with the right leading, the left stands still
        robot.type(KeyCode.S);
        robot.clickOn("#go-capsule_polishing");
        until(() -> stamp(Side.RIGHT) == frameAt(58.6));
        until(() -> text("#where").startsWith("Left stands still"));
        int left = stamp(Side.LEFT);
        robot.type(KeyCode.RIGHT);
        robot.type(KeyCode.RIGHT);
        until(() -> stamp(Side.RIGHT) == frameAt(58.6) + 2);
        assertThat(stamp(Side.LEFT)).isEqualTo(left);
        snapshot("compare-lacks");
    }

    @Test
    void aCaseIsNamedAsAnExemplarAndTheReferenceIsChosen() throws Exception {
        openBoth();
        robot.clickOn("#use-exemplar");
        robot.clickOn("Name D-001 as an exemplar…");
        until(() -> robot.lookup("#exemplar-title").tryQuery().isPresent());
        assertThat(robot.lookup("#exemplar-keep").query().isDisabled()).isTrue();
        robot.clickOn("#exemplar-title").write("slow rhexis");
        robot.clickOn("#exemplar-person").write("A3");
        robot.clickOn("#exemplar-usual");
        robot.clickOn("#exemplar-keep");
        until(() -> new Exemplars(workspace, Clock.systemUTC())
                .usual("phaco")
                .filter(e -> e.caseCode().equals("D-001") && e.namedBy().equals("A3"))
                .isPresent());
        robot.interact(() ->
                robot.lookup("#reference").queryComboBox().getSelectionModel().select(1));
        until(() -> robot.lookup("up to P10").tryQuery().isPresent());
        snapshot("compare-published");
    }

    /** This window was not told of LibVLC, so it plays by exact frames. */
    @Test
    void playingTheRightFollowsTheLeftThroughThePhases() throws Exception {
        openBoth();
        robot.clickOn("#go-rhexis");
        until(() -> stamp(Side.LEFT) == frameAt(18.4));
        robot.type(KeyCode.SPACE);
        until(() -> stamp(Side.LEFT) > frameAt(20));
        robot.type(KeyCode.SPACE);
        until(() -> !context.pair().leading().playingProperty().get());
        Thread.sleep(500);
        WaitForAsyncUtils.waitForFxEvents();
        int left = stamp(Side.LEFT);
        // 9.6 s of the left are 7.6 s of the right
        double expected = frameAt(20.8) + (left - frameAt(18.4)) * 7.6 / 9.6;
        until(() -> stamp(Side.RIGHT) == (int) Math.floor(expected + 1e-6));
    }

    /** With LibVLC, on the machine that runs it: how near the following side keeps to the leading one. */
    @Test
    void withLibVlcTheLeadingSidePlaysLiveAndTheOtherKeepsUp() throws Exception {
        Assumptions.assumeTrue(VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found, "no LibVLC here");
        robot.interact(() -> context.findPlayer());
        openBoth();
        robot.clickOn("#go-rhexis");
        until(() -> stamp(Side.LEFT) == frameAt(18.4));
        until(() -> context.pair().leading().playerProperty().get().showsPictures());
        robot.type(KeyCode.SPACE);
        until(() -> context.pair().leading().liveProperty().get());
        AtomicInteger shown = new AtomicInteger();
        List<Double> behind = new ArrayList<>();
        robot.interact(() -> context.pair()
                .desk(Side.RIGHT)
                .shownProperty()
                .addListener((property, old, now) -> shown.incrementAndGet()));
        long end = System.nanoTime() + 5_000_000_000L;
        while (System.nanoTime() < end) {
            robot.interact(() -> {
                ShownFrame right =
                        context.pair().desk(Side.RIGHT).shownProperty().get();
                var place = context.pair().placeProperty().get();
                behind.add((place.time().micros() - right.frame().start().micros()) / 1000.0);
            });
            Thread.sleep(20);
        }
        double rate = shown.get() / 5.0;
        robot.type(KeyCode.SPACE);
        behind.sort(null);
        double median = behind.get(behind.size() / 2);
        double most = behind.get((int) (behind.size() * 0.95));
        System.out.printf(
                "following side: %.1f pictures a second, behind by %.0f ms in the median, %.0f ms in 95 of 100%n",
                rate, median, most);
        assertThat(rate).as("pictures a second").isGreaterThan(3);
        assertThat(median).as("behind, ms").isLessThan(500);
        until(() -> !context.pair().leading().playingProperty().get()
                && !context.pair().leading().liveProperty().get());
        int left = stamp(Side.LEFT);
        assertThat(left).isGreaterThan(frameAt(18.4) + 50);
        var map = context.pair().placeProperty().get();
        until(() -> stamp(Side.RIGHT) == (int) (map.time().micros() / 40_000));
    }

    @Test
    void theBarsAreDraggedAndTheLastPlaceIsExact() throws Exception {
        openBoth();
        var strip = robot.lookup("#map-strip").query();
        var bounds = strip.localToScreen(strip.getBoundsInLocal());
        robot.drag(bounds.getMinX() + 300, bounds.getMinY() + 10, MouseButton.PRIMARY);
        robot.moveTo(bounds.getMinX() + 400, bounds.getMinY() + 10);
        robot.drop();
        until(() -> stamp(Side.LEFT) > 0 && stamp(Side.RIGHT) > 0);
        MediaTime left = context.pair().position();
        until(() -> stamp(Side.LEFT) == (int) (left.micros() / 40_000));
    }

    @Test
    void casesOfOneTraineeAreStackedAndOpenedWhereOneClicks() throws Exception {
        openBoth();
        robot.clickOn("#as-stack");
        until(() -> robot.lookup(".bar-block").queryAll().size() == 14 + 17);
        snapshot("stack");
        robot.interact(() -> robot.lookup("#stack-anchor")
                .queryComboBox()
                .getSelectionModel()
                .select(robot.lookup("#stack-anchor").queryComboBox().getItems().stream()
                        .filter(t ->
                                t instanceof Procedure.Term term && term.id().equals("rhexis"))
                        .findFirst()
                        .orElseThrow()));
        robot.clickOn("#stack-only");
        until(() -> robot.lookup(".bar-block").queryAll().size() == 2);
        double left = -1;
        for (var block : robot.lookup(".bar-block").queryAll()) {
            left = left < 0 ? block.getLayoutX() : left;
            assertThat(block.getLayoutX()).isEqualTo(left);
        }
        snapshot("stack-only");
        robot.clickOn(".bar-block");
        until(() -> context.desk().shownProperty().get() != null
                && context.desk().shownProperty().get().frame().number() == frameAt(18.4));
    }

    @Test
    void withoutTagsItSaysWhatToDo() throws Exception {
        workspace.change(stores -> {
            for (String code : new String[] {"D-001", "D-002"}) {
                stores.taggings().save(code, "TRUTH", org.sideport.model.Tagging.EMPTY);
            }
        });
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT4).release(KeyCode.ALT);
        until(() -> robot.lookup("Nothing to compare yet").tryQuery().isPresent());
        snapshot("compare-empty");
        robot.clickOn("#as-stack");
        until(() -> robot.lookup("No tagged cases to stack yet").tryQuery().isPresent());
    }
}
