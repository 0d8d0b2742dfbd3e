package org.sideport.app.frame;

import java.io.PrintWriter;
import java.io.StringWriter;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.TextArea;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Background;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.LogTail;
import org.sideport.workflow.Program;

/** What is known of a problem, to read and to copy: its words, where it came from, and the last lines of the log. */
final class DetailsDialog extends Dialog<ButtonType> {

    /** @param words what the user was told */
    DetailsDialog(Window owner, Texts texts, String words, @Nullable Throwable failure, LogTail log, Background work) {
        initOwner(owner);
        setTitle(texts.get("details.title"));
        setHeaderText(null);
        setResizable(true);
        Ui.styled(getDialogPane(), "wide");
        TextArea all = new TextArea(report(words, failure));
        all.setId("details");
        all.setEditable(false);
        all.getStyleClass().addAll("digits", "small");
        all.setPrefSize(720, 400);
        VBox.setVgrow(all, Priority.ALWAYS);
        work.run(
                progress -> log.read(),
                lines -> {
                    if (!lines.isEmpty()) {
                        all.appendText("\n\n" + texts.get("details.log") + "\n" + lines);
                        all.positionCaret(0);
                    }
                },
                unreadable -> {});
        Button copy = Ui.button("copy-details", Feather.COPY, texts.get("details.copy"), () -> {
            ClipboardContent content = new ClipboardContent();
            content.putString(all.getText());
            Clipboard.getSystemClipboard().setContent(content);
        });
        getDialogPane()
                .setContent(Ui.styled(
                        new VBox(Ui.STEP, Ui.wrapped(texts.get("details.meaning"), "small", "text-muted"), all, copy),
                        "padded"));
        getDialogPane().getButtonTypes().setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
    }

    private static String report(String words, @Nullable Throwable failure) {
        StringWriter text = new StringWriter();
        text.append("Sideport ").append(Program.VERSION).append('\n').append(words);
        if (failure != null) {
            text.append("\n\n");
            failure.printStackTrace(new PrintWriter(text, true));
        }
        return text.toString();
    }
}
