package org.sideport.app.people;

import java.util.stream.Collectors;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Columns;
import org.sideport.app.Headings;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.Person;

/** Who signs in, in which roles; where nobody does, how to begin. */
public final class PeoplePane implements ProgrammePane {

    private final PeopleViewModel model;
    private final Texts texts;
    private final TableView<Person> table = new TableView<>();
    private final VBox all = Ui.styled(new VBox(Ui.STEP * 2), "padded");

    public PeoplePane(PeopleViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        table.setId("people");
        Headings.whole(table);
        table.setItems(model.people());
        Columns.add(table, texts, "people.code", 140, Person::code);
        Columns.add(
                table,
                texts,
                "people.roles",
                320,
                person -> person.roles().stream()
                        .sorted()
                        .map(role -> texts.get("person.role." + role))
                        .collect(Collectors.joining(", ")));
        Columns.add(table, texts, "people.state", 320, model::state);
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Label none = Ui.wrapped(texts.get("people.none"), "text-muted");
        none.setMaxWidth(560);
        Columns.whenEmpty(table, none, model.loadedProperty());
        VBox.setVgrow(table, Priority.ALWAYS);
        all.setId("people-pane");
        all.getChildren().setAll(Ui.wrapped(texts.get("people.text"), "text-muted"), table, buttons());
    }

    private HBox buttons() {
        StringBinding whyNot = Bindings.createStringBinding(
                () -> selected() == null ? texts.get("people.why.none") : "",
                table.getSelectionModel().selectedItemProperty());
        Button add = Ui.button("people-add", Feather.USER_PLUS, texts.get("people.add"), this::add);
        Button roles = Ui.button("people-roles", Feather.EDIT_2, texts.get("people.changeRoles"), () -> {
            Person person = selected();
            if (person != null) {
                PersonDialog.ofRoles(window(), texts, person, chosen -> model.setRoles(person, chosen.roles()))
                        .show();
            }
        });
        Button block = Ui.button("people-block", Feather.SLASH, texts.get("people.block"), this::turn);
        table.getSelectionModel()
                .selectedItemProperty()
                .addListener((property, old, now) ->
                        block.setText(texts.get(now == null || now.active() ? "people.block" : "people.unblock")));
        Button reset = Ui.button("people-reset", Feather.KEY, texts.get("people.reset"), this::reset);
        return new HBox(
                Ui.STEP, add, Ui.reasoned(roles, whyNot), Ui.reasoned(block, whyNot), Ui.reasoned(reset, whyNot));
    }

    private @Nullable Person selected() {
        return table.getSelectionModel().getSelectedItem();
    }

    private javafx.stage.Window window() {
        return all.getScene().getWindow();
    }

    private void add() {
        if (model.people().isEmpty()) {
            PersonDialog.ofFirst(window(), texts, model).show();
        } else {
            PersonDialog.ofNew(
                            window(),
                            texts,
                            chosen -> model.add(
                                    chosen.code(),
                                    chosen.roles(),
                                    added -> PersonDialog.ofPassword(window(), texts, added)
                                            .show()))
                    .show();
        }
    }

    private void turn() {
        Person person = selected();
        if (person == null) {
            return;
        }
        if (person.active()) {
            ask(
                    texts.get("people.block.question", person.code()),
                    texts.get("people.block.yes"),
                    () -> model.turn(person));
        } else {
            model.turn(person);
        }
    }

    private void reset() {
        Person person = selected();
        if (person != null) {
            ask(
                    texts.get("people.reset.question", person.code()),
                    texts.get("people.reset.yes"),
                    () -> model.resetPassword(
                            person,
                            added -> PersonDialog.ofPassword(window(), texts, added)
                                    .show()));
        }
    }

    private void ask(String question, String yes, Runnable deed) {
        Question.of("people", texts.get("people.title"), question, yes, texts.get("cancel"))
                .ask(window(), deed);
    }

    @Override
    public String id() {
        return "people";
    }

    @Override
    public String title() {
        return texts.get("people.title");
    }

    @Override
    public Node node() {
        return all;
    }

    @Override
    public void shown() {
        model.refresh();
    }
}
