package org.sideport.app.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Labeled;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TableView;
import javafx.scene.control.TextInputControl;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.AppContext;
import org.sideport.app.Bench;
import org.sideport.app.RealWindow;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.ConsentState;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.exchange.ExportCase;
import org.sideport.workflow.exchange.Hospital;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The Cases screen in a real window on a real store: filtering, the case sheet, dropped folders and sheets. */
@Timeout(180)
class CasesWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private Workspace workspace;
    private AppContext context;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-cases");
        workspace = FreshWorkspace.in(folder.resolve("ws"));
        Bench.addCase(workspace, "C-1", "D-002.mp4");
        add("C-2", "T03", "small");
        add("C-3", "T03", "large");
        stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            MainWindow window = new MainWindow(context, stage);
            RealWindow.show(window, stage, 1280, 800);
        });
        until(() -> text("#case-count").equals("3 of 3 cases"));
    }

    @AfterEach
    void closeWindow() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    private void add(String code, String trainee, String pupil) {
        new ImportRecording(workspace)
                .addCase(new NewCase(code, trainee, LocalDate.of(2026, 3, 9), "phaco", Map.of("pupil", pupil)), null);
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        RealWindow.until(60, condition);
    }

    private boolean there(String id) {
        return robot.lookup(id).match(Node::isVisible).tryQuery().isPresent();
    }

    private String text(String id) {
        return robot.lookup(id)
                .<Labeled>tryQueryAs(Labeled.class)
                .map(Labeled::getText)
                .orElse("");
    }

    private void type(String id, String words) {
        robot.interact(() -> robot.lookup(id)
                .<TextInputControl>queryAs(TextInputControl.class)
                .setText(words));
    }

    private void press(String id) {
        robot.interact(() -> robot.lookup(id).<Button>queryAs(Button.class).fire());
    }

    private List<String> listed() {
        TableView<?> table = robot.lookup("#cases-table").queryAs(TableView.class);
        return table.getItems().stream()
                .map(one -> ((org.sideport.model.CaseSummary) one).code())
                .toList();
    }

    private SurgicalCase stored(String code) {
        return workspace.read(stores -> stores.cases().get(code));
    }

    private void select(String code) throws Exception {
        robot.interact(() -> {
            TableView<?> table = robot.lookup("#cases-table").queryAs(TableView.class);
            table.getSelectionModel().select(listed().indexOf(code));
        });
        until(() -> there("#edit-case"));
    }

    private void choose(String menu, String item) {
        robot.interact(() -> {
            MenuButton button = robot.lookup("#filter-menu").queryAs(MenuButton.class);
            Menu submenu = (Menu) item(button.getItems(), menu);
            item(submenu.getItems(), item).fire();
        });
    }

    private static MenuItem item(List<MenuItem> items, String text) {
        return items.stream().filter(i -> text.equals(i.getText())).findFirst().orElseThrow();
    }

    @Test
    void wordsAndFiltersCombineAndEachChipTakesItsPartAway() throws Exception {
        robot.clickOn("#case-filter");
        robot.write("t03 sma");
        until(() -> text("#case-count").equals("1 of 3 cases"));
        assertThat(listed()).containsExactly("C-2");

        choose("Recording", "With a recording");
        until(() -> text("#case-count").equals("0 of 3 cases"));
        assertThat(robot.lookup(".chip").queryAll()).hasSize(1);
        robot.clickOn(".chip");
        until(() -> text("#case-count").equals("1 of 3 cases"));

        choose("State", "Not tagged");
        press("#clear-filter");
        until(() -> text("#case-count").equals("3 of 3 cases"));
        assertThat(robot.lookup("#case-filter")
                        .<TextInputControl>queryAs(TextInputControl.class)
                        .getText())
                .isEmpty();
        assertThat(there(".chip")).isFalse();
    }

    @Test
    void theListIsSortedByAnyColumn() throws Exception {
        assertThat(listed()).containsExactly("C-2", "C-3", "C-1"); // 9 March before 4 March
        robot.clickOn("Code");
        until(() -> listed().equals(List.of("C-1", "C-2", "C-3")));
        robot.clickOn("Code");
        until(() -> listed().equals(List.of("C-3", "C-2", "C-1")));
    }

    /** 90 s at 15 % are 13.5 s: time × mean power ÷ 100. */
    @Test
    void theSheetIsCheckedComputedAndSavedWithItsHistory() throws Exception {
        select("C-2");
        press("#edit-case");
        until(() -> there("#edit-save"));
        type("#edit-by", "A1");
        type("#descriptor-ultrasound_time", "90");
        type("#descriptor-average_power", "150");
        until(() -> there("#fault-average_power"));
        assertThat(text("#fault-average_power")).contains("a number from 0 to 100");
        assertThat(robot.lookup("#edit-save").query().isDisabled()).isTrue();
        type("#descriptor-average_power", "15");
        until(() -> text("#descriptor-effective_phaco_time").equals("13.5 s (computed)"));
        press("#edit-save");
        until(() -> stored("C-2").descriptors().containsKey("average_power"));
        until(() -> robot.lookup("13.5 s (computed)").tryQuery().isPresent());
        assertThat(there("#case-changes")).isTrue();
        assertThat(stored("C-2").descriptors())
                .containsEntry("ultrasound_time", "90")
                .containsEntry("pupil", "small");
    }

    @Test
    void aWithdrawnCaseIsGoneAtOnce() throws Exception {
        select("C-1");
        press("#edit-case");
        until(() -> there("#edit-save"));
        type("#edit-by", "A1");
        robot.interact(() -> robot.lookup("#edit-consent")
                .queryAs(ComboBox.class)
                .getSelectionModel()
                .select(ConsentState.WITHDRAWN.ordinal()));
        press("#edit-save");
        until(() -> workspace.read(s -> s.cases().withdrawn()).stream()
                .anyMatch(c -> c.code().equals("C-1")));
        // gone at once from every list but that of what is to be deleted
        until(() -> !listed().contains("C-1"));
    }

    @Test
    void aDroppedFolderBecomesCasesThatAreCorrectedFirst() throws Exception {
        Path list = Files.createDirectories(folder.resolve("list"));
        for (String name : List.of("D-001_part9.mp4", "D-001_part10.mp4", "D-003.mp4")) {
            Files.copy(DemoRecordings.file(name), list.resolve(name));
        }
        drop(list);
        until(() -> there("#import-take"));
        assertThat(robot.lookup("#import-code-0")
                        .<TextInputControl>queryAs(TextInputControl.class)
                        .getText())
                .isEqualTo("D-001");
        assertThat(robot.lookup("#import-take").query().isDisabled()).isTrue();
        type("#import-code-1", "C-2");
        type("#import-trainee", "T09");
        press("#import-fill");
        press("#import-take");
        until(() -> text("#import-problem").contains("Nothing was stored"));
        assertThat(workspace.<Boolean>read(s -> s.cases().exists("D-001"))).isFalse();

        type("#import-code-1", "C-9");
        press("#import-take");
        until(() -> workspace.<Boolean>read(s -> s.cases().exists("C-9")));
        assertThat(stored("D-001").recording().segments()).hasSize(2);
        assertThat(stored("D-001").trainee()).isEqualTo("T09");
    }

    @Test
    void aDroppedSheetShowsItsFaultsAndTakesTheGoodRows() throws Exception {
        Path sheet = Files.writeString(
                folder.resolve("list.csv"), "code;trainee;date\nC-7;T01;2026-03-09\nC-8;;2026-03-09\n");
        drop(sheet);
        until(() -> text("#sheet-summary").equals("1 case of 2 rows can be taken in; 1 fault."));
        assertThat(robot.lookup("#sheet-take").query().isDisabled()).isTrue();
        robot.clickOn("#sheet-good-only");
        press("#sheet-take");
        until(() -> workspace.<Boolean>read(s -> s.cases().exists("C-7")));
        assertThat(workspace.<Boolean>read(s -> s.cases().exists("C-8"))).isFalse();
    }

    @Test
    void aDroppedBundleShowsWhatItBringsAndTheSecondTimeThatItIsHere() throws Exception {
        Path bundle = folder.resolve("D-017.sideport-case.zip");
        try (Workspace other = FreshWorkspace.in(folder.resolve("other"))) {
            Hospital.fill(other, folder.resolve("shelf"));
            new ExportCase(other).export(new ExportCase.Wanted("D-017", false, false), null, bundle, Progress.NONE);
        }
        drop(bundle);
        until(() -> text("#bundle-summary").startsWith("Case D-017")
                || text("#bundle-summary").startsWith("New case"));
        type("#bundle-by", "B9");
        // T03 has cases here: whether that is the same person is asked before anything is stored
        type("#bundle-person-T03", "T77");
        assertThat(robot.lookup("#bundle-take").query().isDisabled()).isTrue();
        press("#bundle-look");
        until(() -> !robot.lookup("#bundle-take").query().isDisabled());
        assertThat(workspace.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();
        press("#bundle-take");
        until(() -> workspace.<Boolean>read(s -> s.cases().exists("D-017")) && !there("#bundle-take"));
        assertThat(stored("D-017").trainee()).isEqualTo("T77");

        drop(bundle);
        until(() -> there("#bundle-person-T03"));
        type("#bundle-person-T03", "T77");
        press("#bundle-look");
        until(() -> text("#bundle-summary").startsWith("Case D-017 is here already, unchanged"));
        assertThat(robot.lookup("#bundle-take").query().isDisabled()).isTrue();
        press("#exchange-cancel");
    }

    /** As the screen does it when files are let go over it. */
    private void drop(Path... dropped) {
        robot.interact(
                () -> new IntakeWindows(stage, context, context.cases().casesViewModel()).drop(List.of(dropped)));
    }
}
