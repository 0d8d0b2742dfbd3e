package org.sideport.app.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.Texts;
import org.sideport.app.settings.Language;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The time-out in real windows, with a clock that is set. */
class SessionCoverTest {

    private static final class SetClock extends Clock {
        Instant now = Instant.parse("2026-03-09T08:00:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    private final FxRobot robot = new FxRobot();
    private final SetClock clock = new SetClock();
    private final AtomicBoolean playing = new AtomicBoolean();
    private final List<String> paused = new ArrayList<>();
    private final List<Runnable> uncovers = new ArrayList<>();
    private TextField typed;
    private Stage second;
    private SessionCover cover;

    @BeforeEach
    void show() throws Exception {
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            typed = new TextField();
            stage.setScene(new Scene(new VBox(typed), 400, 300));
            stage.show();
            typed.requestFocus();
            second = new Stage();
            second.setScene(new Scene(new VBox(new Label("a second window")), 200, 100));
            second.show();
            stage.requestFocus();
            cover = new SessionCover(
                    stage,
                    clock,
                    () -> Duration.ofMinutes(15),
                    playing::get,
                    () -> paused.add("paused"),
                    uncover -> {
                        uncovers.add(uncover);
                        return new SignInPane(
                                new SignInViewModel(null, null, new Texts(Language.of("en")), in -> {}),
                                new Texts(Language.of("en")),
                                "covered",
                                "",
                                true);
                    },
                    scene -> {});
        });
    }

    @AfterEach
    void close() throws Exception {
        robot.interact(() -> {
            cover.close();
            second.close();
        });
        FxToolkit.cleanupStages();
    }

    private void pass(Duration time) {
        clock.now = clock.now.plus(time);
        robot.interact(() -> cover.look());
    }

    @Test
    void coversEveryWindowAfterTheTimeWithoutATouchAndGivesAllBack() {
        robot.interact(() -> {
            typed.setText("half a comm");
            typed.end();
        });
        pass(Duration.ofMinutes(15));
        assertThat(cover.isCovered()).isFalse();
        pass(Duration.ofSeconds(1));
        assertThat(cover.isCovered()).isTrue();
        assertThat(paused).containsExactly("paused");
        assertThat(typed.getScene().getRoot().isVisible()).isFalse();
        assertThat(second.getScene().getRoot().isVisible()).isFalse();
        robot.interact(() -> typed.fireEvent(new javafx.scene.input.KeyEvent(
                javafx.scene.input.KeyEvent.KEY_TYPED, "x", "x", KeyCode.UNDEFINED, false, false, false, false)));
        assertThat(typed.getText()).isEqualTo("half a comm");
        robot.interact(() -> uncovers.get(0).run());
        assertThat(cover.isCovered()).isFalse();
        assertThat(typed.getScene().getRoot().isVisible()).isTrue();
        assertThat(second.getScene().getRoot().isVisible()).isTrue();
        assertThat(typed.getText()).isEqualTo("half a comm");
        robot.interact(() -> typed.fireEvent(new javafx.scene.input.KeyEvent(
                javafx.scene.input.KeyEvent.KEY_TYPED, "e", "e", KeyCode.UNDEFINED, false, false, false, false)));
        assertThat(typed.getText()).isEqualTo("half a comme");
    }

    @Test
    void aTouchBeginsTheTimeAnew() {
        pass(Duration.ofMinutes(14));
        robot.interact(() -> typed.fireEvent(new javafx.scene.input.KeyEvent(
                javafx.scene.input.KeyEvent.KEY_TYPED, "a", "a", KeyCode.UNDEFINED, false, false, false, false)));
        pass(Duration.ofMinutes(14));
        assertThat(cover.isCovered()).isFalse();
        pass(Duration.ofMinutes(2));
        assertThat(cover.isCovered()).isTrue();
    }

    @Test
    void aRunningRecordingIsSomebodyWhoWatches() {
        playing.set(true);
        pass(Duration.ofHours(1));
        assertThat(cover.isCovered()).isFalse();
        playing.set(false);
        pass(Duration.ofMinutes(16));
        assertThat(cover.isCovered()).isTrue();
    }

    @Test
    void theHandThatWakesASleepingMachineFindsItCovered() {
        clock.now = clock.now.plus(Duration.ofHours(9));
        robot.interact(() -> typed.fireEvent(new javafx.scene.input.KeyEvent(
                javafx.scene.input.KeyEvent.KEY_PRESSED, "", "", KeyCode.A, false, false, false, false)));
        assertThat(cover.isCovered()).isTrue();
    }

    @Test
    void aWindowThatOpensWhileCoveredIsCoveredToo() {
        robot.interact(() -> cover.cover());
        Stage[] late = new Stage[1];
        robot.interact(() -> {
            late[0] = new Stage();
            late[0].setScene(new Scene(new VBox(new Label("late")), 100, 100));
            late[0].show();
        });
        assertThat(late[0].getScene().getRoot().isVisible()).isFalse();
        robot.interact(() -> uncovers.get(0).run());
        assertThat(late[0].getScene().getRoot().isVisible()).isTrue();
        robot.interact(late[0]::close);
    }
}
