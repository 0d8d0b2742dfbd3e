package org.sideport.app.frame;

import java.util.Locale;
import javafx.animation.PauseTransition;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Shows the current notice: what, where, and what to do. Hints and good news go by themselves, problems stay. */
final class NoticeBar extends HBox {

    private static final PseudoClass PROBLEM = PseudoClass.getPseudoClass("problem");
    private static final double WIDTH = 640;
    private static final Duration SHORT = Duration.seconds(6);

    private final FontIcon icon = new FontIcon(Feather.INFO);
    private final Label what = Ui.wrapped("", "notice-what");
    private final Label rest = Ui.wrapped("", "small");
    private final PauseTransition away = new PauseTransition(SHORT);

    NoticeBar(Notices notices, Texts texts) {
        super(Ui.STEP);
        getStyleClass().add("notice");
        setId("notice");
        setAlignment(Pos.CENTER_LEFT);
        setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        VBox words = new VBox(0, what, rest);
        HBox.setHgrow(words, Priority.ALWAYS);
        Button close = Ui.iconButton("close-notice", Feather.X, texts.get("notice.close"), notices::clear);
        getChildren().addAll(icon, words, close);
        away.setOnFinished(event -> notices.clear());
        notices.currentProperty().addListener((property, old, now) -> show(now));
        show(notices.currentProperty().get());
    }

    private void show(@Nullable Notice notice) {
        away.stop();
        setVisible(notice != null);
        setManaged(notice != null);
        if (notice == null) {
            return;
        }
        boolean problem = notice.tone() == Notice.Tone.PROBLEM;
        pseudoClassStateChanged(PROBLEM, problem);
        icon.setIconCode(
                problem ? Feather.ALERT_TRIANGLE : notice.tone() == Notice.Tone.DONE ? Feather.CHECK : Feather.INFO);
        what.setText(sentence(notice.what()));
        String where = notice.where();
        String remedy = notice.remedy();
        String more = where == null ? remedy : remedy == null ? where : where + " — " + remedy;
        rest.setText(more == null ? "" : sentence(more));
        rest.setVisible(more != null);
        rest.setManaged(more != null);
        if (!problem) {
            away.playFromStart();
        }
    }

    private static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.UK) + text.substring(1);
    }
}
