package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import javafx.scene.Node;
import javafx.scene.control.Labeled;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.scene.text.Text;
import javafx.stage.Window;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.app.RealWindow;
import org.sideport.app.settings.Language;
import org.sideport.player.DemoRecordings;
import org.testfx.api.FxToolkit;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Goes to every screen, tab and dialog of the frame in a real window, and looks at everything that is to be seen. */
@Timeout(240)
class EveryScreenTest {

    private interface Look {
        void at(String where, Node root) throws Exception;
    }

    private OpenApp app;

    @AfterEach
    void close() throws Exception {
        if (app != null) {
            app.close();
        }
    }

    private void look(String where, Look look) throws Exception {
        FxToolkit.setupFixture(() -> {
            Node root = app.stage.getScene().getRoot();
            app.stage.getScene().getRoot().applyCss();
            app.stage.getScene().getRoot().layout();
            try {
                look.at(where, root);
            } catch (Exception failure) {
                throw new IllegalStateException(failure);
            }
        });
    }

    private void lookAtDialog(String where, KeyCode key, KeyCode with, Look look) throws Exception {
        Set<Window> before = Set.copyOf(Window.getWindows());
        if (with == null) {
            app.robot.type(key);
        } else {
            app.robot.press(with).type(key).release(with);
        }
        OpenApp.until(() -> Window.getWindows().stream().anyMatch(w -> !before.contains(w)));
        Window fresh = Window.getWindows().stream()
                .filter(w -> !before.contains(w))
                .findFirst()
                .orElseThrow();
        FxToolkit.setupFixture(() -> {
            try {
                look.at(where, fresh.getScene().getRoot());
            } catch (Exception failure) {
                throw new IllegalStateException(failure);
            }
            fresh.hide();
        });
        OpenApp.until(() -> !fresh.isShowing());
    }

    private void everywhere(Look look) throws Exception {
        look("cases", look);
        app.robot.clickOn(".table-row-cell");
        Thread.sleep(500);
        look("cases, one selected", look);
        app.robot.type(KeyCode.ENTER);
        OpenApp.until(() -> app.context.desk().shownProperty().get() != null);
        RealWindow.enterAnnotator(app.robot, "A1");
        app.robot.type(KeyCode.DIGIT1);
        OpenApp.until(() -> app.context.current().opened() != null);
        Thread.sleep(500);
        TabPane tabs = app.robot.lookup(".side-tabs").queryAs(TabPane.class);
        for (int i = 0; i < tabs.getTabs().size(); i++) {
            int tab = i;
            app.robot.interact(() -> tabs.getSelectionModel().select(tab));
            Thread.sleep(150);
            look("review, tab " + (i + 1), look);
        }
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT3).release(KeyCode.ALT);
        OpenApp.until(() -> app.robot.lookup(".item-card").tryQuery().isPresent());
        app.robot.clickOn("#assessor").write("A1").type(KeyCode.ENTER);
        Thread.sleep(500);
        look("marking", look);
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT5).release(KeyCode.ALT);
        OpenApp.until(() -> app.robot.lookup("#progress-summary").tryQuery().isPresent());
        Thread.sleep(500);
        look("progress", look);
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT3).release(KeyCode.ALT);
        app.robot.type(KeyCode.F8);
        look("jobs", look);
        app.robot.type(KeyCode.ESCAPE);
        app.robot.interact(() -> app.context
                .notices()
                .failed(new org.sideport.model.InputException("0", "C-1", "1", new IllegalStateException("2"))));
        look("a notice", look);
        app.robot.type(KeyCode.F7);
        app.robot.press(KeyCode.CONTROL).type(KeyCode.F1).release(KeyCode.CONTROL);
        OpenApp.until(() -> app.robot.lookup("#first-steps").tryQuery().isPresent());
        for (String role : List.of("#role-ASSESSOR", "#role-TRAINEE", "#role-DIRECTOR")) {
            app.robot.clickOn(role);
        }
        look("first steps", look);
        app.robot.type(KeyCode.ESCAPE);
        lookAtDialog("settings", KeyCode.F10, null, look);
        lookAtDialog("keys", KeyCode.F1, null, look);
        lookAtDialog("about", KeyCode.F1, KeyCode.SHIFT, look);
    }

    private static void picture(String name, Node root) throws Exception {
        RealWindow.picture(name.replaceAll("[^A-Za-z0-9]+", "-"), () -> root.snapshot(null, null));
    }

    @ParameterizedTest
    @CsvSource({
        "en, 100, false, 1280, 800",
        "en, 150, true, 1280, 800",
        "de, 100, true, 1280, 800",
        "de, 150, false, 1920, 1080",
        "en, 125, false, 1920, 1080"
    })
    void noWordIsCutAndNoneLiesOnAnother(String language, double percent, boolean light, double width, double height)
            throws Exception {
        app = new OpenApp(language, percent, light, width, height);
        Map<String, List<String>> wrong = new LinkedHashMap<>();
        Set<String> data = data();

        everywhere((where, root) -> {
            picture(language + " " + (int) percent + " " + (int) width + " " + where, root);
            List<String> here = new ArrayList<>(ScreenWalk.cut(root));
            // the chosen rubric's title stands in full under the box
            here.removeIf(line -> line.contains("list-cell") && data.stream().anyMatch(line::contains));
            here.addAll(ScreenWalk.overlapping(root));
            if (!here.isEmpty()) {
                wrong.put(where, here);
            }
        });

        assertThat(wrong).isEmpty();
    }

    /** Each part of the programme, before anything is there and with all that a unit keeps. */
    @ParameterizedTest
    @CsvSource({
        "en, 150, false, 1280, 800, false",
        "de, 150, true, 1280, 800, true",
        "en, 100, false, 1920, 1080, true",
    })
    void noWordOfTheProgrammeIsCut(
            String language, double percent, boolean light, double width, double height, boolean full)
            throws Exception {
        app = new OpenApp(language, percent, light, width, height, full ? FullProgramme::fill : empty -> {});
        Map<String, List<String>> wrong = new LinkedHashMap<>();
        Set<String> data = data();
        app.robot.press(KeyCode.ALT).type(KeyCode.DIGIT6).release(KeyCode.ALT);
        OpenApp.until(() -> app.robot.lookup("#programme").tryQuery().isPresent());
        TabPane tabs = app.robot.lookup("#programme").queryAs(TabPane.class);
        assertThat(tabs.getTabs()).hasSizeGreaterThanOrEqualTo(10);
        for (Tab tab : List.copyOf(tabs.getTabs())) {
            app.robot.interact(() -> tabs.getSelectionModel().select(tab));
            Thread.sleep(full ? 900 : 300);
            Look cut = (where, root) -> {
                picture(
                        language + " " + (int) percent + " " + (int) width + " " + (full ? "" : "empty ") + where,
                        root);
                List<String> here = new ArrayList<>(ScreenWalk.cut(root));
                here.removeIf(
                        line -> line.contains("list-cell") && data.stream().anyMatch(line::contains));
                here.addAll(ScreenWalk.overlapping(root));
                if (!here.isEmpty()) {
                    wrong.put(where, here);
                }
            };
            look(tab.getId(), cut);
            if ("programme-cohort".equals(tab.getId())) {
                for (Node section :
                        app.robot.lookup("#cohort-sections .toggle-button").queryAll()) {
                    app.robot.interact(((ToggleButton) section)::fire);
                    Thread.sleep(full ? 900 : 300);
                    look(section.getId(), cut);
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    /** Numbers, times, codes, key caps, and what stands in rubrics, procedures and stores is data. */
    private static final Pattern DATA = Pattern.compile("[\\P{L}]*|(\\P{L}*\\b[A-Z]-?\\d+\\b\\P{L}*)+|[\\d.,:/ ×%–]*");

    private static final Set<String> DATA_CLASSES = Set.of(
            "key-cap",
            "digits",
            "table-cell",
            "term-name",
            "swatch",
            "item-title",
            "domain-title",
            "level-name",
            "anchor",
            "data");

    @Test
    void everyWordOfTheScreensComesFromTheFilesOfMessages() throws Exception {
        app = new OpenApp(Language.MARKED.id(), 100, false, 1280, 800);
        Map<String, List<String>> wrong = new LinkedHashMap<>();
        int[] marked = new int[1];
        Set<String> data = data();

        everywhere((where, root) -> {
            picture("marked " + where, root);
            ScreenWalk.each(root, node -> {
                String text = node instanceof Labeled labeled
                        ? labeled.getText()
                        : node instanceof TextInputControl field
                                ? field.getPromptText()
                                : node instanceof Text free && !(free.getParent() instanceof Labeled)
                                        ? free.getText()
                                        : "";
                // the evidence of a finding is worded by the media floor, in English, as its error messages are
                if (text == null || text.isEmpty() || text.startsWith("Whether time is missing")) {
                    return;
                }
                if (text.indexOf(Language.MARK) >= 0) {
                    marked[0]++;
                } else if (!DATA.matcher(text).matches() && !isData(node) && !data.contains(text.strip())) {
                    wrong.computeIfAbsent(where, key -> new ArrayList<>()).add(ScreenWalk.name(node) + ": " + text);
                }
            });
        });

        assertThat(wrong).isEmpty();
        assertThat(marked[0]).as("words that were looked at").isGreaterThan(200);
    }

    /** Every text of the shipped rubrics and procedures, and of the case: the day and the files of its recording. */
    private static Set<String> data() throws Exception {
        Set<String> texts = new HashSet<>(Set.of("4 Mar 2026", Language.MARKED.ownName()));
        JsonMapper mapper = JsonMapper.builder().build();
        try (var files = Files.list(Path.of(System.getProperty("sideport.home", "."), "rubrics"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".json")).toList()) {
                collect(mapper.readTree(Files.readString(file)), texts);
            }
        }
        texts.addAll(List.of(DemoRecordings.D001));
        return texts;
    }

    private static void collect(JsonNode node, Set<String> texts) {
        if (node.isString()) {
            texts.add(node.stringValue());
        }
        node.forEach(child -> collect(child, texts));
    }

    private static boolean isData(Node node) {
        for (Node up = node; up != null; up = up.getParent()) {
            for (String style : up.getStyleClass()) {
                if (DATA_CLASSES.contains(style)) {
                    return true;
                }
            }
        }
        return false;
    }
}
