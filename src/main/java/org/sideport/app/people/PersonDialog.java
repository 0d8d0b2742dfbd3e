package org.sideport.app.people;

import java.util.EnumSet;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import javafx.event.ActionEvent;
import javafx.scene.Node;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.PasswordField;
import javafx.scene.control.TextField;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Person;
import org.sideport.model.Role;
import org.sideport.workflow.People;

/** Asks for what is known of a person, or tells a first password. */
final class PersonDialog extends Dialog<ButtonType> {

    /** What was filled in. */
    record Chosen(String code, Set<Role> roles) {}

    private final Texts texts;
    private final VBox content = new VBox(Ui.STEP);
    private final TextField code = new TextField();
    private final Set<Role> roles = EnumSet.noneOf(Role.class);
    private final Label problem = Ui.wrapped("", "warning-note");

    private PersonDialog(Window owner, Texts texts, String title) {
        this.texts = texts;
        initOwner(owner);
        setTitle(title);
        setHeaderText(null);
        code.setId("person-code");
        problem.setId("person-problem");
        Ui.showIf(problem, problem.textProperty().isNotEmpty());
        content.getStyleClass().add("small-form");
        getDialogPane().setContent(content);
        setResultConverter(button -> button);
    }

    static PersonDialog ofNew(Window owner, Texts texts, Consumer<Chosen> use) {
        PersonDialog dialog = new PersonDialog(owner, texts, texts.get("people.add"));
        dialog.content
                .getChildren()
                .addAll(Ui.wrapped(texts.get("people.add.text"), "small", "text-muted"), dialog.codeRow());
        dialog.roleRows(Set.of());
        dialog.buttons(texts.get("people.add.go"), all -> {
            use.accept(all);
            return true;
        });
        return dialog;
    }

    static PersonDialog ofRoles(Window owner, Texts texts, Person person, Consumer<Chosen> use) {
        PersonDialog dialog = new PersonDialog(owner, texts, texts.get("people.rolesOf", person.code()));
        dialog.code.setText(person.code());
        dialog.roleRows(person.roles());
        dialog.buttons(texts.get("people.roles.go"), all -> {
            use.accept(all);
            return true;
        });
        return dialog;
    }

    /** The first: a director, with a password of their own. */
    static PersonDialog ofFirst(Window owner, Texts texts, PeopleViewModel model) {
        PersonDialog dialog = new PersonDialog(owner, texts, texts.get("people.first"));
        PasswordField password = new PasswordField();
        password.setId("person-password");
        PasswordField again = new PasswordField();
        again.setId("person-again");
        dialog.content
                .getChildren()
                .addAll(Ui.wrapped(texts.get("people.first.text"), "small", "text-muted"), dialog.codeRow());
        dialog.roleRows(EnumSet.of(Role.DIRECTOR));
        dialog.content
                .getChildren()
                .addAll(
                        named(texts.get("signin.new"), password),
                        named(texts.get("signin.again"), again),
                        Ui.wrapped(texts.get("signin.new.text"), "small", "text-muted"));
        dialog.buttons(texts.get("people.first.go"), all -> {
            if (!password.getText().equals(again.getText())) {
                dialog.problem.setText(texts.get("signin.why.differ"));
            } else {
                model.addFirst(all.code(), all.roles(), password.getText(), dialog.problem::setText, dialog::close);
            }
            return false;
        });
        return dialog;
    }

    /** Tells a password that was made, this once. */
    static PersonDialog ofPassword(Window owner, Texts texts, People.Added added) {
        PersonDialog dialog = new PersonDialog(owner, texts, texts.get("people.password.title"));
        String made = String.valueOf(added.firstPassword());
        TextField shown = new TextField(made);
        shown.setId("first-password");
        shown.setEditable(false);
        shown.getStyleClass().add("digits");
        dialog.content
                .getChildren()
                .addAll(
                        Ui.wrapped(
                                texts.get("people.password.text", added.person().code())),
                        shown,
                        Ui.button("copy-password", Feather.COPY, texts.get("people.password.copy"), () -> {
                            ClipboardContent clip = new ClipboardContent();
                            clip.putString(made);
                            Clipboard.getSystemClipboard().setContent(clip);
                        }));
        dialog.getDialogPane()
                .getButtonTypes()
                .setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
        return dialog;
    }

    private Node codeRow() {
        code.setPromptText(texts.get("people.code.prompt"));
        return named(texts.get("people.code"), code);
    }

    private static Node named(String name, TextField field) {
        Label label = Ui.label(name, "small", "text-muted");
        label.setLabelFor(field);
        field.setAccessibleText(name);
        return new VBox(2, label, field);
    }

    private void roleRows(Set<Role> now) {
        content.getChildren().add(Ui.label(texts.get("people.roles"), "small", "text-muted"));
        for (Role role : Role.values()) {
            CheckBox box = new CheckBox(texts.get("person.role." + role));
            box.setId("person-role-" + role);
            box.setSelected(now.contains(role));
            if (now.contains(role)) {
                roles.add(role);
            }
            box.setOnAction(event -> {
                if (box.isSelected()) {
                    roles.add(role);
                } else {
                    roles.remove(role);
                }
            });
            content.getChildren().add(box);
        }
    }

    /** @param use answers whether the window may close */
    private void buttons(String go, Predicate<Chosen> use) {
        content.getChildren().add(problem);
        ButtonType does = new ButtonType(go, ButtonBar.ButtonData.OK_DONE);
        getDialogPane()
                .getButtonTypes()
                .setAll(does, new ButtonType(texts.get("cancel"), ButtonBar.ButtonData.CANCEL_CLOSE));
        Node button = getDialogPane().lookupButton(does);
        button.setId("person-go");
        ((Region) button).setMinWidth(Region.USE_PREF_SIZE);
        button.addEventFilter(ActionEvent.ACTION, event -> {
            problem.setText("");
            if (code.getText().isBlank() || roles.isEmpty()) {
                problem.setText(texts.get("people.why.incomplete"));
                event.consume();
            } else if (!use.test(new Chosen(code.getText().strip(), EnumSet.copyOf(roles)))) {
                event.consume();
            }
        });
        setOnShown(event -> code.requestFocus());
    }
}
