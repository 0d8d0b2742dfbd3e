package org.sideport.app.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.ref.WeakReference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.Map;
import java.util.concurrent.Callable;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.Labeled;
import javafx.scene.control.MenuButton;
import javafx.scene.control.TableView;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.ToggleButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.RealWindow;
import org.sideport.app.SideportApp;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.People;
import org.sideport.workflow.SignIn;
import org.sideport.workflow.access.Credentials;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** Signing in and out of the real program, with two people and two cases. */
class PeopleWindowTest {

    private static final String DIRECTORS = "eight brown kettles";
    private static final String TRAINEES = "nine yellow lamps";

    @TempDir
    Path dir;

    private final FxRobot robot = new FxRobot();
    private final SideportApp app = new SideportApp();
    private Path folder;
    private String first = "";

    @BeforeEach
    void aUnitWithPeople() throws Exception {
        folder = Files.createDirectories(dir.resolve("unit"));
        try (Workspace made = FreshWorkspace.in(folder)) {
            made.change(s -> {
                s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
                s.cases().add(new SurgicalCase("C-2", "T04", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
            });
            People people = new People(made, Credentials.inStore(), Clock.systemUTC());
            people.add("D1", EnumSet.of(Role.DIRECTOR), DIRECTORS.toCharArray());
            first = String.valueOf(people.add("T03", EnumSet.of(Role.TRAINEE)).firstPassword());
        }
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> app.start(stage, folder));
    }

    @AfterEach
    void close() throws Exception {
        robot.interact(() -> {
            if (app.window() != null) {
                app.window().remember();
            }
        });
        FxToolkit.cleanupStages();
        robot.interact(() -> {
            app.stop();
            Platform.setImplicitExit(false);
        });
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(60, java.util.concurrent.TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private boolean shows(String id) {
        return robot.lookup(id)
                .tryQuery()
                .filter(node -> {
                    Node one = node;
                    while (one != null && one.isVisible()) {
                        one = one.getParent();
                    }
                    return one == null;
                })
                .isPresent();
    }

    private void type(String id, String text) {
        robot.interact(() -> robot.lookup(id).queryAs(TextInputControl.class).setText(text));
    }

    private void press(String id) {
        robot.interact(() -> robot.lookup(id).queryAs(ButtonBase.class).fire());
    }

    private void signIn(String code, String password) throws Exception {
        type("#sign-in-code", code);
        type("#sign-in-password", password);
        press("#sign-in-go");
    }

    private void choose(String item) {
        robot.interact(() -> robot.lookup("#who").queryAs(MenuButton.class).getItems().stream()
                .filter(i -> item.equals(i.getId()))
                .findFirst()
                .orElseThrow()
                .fire());
    }

    private String problem() {
        return robot.lookup("#sign-in-problem").queryAs(Labeled.class).getText();
    }

    private int listed() {
        return robot.lookup("#cases-table").queryAs(TableView.class).getItems().size();
    }

    @Test
    void nothingOfTheWorkspaceShowsBeforeTheRightPassword() throws Exception {
        until(() -> shows("#sign-in-code"));
        assertThat(app.context()).isNull();
        assertThat(shows("#who")).isFalse();
        signIn("D1", "wrong");
        until(() -> problem().contains("do not belong together"));
        assertThat(app.context()).isNull();
        for (int i = 1; i < SignIn.FREE; i++) {
            int before = i;
            signIn("D1", "wrong " + before);
            until(() -> !problem().isEmpty());
        }
        signIn("D1", DIRECTORS);
        until(() -> problem().contains("many wrong passwords"));
        assertThat(app.context()).isNull();
    }

    @Test
    void aDirectorSeesTheWholeUnitAndLooksAfterItsPeople() throws Exception {
        until(() -> shows("#sign-in-code"));
        signIn("d1", DIRECTORS);
        until(() -> app.context() != null && shows("#who"));
        until(() -> listed() == 2);
        assertThat(robot.lookup("#who").queryAs(MenuButton.class).getText()).isEqualTo("D1");
        press("#nav-programme");
        RealWindow.selectTab(robot, "#programme", "programme-people");
        until(() -> shows("#people")
                && robot.lookup("#people").queryAs(TableView.class).getItems().size() == 2);
        assertThat(shows("#people-add")).isTrue();
    }

    @Test
    void aTraineeChoosesAPasswordFirstReachesTheOwnCaseAndWorksUnderTheOwnCode() throws Exception {
        until(() -> shows("#sign-in-code"));
        signIn("T03", first);
        until(() -> shows("#sign-in-new"));
        assertThat(app.context()).isNull();
        type("#sign-in-new", TRAINEES);
        type("#sign-in-again", TRAINEES);
        press("#sign-in-go");
        until(() -> app.context() != null && shows("#who"));
        until(() -> listed() == 1);
        ToggleButton programme = robot.lookup("#nav-programme").queryAs(ToggleButton.class);
        assertThat(programme.isDisabled()).isTrue();
        assertThat(programme.getAccessibleHelp()).contains("no part in the programme");
        assertThat(robot.lookup("#export").queryAs(ButtonBase.class).isDisabled())
                .isTrue();
        press("#nav-review");
        until(() -> robot.lookup("#annotator").tryQuery().isPresent());
        TextInputControl code = robot.lookup("#annotator").queryAs(TextInputControl.class);
        assertThat(code.getText()).isEqualTo("T03");
        assertThat(code.isEditable()).isFalse();
    }

    @Test
    void whoSignsOutLeavesTheWindowToTheNext() throws Exception {
        until(() -> shows("#sign-in-code"));
        signIn("D1", DIRECTORS);
        until(() -> app.context() != null && shows("#who"));
        WeakReference<Object> seen = new WeakReference<>(app.context());
        Path picture = Files.createDirectories(Workspace.indexDir(folder).resolve("thumbnails"))
                .resolve("of-a-case.png");
        Files.writeString(picture, "x");
        choose("who-out");
        until(() -> shows("#sign-in-code") && app.context() == null);
        // OWASP ASVS 5.0, 14.3.1: what only who signed in may see does not stay on the computer
        assertThat(picture).doesNotExist();
        assertThat(robot.lookup("#sign-in-password")
                        .queryAs(TextInputControl.class)
                        .getText())
                .isEmpty();
        signIn("D1", DIRECTORS);
        until(() -> app.context() != null && shows("#who"));
        // nothing of what the first saw stays in memory
        until(() -> {
            System.gc();
            return seen.refersTo(null);
        });
    }

    @Test
    void aCoveredScreenComesBackForTheSamePersonWithWhatWasTyped() throws Exception {
        until(() -> shows("#sign-in-code"));
        signIn("D1", DIRECTORS);
        until(() -> app.context() != null && shows("#who"));
        until(() -> listed() == 2);
        type("#case-filter", "C-2");
        choose("who-cover");
        until(() -> shows("#cover-out"));
        Node root = robot.lookup("#case-filter").query().getScene().getRoot();
        assertThat(root.isVisible()).isFalse();
        type("#sign-in-password", "wrong");
        press("#sign-in-go");
        until(() -> problem().contains("do not belong together"));
        assertThat(root.isVisible()).isFalse();
        type("#sign-in-password", DIRECTORS);
        press("#sign-in-go");
        until(root::isVisible);
        assertThat(robot.lookup("#case-filter").queryAs(TextInputControl.class).getText())
                .isEqualTo("C-2");
    }
}
