package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.Spinner;
import javafx.scene.control.TabPane;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;
import org.sideport.player.DemoRecordings;
import org.sideport.player.VlcDiscovery;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.workflow.TagRecording;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/**
 * In a real window, by keys: D-001 is tagged while it plays and then refined to the frames that
 * {@code demo-data/truth-phases.csv} holds, as the generator drew them.
 */
@Timeout(240)
class RefineWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private Hands hands;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-refine");
        workspace = FreshWorkspace.in(folder);
        Bench.addCase(workspace, "C-1", DemoRecordings.D001);
        stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
        });
        hands = new Hands(robot, context);
        RealWindow.untilCasesAreListed(robot, 60);
        robot.clickOn(".table-row-cell");
        robot.type(KeyCode.ENTER);
        until(() -> text("#frame-number").startsWith("frame 0 of"));
        RealWindow.enterAnnotator(robot, "A1");
    }

    @AfterEach
    void closeWindow() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        Hands.until(condition);
    }

    private String text(String id) {
        return hands.text(id);
    }

    private Tagging stored() {
        return new TagRecording(workspace).open("C-1", "A1").tagging();
    }

    private Set<Boundary> confirmed() {
        return new TagRecording(workspace).open("C-1", "A1").confirmed();
    }

    private void control(KeyCode key) {
        hands.control(key);
    }

    private void picture(String name) throws Exception {
        RealWindow.picture(name, () -> {
            Image[] image = new Image[1];
            robot.interact(() -> {
                // a dialog, where there is one
                var window = robot.listWindows().stream()
                        .filter(each -> each != stage && each instanceof Stage)
                        .findFirst()
                        .orElse(stage);
                image[0] = window.getScene().snapshot(null);
            });
            return image[0];
        });
    }

    /** Strictly at twice the speed; {@code WholeJobTest} does the same in the usual run, and slower on a machine too busy for that. */
    @Tag("slow")
    @Test
    void whatIsTaggedLiveByKeysIsRefinedByKeysToTheTrueFrames() throws Exception {
        if (VlcDiscovery.discover() instanceof VlcDiscovery.Result.Found) {
            robot.interact(() -> context.findPlayer());
            until(() -> !context.playerText().isEmpty());
        }
        Tagging truth = Hands.truth("D-001");

        // live, at twice the speed: each key some reaction after its moment
        hands.tagLive(truth, 2);
        until(() -> stored().spans().size() == truth.spans().size()
                && !stored().spans().get(truth.spans().size() - 1).isOpen());
        Tagging rough = stored();
        assertThat(rough.spans())
                .extracting(PhaseSpan::phase)
                .containsExactlyElementsOf(
                        truth.spans().stream().map(PhaseSpan::phase).toList());
        assertThat(Boundary.of(rough)).hasSameSizeAs(Boundary.of(truth));
        assertThat(confirmed()).isEmpty();

        // the second pass
        until(() -> context.recordingLanes().framesProperty().get() != null);
        robot.type(KeyCode.HOME);
        until(() -> hands.shown().micros() == 0);
        picture("1-rough");
        control(KeyCode.R);
        int total = Boundary.of(truth).size();
        assertThat(text("#refine-progress")).isEqualTo("0 of " + total + " confirmed");
        List<Boundary> aims = Boundary.of(truth);
        for (int i = 0; i < aims.size(); i++) {
            int number = i;
            hands.moveBoundaryTo(aims.get(i).at());
            if (i == 4) {
                Thread.sleep(1500);
                picture("2-refining");
            }
            robot.type(KeyCode.ENTER);
            until(() -> confirmed().size() == number + 1);
        }
        until(() -> text("#refine-progress").equals("All " + total + " confirmed"));
        picture("3-confirmed");
        assertThat(stored().spans())
                .extracting(PhaseSpan::phase, PhaseSpan::start, PhaseSpan::end)
                .containsExactlyElementsOf(truth.spans().stream()
                        .map(span -> org.assertj.core.groups.Tuple.tuple(span.phase(), span.start(), span.end()))
                        .toList());
        assertThat(confirmed()).containsExactlyInAnyOrderElementsOf(aims);

        // one step of undo each, and what is confirmed outlives the session
        robot.type(KeyCode.ESCAPE);
        assertThat(robot.lookup("#refine").query().isVisible()).isFalse();
        control(KeyCode.Z);
        until(() -> confirmed().size() == total - 1);
        hands.redo();
        until(() -> confirmed().size() == total);
        robot.interact(() -> context.theme().lightProperty().set(true));
        picture("4-light");
        robot.interact(() -> context.theme().lightProperty().set(false));
    }

    @Test
    void anotherPhaseIsSaidByKeysAndTheRunningOneIsToldAtThePicture() throws Exception {
        robot.type(KeyCode.DIGIT1);
        until(() -> stored().spans().size() == 1);
        robot.press(KeyCode.SHIFT).type(KeyCode.RIGHT).release(KeyCode.SHIFT);
        until(() -> hands.shown().equals(MediaTime.ofSeconds(1)));
        assertThat(text("#running-name")).isEqualTo("Incision");
        assertThat(text("#running-time")).isEqualTo("0:01");

        control(KeyCode.E);
        until(() -> robot.lookup("#other-phase").query().isVisible());
        assertThat(text("#other-phase-title")).isEqualTo("Incision was, from 0:00:01.000 on:");
        picture("5-other");
        robot.type(KeyCode.DIGIT2);
        until(() -> stored().spans().size() == 2);
        assertThat(stored().spans().get(1))
                .extracting(PhaseSpan::phase, PhaseSpan::start)
                .containsExactly("capsulotomy", MediaTime.ofSeconds(1));
        until(() -> text("#running-name").equals("Capsulotomy"));
        assertThat(robot.lookup("#other-phase").query().isVisible()).isFalse();
    }

    @Test
    void aPhaseGetsAnotherKeyOnTheSheet() throws Exception {
        control(KeyCode.K);
        until(() -> robot.lookup("#phase-keys").tryQuery().isPresent());
        robot.type(KeyCode.M);
        until(() -> text("#phase-keys-message").startsWith("M does something else"));
        robot.type(KeyCode.DIGIT2);
        until(() -> text("#phase-keys-message").startsWith("2 is the key of \"Capsulotomy\""));
        picture("6-keys");
        robot.type(KeyCode.DIGIT9);
        until(() -> text("#phase-keys-message").equals("Incision: 9"));
        robot.type(KeyCode.ESCAPE);
        until(() -> robot.lookup("#phase-keys").tryQuery().isEmpty());

        robot.type(KeyCode.DIGIT1);
        robot.type(KeyCode.DIGIT9);
        until(() -> stored().spans().size() == 1);
        assertThat(stored().spans().get(0).phase()).isEqualTo("incision");
        assertThat(context.current()
                        .opened()
                        .procedure()
                        .find("incision")
                        .orElseThrow()
                        .key())
                .isEqualTo("1");
    }

    /** With everything on it, it still fits on the screen. */
    @Test
    void theSheetOfKeysTellsTheKeysOfRefining() throws Exception {
        robot.type(KeyCode.F1);
        until(() -> robot.lookup("Refining boundaries").tryQuery().isPresent());
        picture("8-sheet");
        var sheet = robot.lookup("Refining boundaries").query().getScene().getWindow();
        assertThat(sheet).isNotSameAs(stage);
        assertThat(sheet.getHeight()).isLessThanOrEqualTo(800);
        assertThat(sheet.getWidth()).isLessThanOrEqualTo(1280);
        robot.type(KeyCode.ESCAPE);
    }

    /** The field of a spinner hands the focus on to the spinner: what is typed there is still no phase key. */
    @Test
    void whatIsTypedAsReactionTagsNothing() throws Exception {
        TabPane tabs = robot.lookup(".side-tabs").queryAs(TabPane.class);
        robot.interact(() -> tabs.getSelectionModel().select(1));
        until(() -> robot.lookup("#reaction").tryQuery().isPresent());
        robot.doubleClickOn("#reaction");
        robot.type(KeyCode.DIGIT3, KeyCode.DIGIT2, KeyCode.DIGIT1);
        WaitForAsyncUtils.waitForFxEvents();
        robot.clickOn("#annotator");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(new TagRecording(workspace).open("C-1", "A1").tagging().spans())
                .isEmpty();
    }

    /** Each has a key of its own, which the sheet of keys lists, or is reached with Tab. */
    @Test
    void everythingCanBeDoneWithTheKeyboard() throws Exception {
        Map<String, Shortcut> own = new HashMap<>();
        own.put("refine-open", Shortcut.REFINE);
        own.put("other-phase-open", Shortcut.OTHER_PHASE);
        own.put("phase-keys-open", Shortcut.PHASE_KEYS);
        own.put("refine-back", Shortcut.REFINE_BACK);
        own.put("refine-much-earlier", Shortcut.BOUNDARY_MUCH_EARLIER);
        own.put("refine-earlier", Shortcut.BOUNDARY_EARLIER);
        own.put("refine-later", Shortcut.BOUNDARY_LATER);
        own.put("refine-much-later", Shortcut.BOUNDARY_MUCH_LATER);
        own.put("refine-candidate-earlier", Shortcut.CANDIDATE_EARLIER);
        own.put("refine-candidate-later", Shortcut.CANDIDATE_LATER);
        own.put("refine-skip", Shortcut.REFINE_SKIP);
        own.put("refine-leave", Shortcut.REFINE_LEAVE);
        own.put("refine-confirm", Shortcut.CONFIRM);
        robot.type(KeyCode.DIGIT1);
        until(() -> stored().spans().size() == 1);
        until(() -> context.recordingLanes().framesProperty().get() != null);
        control(KeyCode.R);
        until(() -> robot.lookup("#refine").query().isVisible());

        Set<String> found = new TreeSet<>();
        for (Node node : robot.lookup(each -> each instanceof ButtonBase).queryAll()) {
            String id = node.getId();
            if (id != null && (id.startsWith("refine-") || own.containsKey(id))) {
                found.add(id);
                assertThat(own).as("a key for " + id).containsKey(id);
                assertThat(((ButtonBase) node).getTooltip().getText())
                        .contains(own.get(id).keysText());
            }
        }
        assertThat(found).containsExactlyInAnyOrderElementsOf(own.keySet());

        // leaving and beginning by key; tagging keys do nothing meanwhile
        robot.type(KeyCode.DIGIT2);
        robot.type(KeyCode.ESCAPE);
        until(() -> !robot.lookup("#refine").query().isVisible());
        assertThat(stored().spans()).hasSize(1);

        robot.clickOn("Tags");
        for (String id : List.of("#style-starts_only", "#style-start_and_end", "#reaction")) {
            assertThat(robot.lookup(id).query().isFocusTraversable()).as(id).isTrue();
        }
        picture("7-tags");
        robot.interact(() -> robot.lookup("#style-starts_only").query().requestFocus());
        robot.type(KeyCode.SPACE);
        until(() -> stored().style() == org.sideport.model.TaggingStyle.STARTS_ONLY);
        robot.interact(() -> robot.lookup("#reaction").queryAs(Spinner.class).requestFocus());
        robot.type(KeyCode.UP);
        until(() -> text("#running-reaction").equals("Keys are set 50 ms × rate earlier"));
    }
}
