package org.sideport.app.progress;

import java.util.List;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.Navigator;
import org.sideport.workflow.ProgressView.Said;

/** What others would have done better or asked, with the way into the moment. */
final class SaidList extends VBox {

    /** With more, the charts would be far below. */
    private static final int FIRST = 5;

    private static final int MOST = 50;

    SaidList(List<Said> comments, Texts texts, Navigator navigator) {
        super(Ui.STEP / 2);
        setId("progress-comments");
        if (comments.isEmpty()) {
            getChildren().add(Ui.wrapped(texts.get("progress.comments.none"), "text-muted"));
            return;
        }
        long open = comments.stream().filter(c -> !c.answered()).count();
        getChildren().add(Ui.wrapped(texts.get("progress.comments.count", comments.size(), open), "text-muted"));
        comments.stream().limit(FIRST).forEach(said -> getChildren().add(row(said, texts, navigator)));
        if (comments.size() > FIRST) {
            Hyperlink all = new Hyperlink(texts.get("progress.comments.all", comments.size()));
            all.setId("progress-comments-all");
            all.setOnAction(event -> {
                getChildren().remove(all);
                comments.stream()
                        .skip(FIRST)
                        .limit(MOST)
                        .forEach(said -> getChildren().add(row(said, texts, navigator)));
                if (comments.size() > FIRST + MOST) {
                    getChildren()
                            .add(Ui.label(
                                    texts.get("progress.comments.more", comments.size() - FIRST - MOST), "small"));
                }
            });
            getChildren().add(all);
        }
    }

    private static HBox row(Said said, Texts texts, Navigator navigator) {
        Label done = new Label("", new FontIcon(said.answered() ? Feather.CHECK_SQUARE : Feather.SQUARE));
        String state = texts.get(said.answered() ? "progress.comments.answered" : "progress.comments.waits");
        done.setAccessibleText(state);
        done.setTooltip(new javafx.scene.control.Tooltip(state));
        String at = said.at().toClockText();
        Button go = Ui.button(
                "show-" + said.comment(),
                Feather.PLAY,
                texts.get("progress.comments.show", said.of().code(), at),
                () -> navigator.toComments(said.of().code(), said.at()));
        Label text = Ui.wrapped(said.text().isBlank() ? texts.get("progress.comments.drawn") : said.text());
        Ui.filling(text);
        Label who = Ui.label(
                texts.get(
                        "progress.comments.by", texts.get("tone." + said.tone().name()), said.author()),
                "small",
                "text-muted");
        who.setMinWidth(USE_PREF_SIZE);
        done.setMinWidth(USE_PREF_SIZE);
        HBox row = new HBox(Ui.STEP, done, go, text, who);
        row.setAlignment(Pos.CENTER_LEFT);
        return row;
    }
}
