package org.sideport.app.frame;

import java.util.List;
import java.util.function.Consumer;
import javafx.animation.PauseTransition;
import javafx.collections.ListChangeListener;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
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
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/**
 * Shows what there is to say: what, where, and what to do. The newest stand one below the other, the others are counted.
 * Hints and good news go by themselves, problems stay, and what is known of a problem can be copied.
 */
final class NoticeBar extends VBox {

    private static final PseudoClass PROBLEM = PseudoClass.getPseudoClass("problem");
    private static final double WIDTH = 640;
    private static final int SHOWN = 3;
    private static final Duration SHORT = Duration.seconds(6);

    private final Notices notices;
    private final Texts texts;
    private final Consumer<Notice> details;
    private final PauseTransition away = new PauseTransition(SHORT);

    /** @param details shows what is known of a problem */
    NoticeBar(Notices notices, Texts texts, Consumer<Notice> details) {
        super(Ui.STEP / 2);
        this.notices = notices;
        this.texts = texts;
        this.details = details;
        setId("notice");
        setPickOnBounds(false);
        setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        away.setOnFinished(event -> notices.clearPassing());
        notices.all().addListener((ListChangeListener<Notice>) change -> show());
        show();
    }

    private void show() {
        List<Notice> all = notices.all();
        getChildren().clear();
        for (int i = 0; i < Math.min(SHOWN, all.size()); i++) {
            getChildren().add(card(all.get(i), i == 0));
        }
        if (all.size() > SHOWN) {
            Label more = Ui.label(texts.get("notice.more", all.size() - SHOWN), "small");
            Hyperlink allAway = new Hyperlink(texts.get("notice.allAway"));
            allAway.setId("all-notices-away");
            allAway.getStyleClass().add("small");
            allAway.setOnAction(event -> notices.clear());
            HBox line = Ui.styled(new HBox(Ui.STEP, more, allAway), "notice");
            line.setAlignment(Pos.CENTER_LEFT);
            getChildren().add(line);
        }
        setVisible(!all.isEmpty());
        setManaged(!all.isEmpty());
        away.stop();
        if (all.stream().anyMatch(one -> one.tone() != Notice.Tone.PROBLEM)) {
            away.playFromStart();
        }
    }

    private Node card(Notice notice, boolean newest) {
        boolean problem = notice.tone() == Notice.Tone.PROBLEM;
        FontIcon icon = new FontIcon(
                problem ? Feather.ALERT_TRIANGLE : notice.tone() == Notice.Tone.DONE ? Feather.CHECK : Feather.INFO);
        VBox words = new VBox(0, Ui.wrapped(texts.sentence(notice.what()), "notice-what"));
        HBox.setHgrow(words, Priority.ALWAYS);
        String more = rest(notice);
        if (more != null) {
            words.getChildren().add(Ui.wrapped(texts.sentence(more), "small"));
        }
        HBox card = Ui.styled(new HBox(Ui.STEP, icon, words), "notice");
        card.setAlignment(Pos.CENTER_LEFT);
        card.pseudoClassStateChanged(PROBLEM, problem);
        if (notice.failure() != null) {
            Button what = Ui.button("notice-details", null, texts.get("notice.details"), () -> details.accept(notice));
            what.getStyleClass().addAll("small", "flat");
            card.getChildren().add(what);
        }
        Button close = Ui.iconButton(
                newest ? "close-notice" : "close-older-notice",
                Feather.X,
                Ui.withKey(texts, Shortcut.DISMISS_NOTICE),
                () -> notices.dismiss(notice));
        card.getChildren().add(close);
        return card;
    }

    private static @Nullable String rest(Notice notice) {
        String where = notice.where();
        String remedy = notice.remedy();
        return where == null ? remedy : remedy == null ? where : where + " — " + remedy;
    }
}
