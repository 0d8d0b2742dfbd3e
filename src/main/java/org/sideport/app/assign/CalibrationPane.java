package org.sideport.app.assign;

import java.util.List;
import java.util.Locale;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Background;
import org.sideport.app.Columns;
import org.sideport.app.Formats;
import org.sideport.app.Headings;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.standard.RubricChoice;
import org.sideport.app.standard.StandardsPane;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.assign.CalibrationSet;
import org.sideport.workflow.assign.CalibrationSet.Compared;
import org.sideport.workflow.assign.CalibrationSet.ItemCompared;

/** How assessors who practised compare with the reference marks. */
public final class CalibrationPane implements ProgrammePane {

    private final CalibrationSet set;
    private final RubricChoice choice;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final BorderPane root = Ui.styled(new BorderPane(), "padded");
    private final TableView<Compared> table = new TableView<>();
    private final TableView<ItemCompared> items = new TableView<>();
    private final SimpleBooleanProperty loaded = new SimpleBooleanProperty(false);
    private final Label base = Ui.wrapped("", "text-muted");

    /** @param entering whether who sits here may enter reference marks; others see how they compare with them themselves */
    public CalibrationPane(
            CalibrationSet set,
            Vocabularies vocabularies,
            boolean entering,
            Background work,
            Notices notices,
            Texts texts) {
        this.set = set;
        this.choice = new RubricChoice(vocabularies, work, notices);
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        table.setId("calibration-table");
        Headings.whole(table);
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.whenEmpty(table, Ui.wrapped(texts.get("calibration.empty"), "text-muted"), loaded);
        Columns.add(table, texts, "assign.column.assessor", 100, Compared::assessor);
        Columns.add(table, texts, "calibration.column.cases", 80, c -> String.valueOf(c.cases()));
        Columns.add(table, texts, "calibration.column.severity", 220, this::severity);
        Columns.add(table, texts, "calibration.column.exact", 130, c -> of(c.exact(), c.items()));
        Columns.add(table, texts, "calibration.column.within", 150, c -> of(c.withinOne(), c.items()));
        items.setId("calibration-items");
        Headings.whole(items);
        items.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        items.setPlaceholder(Ui.wrapped(texts.get("calibration.select"), "text-muted"));
        Columns.add(items, texts, "gap.item", 280, ItemCompared::title);
        Columns.add(items, texts, "calibration.column.n", 60, i -> String.valueOf(i.n()));
        Columns.add(items, texts, "calibration.column.exact", 130, i -> of(i.exact(), i.n()));
        Columns.add(items, texts, "calibration.column.within", 150, i -> of(i.withinOne(), i.n()));
        Columns.add(items, texts, "calibration.column.levels", 140, i -> signed(i.meanLevels()));
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            items.getItems().clear();
            if (now != null) {
                items.getItems().setAll(now.byItem());
            }
        });
        base.setId("calibration-base");
        VBox tables = new VBox(Ui.STEP, table, items);
        VBox.setVgrow(table, javafx.scene.layout.Priority.ALWAYS);
        VBox.setVgrow(items, javafx.scene.layout.Priority.ALWAYS);
        BorderPane.setMargin(tables, new Insets(Ui.STEP, 0, Ui.STEP, 0));
        FlowPane rubrics = new FlowPane(
                Ui.STEP,
                Ui.STEP,
                Ui.named(
                        texts.get("standard.rubric"),
                        StandardsPane.rubrics("calibration-rubric", texts, choice.offered(), choice.chosenProperty())));
        rubrics.setAlignment(Pos.CENTER_LEFT);
        choice.chosenProperty().addListener((property, old, now) -> read());
        root.setTop(new VBox(Ui.STEP, rubrics, base));
        root.setCenter(tables);
        VBox foot = new VBox(Ui.STEP);
        if (entering) {
            foot.getChildren().add(reference());
        }
        foot.getChildren().add(Ui.wrapped(texts.get("calibration.note"), "small", "text-muted"));
        root.setBottom(foot);
    }

    private FlowPane reference() {
        TextField code = new TextField();
        code.setId("reference-case");
        code.setPromptText(texts.get("assign.column.case"));
        code.setAccessibleText(texts.get("assign.column.case"));
        code.setPrefColumnCount(10);
        Button enter = Ui.button(
                "enter-reference",
                Feather.USERS,
                texts.get("calibration.enter"),
                () -> enter(code.getText().strip()));
        FlowPane box = new FlowPane(Ui.STEP, Ui.STEP, code, enter);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void enter(String code) {
        Rubric marked = choice.chosen();
        if (code.isEmpty() || marked == null) {
            notices.hint(texts.get("calibration.why.case"));
            return;
        }
        new AgreedDialog(
                        root.getScene().getWindow(),
                        texts,
                        texts.get("calibration.enter.title", code),
                        texts.get("calibration.enter.text"),
                        new AgreedDraft(marked, List.of(), texts),
                        (agreed, by, why) -> record(code, agreed, by, why))
                .show();
    }

    private void record(String code, Rating agreed, String by, String why) {
        work.run(
                progress -> set.setReference(code, agreed, by, why),
                reference -> {
                    notices.show(Notice.done(texts.get("calibration.entered", code), null));
                    shown();
                },
                notices::failed);
    }

    private String severity(Compared one) {
        Estimate severity = one.severity();
        if (severity == null) {
            return texts.get("calibration.few");
        }
        Interval limits = severity.limits();
        return limits == null
                ? signed(severity.value())
                : texts.get(
                        "calibration.severity",
                        signed(severity.value()),
                        signed(limits.lower()),
                        signed(limits.upper()));
    }

    private String of(int part, int whole) {
        return whole == 0
                ? Formats.UNKNOWN
                : texts.get("calibration.of", Formats.percent((double) part / whole), part, whole);
    }

    private static String signed(double value) {
        return String.format(Locale.ROOT, "%+.2f", value).replace('-', '−');
    }

    @Override
    public String id() {
        return "calibration";
    }

    @Override
    public String title() {
        return texts.get("calibration.title");
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        choice.load(this::read);
    }

    private void read() {
        Rubric of = choice.chosen();
        if (of == null) {
            return;
        }
        work.run(
                progress -> set.report(of.id()),
                report -> {
                    if (of.equals(choice.chosen())) {
                        base.setText(texts.get("calibration.base", report.references(), of.title()));
                        table.getItems().setAll(report.assessors());
                        loaded.set(true);
                    }
                },
                notices::failed);
    }
}
