package org.sideport.app.people;

import javafx.beans.binding.Bindings;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.PasswordField;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Asks for code and password, and for a new password where that is due. */
public final class SignInPane extends VBox {

    private final TextField code = new TextField();
    private final PasswordField password = new PasswordField();
    private final PasswordField fresh = new PasswordField();
    private final PasswordField again = new PasswordField();

    /**
     * @param title what it is for
     * @param codeKnown true if the code is given and not to be changed
     * @param others further buttons
     */
    public SignInPane(
            SignInViewModel model, Texts texts, String title, String text, boolean codeKnown, Node... others) {
        super(Ui.STEP);
        setId("sign-in");
        getStyleClass().addAll("first-card", "sign-in-card");
        setMaxHeight(USE_PREF_SIZE);
        code.setId("sign-in-code");
        code.textProperty().bindBidirectional(model.codeProperty());
        code.setDisable(codeKnown);
        password.setId("sign-in-password");
        fresh.setId("sign-in-new");
        again.setId("sign-in-again");
        Label problem = Ui.wrapped("", "warning-note");
        problem.setId("sign-in-problem");
        problem.textProperty().bind(model.problemProperty());
        Ui.showIf(problem, model.problemProperty().isNotEmpty());
        VBox chosen = new VBox(
                Ui.STEP,
                Ui.wrapped(texts.get("signin.new.text"), "small", "text-muted"),
                named(texts.get("signin.new"), fresh),
                named(texts.get("signin.again"), again));
        Ui.showIf(chosen, model.changingProperty());
        Runnable submit = () -> model.submit(password.getText(), fresh.getText(), again.getText());
        Button go = Ui.button("sign-in-go", null, texts.get("signin.go"), submit);
        go.setDefaultButton(true);
        go.textProperty()
                .bind(Bindings.when(model.changingProperty())
                        .then(texts.get("signin.change.go"))
                        .otherwise(texts.get("signin.go")));
        go.disableProperty().bind(model.busyProperty());
        HBox foot = new HBox(Ui.STEP);
        foot.getChildren().addAll(others);
        foot.getChildren().addAll(Ui.spring(), go);
        heightProperty().addListener((property, old, now) -> fit());
        model.changingProperty().addListener((property, old, now) -> {
            if (now) {
                fresh.requestFocus();
            }
        });
        model.problemProperty().addListener((property, old, now) -> {
            if (!now.isEmpty() && !model.changingProperty().get()) {
                password.selectAll();
                password.requestFocus();
            }
        });
        Label head = Ui.label(title, "large");
        head.setWrapText(true);
        getChildren()
                .addAll(
                        head,
                        Ui.wrapped(text, "small", "text-muted"),
                        named(texts.get("signin.code"), code),
                        named(texts.get("signin.password"), password),
                        chosen,
                        problem,
                        foot);
    }

    private static VBox named(String name, TextField field) {
        Label label = Ui.label(name, "small", "text-muted");
        label.setLabelFor(field);
        field.setAccessibleText(name);
        return new VBox(2, label, field);
    }

    /** A window of its own grows with what there is to say; a large one stays. */
    private void fit() {
        if (getScene() != null && getScene().getWindow() instanceof Stage stage && !stage.isResizable()) {
            stage.sizeToScene();
        }
    }

    /** Puts the keyboard where something is to be typed. */
    public void takeFocus() {
        (code.isDisabled() || !code.getText().isEmpty() ? password : code).requestFocus();
    }
}
