package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.Labeled;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.scene.input.ZoomEvent;
import javafx.stage.Window;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.RealWindow;
import org.sideport.app.Shortcut;
import org.sideport.app.jobs.ListedJob;
import org.sideport.app.picture.PictureView;
import org.sideport.app.settings.ChosenRoles;
import org.sideport.app.settings.KeyLayout;
import org.sideport.app.settings.PedalKeys;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Role;
import org.sideport.rubric.ProcedureReader;

/** What stands around the screens: jobs, notices, settings, first steps, keys for one hand, pictures large and twice. */
@Timeout(120)
class FrameTest {

    private OpenApp app;

    @BeforeEach
    void open() throws Exception {
        app = new OpenApp("en", 100, false, 1280, 800);
    }

    @AfterEach
    void close() throws Exception {
        app.close();
    }

    private String text(String query) {
        return app.robot.lookup(query).<Labeled>queryAs(Labeled.class).getText();
    }

    private boolean there(String query) {
        return app.robot.lookup(query).match(Node::isVisible).tryQuery().isPresent();
    }

    private void review() throws Exception {
        app.robot.clickOn(".table-row-cell").type(KeyCode.ENTER);
        OpenApp.until(() -> app.context.desk().shownProperty().get() != null);
        RealWindow.enterAnnotator(app.robot, "A1");
    }

    @Test
    void aLongJobIsListedWithItsProgressAndCanBeStopped() throws Exception {
        CountDownLatch started = new CountDownLatch(1);
        List<Throwable> heard = new ArrayList<>();
        Background background = app.context.jobs().listing(app.context.work(), "jobs.cuts");
        app.robot.interact(() -> background.run(
                progress -> {
                    progress.report(0.25, "a quarter");
                    started.countDown();
                    while (true) {
                        progress.check();
                        Thread.sleep(20);
                    }
                },
                done -> {},
                heard::add));
        started.await();
        OpenApp.until(() -> text("#jobs").equals("1 job"));
        app.robot.type(KeyCode.F8);
        OpenApp.until(() -> there("#stop-job"));
        assertThat(there("25 %")).isTrue();
        Thread.sleep(1100);
        app.robot.clickOn("#stop-job");
        OpenApp.until(() -> heard.size() == 1);
        assertThat(text("#jobs")).isEmpty();
        ListedJob job = app.context.jobs().all().get(0);
        assertThat(job.stateProperty().get()).isEqualTo(ListedJob.State.STOPPED);
        OpenApp.until(() -> there("#dismiss-job"));
        app.robot.clickOn("#dismiss-job");
        // on a busy machine what the program began by itself may be listed too
        OpenApp.until(() -> !app.context.jobs().all().contains(job));
    }

    @Test
    void aJobThatFailsStaysWithItsDetailsAndOneThatIsQuickIsNeverListed() throws Exception {
        Background background = app.context.jobs().listing(app.context.work(), "jobs.cuts");
        List<Object> heard = new ArrayList<>();
        app.robot.interact(() -> background.run(progress -> 1, heard::add, heard::add));
        app.robot.interact(() -> background.run(
                progress -> {
                    throw new IllegalStateException("the disk is gone");
                },
                done -> {},
                heard::add));
        OpenApp.until(() -> heard.size() == 2);
        assertThat(app.context.jobs().all().stream()
                        .filter(job -> job.name().equals("Looking for cuts"))
                        .map(job -> job.stateProperty().get()))
                .containsExactly(ListedJob.State.FAILED);
        OpenApp.until(() -> app.context.jobs().runningProperty().get() == 0);
        assertThat(text("#jobs")).isEqualTo("1 failed");
        app.robot.type(KeyCode.F8);
        app.robot.clickOn("#job-details");
        OpenApp.until(() -> there("#details"));
        OpenApp.until(() -> details().contains("Last lines of the log"));
        assertThat(details()).contains("IllegalStateException: the disk is gone", "FrameTest", "ERROR");
    }

    private String details() {
        return app.robot.lookup("#details").queryAs(TextInputControl.class).getText();
    }

    @Test
    void problemsWaitInAQueueAndHintsGoByThemselves() throws Exception {
        app.robot.interact(() -> {
            app.context.notices().failed(new IllegalStateException("one"));
            app.context.notices().failed(new IllegalStateException("two"));
            app.context.notices().hint("a hint");
        });
        assertThat(app.robot.lookup("#notice .notice-what").queryAll()).hasSize(3);
        app.robot.interact(() -> app.context.notices().hint("another hint"));
        assertThat(app.robot.lookup("#notice .notice-what").queryAll()).hasSize(3);
        OpenApp.until(
                () -> app.context.notices().all().stream().allMatch(notice -> notice.tone() == Notice.Tone.PROBLEM));
        assertThat(app.context.notices().all()).hasSize(2);
        app.robot.type(KeyCode.F7).type(KeyCode.F7);
        assertThat(app.context.notices().all()).isEmpty();
        assertThat(there("#notice")).isFalse();
    }

    @Test
    void theFirstStepsFollowTheRolesAndDoWhatTheySay() throws Exception {
        app.robot.clickOn(".table-row-cell");
        app.robot.interact(app.window::begin);
        OpenApp.until(() -> there("#first-steps"));
        assertThat(there("#first-ASSESSOR-TAG")).isFalse();
        app.robot.clickOn("#role-ASSESSOR").clickOn("#role-DIRECTOR");
        assertThat(there("#first-ASSESSOR-ADD_CASE")).isTrue();
        assertThat(there("#first-DIRECTOR-FOLLOW")).isTrue();
        assertThat(ChosenRoles.chosen(app.context.settings())).containsExactly(Role.ASSESSOR, Role.DIRECTOR);
        app.robot.clickOn("#first-ASSESSOR-TAG");
        OpenApp.until(() -> app.context.current().opened() != null);
        assertThat(app.context.current().opened().code()).isEqualTo("C-1");
    }

    @Test
    void whatIsSetIsInTheFileWithinASecond() throws Exception {
        app.robot.type(KeyCode.F9);
        Thread.sleep(1000);
        try (var files = Files.list(app.folder)) {
            Path file = files.filter(f -> f.getFileName().toString().matches("window-[0-9a-f]{8}\\.properties"))
                    .findFirst()
                    .orElseThrow();
            assertThat(Files.readAllLines(file)).contains("light=true");
        }
    }

    @Test
    void oneHandOnTheNumberPadPlaysAndTagsAndThePedalDoesToo() throws Exception {
        app.context.settings().put("keys.layout", KeyLayout.RIGHT_HAND.name());
        review();
        var session = new org.sideport.workflow.TagRecording(workspace());
        press(KeyCode.NUMPAD8);
        OpenApp.until(() -> session.open("C-1", "A1").tagging().spans().size() == 1);
        press(KeyCode.NUMPAD6);
        OpenApp.until(() -> app.context.desk().timeProperty().get().equals(MediaTime.ofSeconds(2)));
        press(PedalKeys.of(app.context.settings()).key(2));
        OpenApp.until(() -> session.open("C-1", "A1").tagging().spans().size() == 2);

        Path file = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        Procedure procedure = ProcedureReader.read(Files.readString(file), file.toString());
        List<String> order = procedure.phases().stream()
                .filter(phase -> !phase.idle())
                .map(Procedure.Phase::id)
                .limit(2)
                .toList();
        assertThat(session.open("C-1", "A1").tagging().spans().stream().map(span -> span.phase()))
                .containsExactlyElementsOf(order);
        press(KeyCode.NUMPAD7);
        OpenApp.until(() -> app.context.desk().timeProperty().get().equals(MediaTime.ZERO));
        press(KeyCode.NUMPAD5);
        OpenApp.until(() -> app.context.desk().playingProperty().get());
    }

    /** Straight to the scene: what a virtual screen makes of the number pad depends on its lock key. */
    private void press(KeyCode code) {
        app.robot.interact(() -> javafx.event.Event.fireEvent(
                app.stage.getScene().getFocusOwner(),
                new javafx.scene.input.KeyEvent(
                        javafx.scene.input.KeyEvent.KEY_PRESSED, "", "", code, false, false, false, false)));
    }

    private org.sideport.store.Workspace workspace() throws Exception {
        var field = org.sideport.app.AppContext.class.getDeclaredField("workspace");
        field.setAccessible(true);
        return (org.sideport.store.Workspace) field.get(app.context);
    }

    @Test
    void f11FillsTheScreenAndEscapeGoesBackWithAllTools() throws Exception {
        review();
        app.robot.type(KeyCode.F11);
        OpenApp.until(() -> app.stage.isFullScreen());
        assertThat(there(".side-tabs")).isFalse();
        assertThat(there("#nav-cases")).isFalse();
        app.robot.type(KeyCode.ESCAPE);
        OpenApp.until(() -> !app.stage.isFullScreen());
        assertThat(there(".side-tabs")).isTrue();
        assertThat(there("#nav-cases")).isTrue();
    }

    @Test
    void thePictureIsAlsoInAWindowOfItsOwnThatFollowsAndTakesTheKeys() throws Exception {
        review();
        app.robot.type(KeyCode.F12);
        OpenApp.until(() -> there("#second-picture"));
        Window second = app.robot.lookup("#second-picture").query().getScene().getWindow();
        app.robot.interact(() -> second.requestFocus());
        app.robot.interact(() -> javafx.event.Event.fireEvent(
                app.robot.lookup("#second-picture").query(),
                new javafx.scene.input.KeyEvent(
                        javafx.scene.input.KeyEvent.KEY_PRESSED, "", "", KeyCode.RIGHT, false, false, false, false)));
        OpenApp.until(() -> app.context.desk().shownProperty().get().frame().number() == 1);
        app.robot.interact(() -> javafx.event.Event.fireEvent(
                app.robot.lookup("#second-picture").query(),
                new javafx.scene.input.KeyEvent(
                        javafx.scene.input.KeyEvent.KEY_PRESSED, "", "", KeyCode.ESCAPE, false, false, false, false)));
        OpenApp.until(() -> !second.isShowing());
    }

    @Test
    void twoFingersGoCloserOnPictureAndTimeline() throws Exception {
        review();
        PictureView picture = app.robot.lookup("#picture").queryAs(PictureView.class);
        // lanes that come late take room from the picture
        OpenApp.until(() -> {
            Bounds now = picture.areaProperty().get();
            Thread.sleep(1000);
            return now.getWidth() > 0 && now.equals(picture.areaProperty().get());
        });
        Bounds before = picture.areaProperty().get();
        pinch(picture, 2);
        OpenApp.until(() -> picture.closeness() == 2);
        OpenApp.until(() -> picture.areaProperty().get().getWidth() > before.getWidth() * 1.99);
        assertThat(picture.areaProperty().get().getWidth())
                .isBetween(before.getWidth() * 1.99, before.getWidth() * 2.01);
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT0).release(KeyCode.ALT);
        OpenApp.until(() -> picture.areaProperty().get().getWidth() == before.getWidth());

        TimelineView lane = app.robot.lookup("#timeline-lane").queryAs(TimelineView.class);
        double scale = lane.scaleProperty().get().usPerPixel();
        pinch(lane, 2);
        assertThat(lane.scaleProperty().get().usPerPixel()).isBetween(scale / 2 * 0.99, scale / 2 * 1.01);
    }

    private void pinch(Node node, double factor) {
        double x = node.getLayoutBounds().getCenterX();
        double y = node.getLayoutBounds().getCenterY();
        app.robot.interact(() -> javafx.event.Event.fireEvent(
                node,
                new ZoomEvent(
                        ZoomEvent.ZOOM, x, y, x, y, false, false, false, false, false, false, factor, factor, null)));
    }

    @Test
    void everyButtonThatIsToBeSeenIsReachedWithOneKey() throws Exception {
        everyButtonIsReached();
        review();
        TabPane tabs = app.robot.lookup(".side-tabs").queryAs(TabPane.class);
        for (int i = 0; i < tabs.getTabs().size(); i++) {
            int tab = i;
            app.robot.interact(() -> tabs.getSelectionModel().select(tab));
            everyButtonIsReached();
        }
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT3).release(KeyCode.ALT);
        OpenApp.until(() -> there(".item-card"));
        everyButtonIsReached();
    }

    private void everyButtonIsReached() {
        Set<Node> wanted = new LinkedHashSet<>();
        Set<Node> reached = new LinkedHashSet<>();
        app.robot.interact(() -> ScreenWalk.each(app.stage.getScene().getRoot(), node -> {
            if (node instanceof ButtonBase && !node.isDisabled()) {
                wanted.add(node);
            }
        }));
        app.robot.interact(() -> {
            for (int i = 0; i < wanted.size() + 60; i++) {
                javafx.event.Event.fireEvent(
                        app.stage.getScene().getRoot(),
                        new javafx.scene.input.KeyEvent(
                                javafx.scene.input.KeyEvent.KEY_PRESSED,
                                "",
                                "",
                                KeyCode.F3,
                                false,
                                false,
                                false,
                                false));
                reached.add(app.stage.getScene().getFocusOwner());
            }
        });
        assertThat(wanted).as("buttons on the screen").hasSizeGreaterThan(8);
        wanted.removeAll(reached);
        assertThat(wanted.stream().map(ScreenWalk::name)).isEmpty();
    }

    /** The keys and what is to be pressed on the screens do not drift apart: each key of the window does something. */
    @Test
    void everyKeyOfTheWindowMeansSomething() throws Exception {
        for (Shortcut shortcut : Shortcut.values()) {
            if (shortcut.scope() == Shortcut.Scope.WINDOW) {
                List<Throwable> failures = new ArrayList<>();
                app.robot.interact(() -> {
                    var keys = (javafx.scene.input.KeyCodeCombination) shortcut.keys();
                    var event = new javafx.scene.input.KeyEvent(
                            javafx.scene.input.KeyEvent.KEY_PRESSED,
                            "",
                            "",
                            keys.getCode(),
                            keys.getShift() == javafx.scene.input.KeyCombination.ModifierValue.DOWN,
                            keys.getShortcut() == javafx.scene.input.KeyCombination.ModifierValue.DOWN,
                            keys.getAlt() == javafx.scene.input.KeyCombination.ModifierValue.DOWN,
                            false);
                    try {
                        javafx.event.Event.fireEvent(app.stage.getScene().getRoot(), event);
                    } catch (RuntimeException failure) {
                        failures.add(failure);
                    }
                    for (Window window : List.copyOf(Window.getWindows())) {
                        if (window != app.stage) {
                            window.hide();
                        }
                    }
                });
                assertThat(failures).as(shortcut.name()).isEmpty();
            }
        }
    }
}
