package org.sideport.app.assign;

import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Spinner;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Columns;
import org.sideport.app.Headings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.MarkingRules;
import org.sideport.workflow.assign.Adjudication.Disagreement;

/** Cases whose marks differ beyond the limits, and what stands. */
public final class DisagreementsPane implements ProgrammePane {

    private final DisagreementsViewModel model;
    private final Texts texts;
    private final BorderPane root = Ui.styled(new BorderPane(), "padded");
    private final TableView<Disagreement> table = new TableView<>();
    private final ComboBox<String> standing = new ComboBox<>();

    public DisagreementsPane(DisagreementsViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        table.setId("disagreements-table");
        Headings.whole(table);
        table.setItems(model.shown());
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.whenEmpty(table, Ui.wrapped(texts.get("differ.empty"), "text-muted"), model.loadedProperty());
        Columns.codes(table, texts, "assign.column.case", 100, Disagreement::caseCode);
        Columns.add(table, texts, "differ.column.marks", 220, DisagreementsViewModel::marks);
        Columns.add(table, texts, "differ.column.gap", 100, d -> texts.get("differ.points", 100 * d.shareGap()));
        Columns.add(table, texts, "differ.column.far", 140, model::far);
        Columns.add(table, texts, "differ.column.stage", 220, model::stage);
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            standing.getItems().clear();
            if (now != null) {
                standing.getItems().setAll(now.assessors().keySet());
            }
        });
        BorderPane.setMargin(table, new Insets(Ui.STEP, 0, Ui.STEP, 0));
        root.setTop(rules());
        root.setCenter(table);
        root.setBottom(
                new VBox(Ui.STEP, third(), stand(), Ui.wrapped(texts.get("differ.note"), "small", "text-muted")));
    }

    private FlowPane rules() {
        CheckBox selfFirst = new CheckBox(texts.get("differ.selfFirst"));
        selfFirst.setId("rule-self-first");
        Spinner<Integer> percent = new Spinner<>(1, 100, 15, 1);
        percent.setId("rule-share");
        percent.setPrefWidth(88);
        percent.setEditable(true);
        percent.setAccessibleText(texts.get("differ.share"));
        Spinner<Integer> items = new Spinner<>(1, 99, 4, 1);
        items.setId("rule-items");
        items.setPrefWidth(88);
        items.setEditable(true);
        items.setAccessibleText(texts.get("differ.items"));
        model.rulesProperty().addListener((property, old, now) -> show(now, selfFirst, percent, items));
        show(model.rulesProperty().get(), selfFirst, percent, items);
        Button save = Ui.button(
                "rule-save",
                Feather.SAVE,
                texts.get("differ.rules.save"),
                () -> model.setRules(selfFirst.isSelected(), percent.getValue(), items.getValue()));
        FlowPane box = new FlowPane(
                Ui.STEP,
                Ui.STEP,
                Ui.label(texts.get("differ.share")),
                percent,
                Ui.label(texts.get("differ.items")),
                items,
                selfFirst,
                save);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private static void show(MarkingRules rules, CheckBox selfFirst, Spinner<Integer> percent, Spinner<Integer> items) {
        selfFirst.setSelected(rules.selfFirst());
        percent.getValueFactory().setValue((int) Math.round(rules.shareLimit() * 100));
        items.getValueFactory().setValue(rules.itemsLimit());
    }

    private FlowPane third() {
        TextField assessor = field("third-assessor", "assign.assessor", 8);
        Button give = Ui.button(
                "give-third",
                Feather.SEND,
                texts.get("differ.third"),
                () -> model.giveThird(selected(), assessor.getText()));
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, assessor, give);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private FlowPane stand() {
        standing.setId("stands");
        standing.setPromptText(texts.get("differ.stands"));
        standing.setAccessibleText(texts.get("differ.stands"));
        TextField by = field("settled-by", "differ.by", 12);
        TextField why = field("settled-why", "differ.why", 28);
        Button settle = Ui.button(
                "settle",
                Feather.CHECK_CIRCLE,
                texts.get("differ.settle"),
                () -> model.letStand(selected(), standing.getValue(), by.getText(), why.getText()));
        Button anew = Ui.button("agree-anew", Feather.USERS, texts.get("differ.agree"), this::agree);
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, standing, by, why, settle, anew);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void agree() {
        Disagreement one = selected();
        model.differing(one, draft -> {
            String code = one == null ? "" : one.caseCode();
            new AgreedDialog(
                            root.getScene().getWindow(),
                            texts,
                            texts.get("differ.agree.title", code),
                            texts.get("differ.agree.text"),
                            draft,
                            (agreed, by, why) -> model.agree(code, agreed, by, why))
                    .show();
        });
    }

    private @org.jspecify.annotations.Nullable Disagreement selected() {
        return table.getSelectionModel().getSelectedItem();
    }

    private TextField field(String id, String key, int columns) {
        TextField field = new TextField();
        field.setId(id);
        field.setPromptText(texts.get(key));
        field.setAccessibleText(texts.get(key));
        field.setPrefColumnCount(columns);
        return field;
    }

    @Override
    public String id() {
        return "disagreements";
    }

    @Override
    public String title() {
        return texts.get("differ.title");
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
