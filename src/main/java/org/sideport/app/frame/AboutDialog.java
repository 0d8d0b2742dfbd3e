package org.sideport.app.frame;

import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.Program;

/** What the program is and what it is not. */
final class AboutDialog extends Dialog<ButtonType> {

    AboutDialog(Window owner, Texts texts, String player, Runnable first) {
        initOwner(owner);
        setTitle(texts.get("about.title"));
        setHeaderText(null);
        VBox words = Ui.styled(new VBox(Ui.STEP * 2), "padded");
        words.getChildren().add(Ui.label(texts.get("about.version", Program.VERSION), "large"));
        for (String key : new String[] {"about.what", "about.caution", "about.authority", "about.licence"}) {
            Label label = Ui.wrapped(texts.get(key));
            label.setPrefWidth(520);
            words.getChildren().add(label);
        }
        words.getChildren().add(Ui.wrapped(player, "small", "text-muted"));
        Hyperlink steps = new Hyperlink(texts.get("settings.first"));
        steps.setId("about-first");
        steps.setOnAction(event -> {
            close();
            first.run();
        });
        words.getChildren().add(steps);
        getDialogPane().setContent(words);
        getDialogPane().getButtonTypes().setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
    }
}
