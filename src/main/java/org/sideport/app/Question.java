package org.sideport.app;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Alert;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Window;

/**
 * Asked once before something is done.
 *
 * @param id of the button that says yes, before {@code -yes}
 * @param lines what more is to be known, one a line; may be empty
 * @param yes what the button does, such as "Sign"
 * @param grave true where it cannot be undone: Enter alone does not say yes
 */
public record Question(String id, String title, String text, List<String> lines, String yes, String no, boolean grave) {

    private static final double WIDTH = 480;

    public Question {
        lines = List.copyOf(lines);
    }

    public static Question of(String id, String title, String text, String yes, String no) {
        return new Question(id, title, text, List.of(), yes, no, false);
    }

    /** Asks over a window, and does it if the answer is yes. Does not wait. */
    public void ask(Window owner, Runnable deed) {
        Alert alert = new Alert(Alert.AlertType.CONFIRMATION);
        alert.initOwner(owner);
        alert.setTitle(title);
        alert.setHeaderText(null);
        alert.setGraphic(null);
        VBox said = Ui.styled(new VBox(Ui.STEP, Ui.wrapped(text)), "padded");
        lines.forEach(line -> said.getChildren().add(Ui.wrapped(line, "text-muted")));
        said.setPrefWidth(WIDTH);
        alert.getDialogPane().setContent(said);
        alert.getDialogPane().getStylesheets().setAll(owner.getScene().getStylesheets());
        ButtonType does = new ButtonType(yes, ButtonBar.ButtonData.OK_DONE);
        ButtonType refuses = new ButtonType(no, ButtonBar.ButtonData.CANCEL_CLOSE);
        alert.getButtonTypes().setAll(does, refuses);
        Button button = (Button) alert.getDialogPane().lookupButton(does);
        button.setId(id + "-yes");
        button.setDefaultButton(!grave);
        button.setMinWidth(Region.USE_PREF_SIZE);
        if (grave) {
            Node stay = alert.getDialogPane().lookupButton(refuses);
            alert.setOnShown(event -> stay.requestFocus());
        }
        alert.setOnHidden(event -> {
            if (alert.getResult() == does) {
                deed.run();
            }
        });
        alert.show();
    }
}
