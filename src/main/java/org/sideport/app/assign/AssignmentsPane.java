package org.sideport.app.assign;

import java.util.function.Function;
import javafx.beans.property.SimpleStringProperty;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.Spinner;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Columns;
import org.sideport.app.Headings;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;

/** Who marks what: give cases, draw seconds, see what is late, take back. */
public final class AssignmentsPane implements ProgrammePane {

    private final AssignmentsViewModel model;
    private final Texts texts;
    private final BorderPane root = Ui.styled(new BorderPane(), "padded");
    private final TableView<Assignment> table = new TableView<>();
    private final CheckBox blind;
    private final DatePicker due = Ui.day("assign-due", null);

    public AssignmentsPane(AssignmentsViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        blind = new CheckBox(texts.get("assign.blind"));
        blind.setId("assign-blind");
        blind.setSelected(true);
        due.setPromptText(texts.get("assign.due.prompt"));
        due.setAccessibleText(texts.get("assign.due"));
        Label caution = Ui.wrapped(texts.get("assign.caution"), "small", "text-muted");
        root.setTop(new VBox(Ui.STEP, terms(), giving(), drawing()));
        root.setCenter(list());
        root.setBottom(caution);
    }

    private FlowPane terms() {
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, blind, Ui.label(texts.get("assign.due")), due);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private FlowPane giving() {
        TextField cases = field("assign-cases", "assign.cases", 26);
        TextField assessor = field("assign-assessor", "assign.assessor", 8);
        ComboBox<Purpose> purpose = choice("assign-purpose", Purpose.values(), p -> texts.get("purpose." + p.name()));
        purpose.setAccessibleText(texts.get("assign.purpose"));
        Button give = Ui.button(
                "assign-give",
                Feather.SEND,
                texts.get("assign.give"),
                () -> model.give(
                        cases.getText(), assessor.getText(), purpose.getValue(), blind.isSelected(), due.getValue()));
        give.getStyleClass().add("accent");
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, cases, assessor, purpose, give);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private FlowPane drawing() {
        Spinner<Integer> percent = new Spinner<>(1, 100, 25, 5);
        percent.setId("draw-percent");
        percent.setPrefWidth(96);
        percent.setEditable(true);
        percent.setAccessibleText(texts.get("assign.draw.percent"));
        Spinner<Integer> seed = new Spinner<>(1, 999_999, 1, 1);
        seed.setId("draw-seed");
        seed.setPrefWidth(112);
        seed.setEditable(true);
        seed.setAccessibleText(texts.get("assign.draw.seed"));
        Button draw = Ui.button(
                "draw-seconds",
                Feather.SHUFFLE,
                texts.get("assign.draw"),
                () -> model.draw(percent.getValue(), seed.getValue(), blind.isSelected(), due.getValue()));
        FlowPane box = new FlowPane(
                Ui.STEP,
                Ui.STEP,
                Ui.label(texts.get("assign.draw.percent")),
                percent,
                Ui.label(texts.get("assign.draw.seed")),
                seed,
                draw);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private VBox list() {
        table.setId("assignments-table");
        Headings.whole(table);
        table.setItems(model.shown());
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.whenEmpty(table, Ui.wrapped(texts.get("assign.empty"), "text-muted"), model.loadedProperty());
        Columns.codes(table, texts, "assign.column.case", 130, Assignment::caseCode);
        Columns.codes(table, texts, "assign.column.assessor", 100, Assignment::assessor);
        Columns.add(
                table,
                texts,
                "assign.column.purpose",
                100,
                a -> texts.get("purpose." + a.purpose().name()));
        Columns.add(table, texts, "assign.column.label", 90, a -> a.isBlinded() ? a.label() : "");
        Columns.add(table, texts, "assign.column.state", 110, model::state);
        Columns.add(table, texts, "assign.column.due", 110, model::due);
        Columns.add(table, texts, "assign.column.hidden", 150, model::hidden);
        ComboBox<AssignmentsViewModel.Filter> filter = choice(
                "assign-filter", AssignmentsViewModel.Filter.values(), f -> texts.get("assign.filter." + f.name()));
        filter.setAccessibleText(texts.get("assign.filter"));
        filter.setOnAction(event -> model.show(filter.getValue()));
        Label summary = Ui.label("", "digits");
        summary.setId("assign-summary");
        summary.textProperty().bind(model.summaryProperty());
        SimpleStringProperty why = new SimpleStringProperty(model.whyNoWithdrawal(null));
        table.getSelectionModel()
                .selectedItemProperty()
                .addListener((property, old, now) -> why.set(model.whyNoWithdrawal(now)));
        Button withdraw =
                Ui.button("assign-withdraw", Feather.CORNER_UP_LEFT, texts.get("assign.withdraw"), this::askToWithdraw);
        HBox bar = new HBox(Ui.STEP, filter, summary, Ui.spring(), Ui.reasoned(withdraw, why));
        bar.setAlignment(Pos.CENTER_LEFT);
        javafx.scene.layout.VBox.setVgrow(table, javafx.scene.layout.Priority.ALWAYS);
        VBox box = new VBox(Ui.STEP, bar, table);
        box.setPadding(new javafx.geometry.Insets(Ui.STEP, 0, Ui.STEP, 0));
        return box;
    }

    private void askToWithdraw() {
        Assignment one = table.getSelectionModel().getSelectedItem();
        if (one == null) {
            return;
        }
        Question.of(
                        "withdraw",
                        texts.get("assign.withdraw"),
                        texts.get("assign.withdraw.question", one.caseCode(), one.assessor()),
                        texts.get("assign.withdraw"),
                        texts.get("cancel"))
                .ask(root.getScene().getWindow(), () -> model.withdraw(one));
    }

    private TextField field(String id, String key, int columns) {
        TextField field = new TextField();
        field.setId(id);
        field.setPromptText(texts.get(key));
        field.setAccessibleText(texts.get(key));
        field.setPrefColumnCount(columns);
        return field;
    }

    static <T> ComboBox<T> choice(String id, T[] values, Function<T, String> words) {
        ComboBox<T> box = new ComboBox<>();
        box.setId(id);
        box.getItems().setAll(values);
        box.setValue(values[0]);
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(@org.jspecify.annotations.Nullable T value) {
                return value == null ? "" : words.apply(value);
            }

            @Override
            public T fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        return box;
    }

    @Override
    public String id() {
        return "assignments";
    }

    @Override
    public String title() {
        return texts.get("assign.title");
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
    }
}
