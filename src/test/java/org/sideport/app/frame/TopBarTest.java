package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import javafx.beans.property.SimpleStringProperty;
import javafx.scene.Scene;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.RealWindow;
import org.sideport.app.Settings;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The bar with six places, whatever the window's width and the letters' size. */
class TopBarTest {

    private static final List<String> SIX =
            List.of("Fälle", "Ansehen", "Bewerten", "Vergleich", "Fortschritt", "Programm");

    @TempDir
    Path folder;

    private Stage stage;
    private TopBar bar;
    private Settings settings;

    private void show(double percent, double width) throws Exception {
        settings = new Settings(folder.resolve("window.properties"));
        settings.put("font.percent", (int) percent);
        stage = FxToolkit.registerPrimaryStage();
        new FxRobot().interact(() -> {
            bar = new TopBar(
                    new Texts(),
                    new SimpleStringProperty("D-001 · T03"),
                    List.of(
                            Ui.button("jobs", Feather.ACTIVITY, "2", () -> {}),
                            new HBox(
                                    2,
                                    Ui.iconButton("a", Feather.SUN, "a", () -> {}),
                                    Ui.iconButton("b", Feather.SUN, "b", () -> {}),
                                    Ui.iconButton("c", Feather.SUN, "c", () -> {}),
                                    Ui.iconButton("d", Feather.SUN, "d", () -> {}),
                                    Ui.iconButton("e", Feather.SUN, "e", () -> {}))));
            for (String word : SIX) {
                bar.place(word, Feather.FILM, word, Shortcut.TO_REVIEW, () -> {});
            }
            Scene scene = new Scene(new VBox(bar, new StackPane()), width, 300);
            new Theme(settings).dress(scene);
            stage.setScene(scene);
            stage.setWidth(width);
            stage.show();
        });
        RealWindow.until(30, () -> bar.getWidth() > 0);
    }

    @AfterEach
    void close() throws Exception {
        FxToolkit.cleanupStages();
        settings.close();
    }

    @ParameterizedTest
    @CsvSource({"100, 1920", "100, 1280", "100, 960", "125, 1280", "150, 1920", "150, 1280", "150, 960"})
    void nothingIsCutAndTheLastButtonIsInside(double percent, double width) throws Exception {
        show(percent, width);

        assertThat(ScreenWalk.cut(bar)).isEmpty();
        assertThat(ScreenWalk.overlapping(bar)).isEmpty();
        var last = bar.getChildren().get(bar.getChildren().size() - 1).getBoundsInParent();
        assertThat(last.getMaxX()).isLessThanOrEqualTo(bar.getWidth());
        assertThat(bar.placesEndProperty().get()).isBetween(1.0, last.getMinX());
    }

    @Test
    void largeLettersOnASmallScreenKeepTheWordsOfAllPlaces() throws Exception {
        show(150, 1280);

        assertThat(places()).extracting(ToggleButton::getContentDisplay).containsOnly(ContentDisplay.TEXT_ONLY);
    }

    @Test
    void whereWordsLeaveTheirTooltipAndAScreenReaderSayThem() throws Exception {
        show(150, 960);

        assertThat(places()).extracting(ToggleButton::getContentDisplay).containsOnly(ContentDisplay.GRAPHIC_ONLY);
        assertThat(places()).extracting(ToggleButton::getAccessibleText).isEqualTo(SIX);
        assertThat(places())
                .allSatisfy(place -> assertThat(place.getTooltip().getText()).contains(Shortcut.TO_REVIEW.keysText()));
    }

    @Test
    void aWiderWindowBringsIconsAndNameBack() throws Exception {
        show(150, 1280);

        new FxRobot().interact(() -> stage.setWidth(1920));
        RealWindow.until(30, () -> bar.getWidth() == 1920);

        assertThat(places()).extracting(ToggleButton::getContentDisplay).containsOnly(ContentDisplay.LEFT);
        assertThat(bar.lookup(".app-name").isVisible()).isTrue();
    }

    private List<ToggleButton> places() {
        return bar.lookupAll(".place").stream().map(ToggleButton.class::cast).toList();
    }
}
