package org.sideport.app.keeping;

import java.time.LocalDate;
import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Question;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.Deletion;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.DeletionPlan;

/** Consent and keeping: what waits for a look or for deletion, the unit's rules, the log of deletions. */
public final class KeepingPane implements ProgrammePane {

    /** A list with more lines than anyone works through at once is told by its first ones. */
    private static final int SHOWN = 100;

    private final KeepingViewModel model;
    private final Texts texts;
    private final VBox withdrawn = new VBox(Ui.STEP);
    private final VBox due = new VBox(Ui.STEP);
    private final VBox rules = new VBox(Ui.STEP);
    private final VBox log = new VBox(Ui.STEP / 2);
    private final VBox left = new VBox(Ui.STEP / 2);
    private final ScrollPane root;

    public KeepingPane(KeepingViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        withdrawn.setId("keeping-withdrawn");
        due.setId("keeping-due");
        log.setId("keeping-log");
        left.setId("keeping-left");
        TextField by = Ui.codeField(
                "keeping-by",
                texts.get("keeping.by.prompt"),
                model.byProperty().get(),
                code -> model.byProperty().set(code.strip()));
        if (model.isByFixed()) {
            Ui.fixed(by, texts.get("who.own", by.getText()));
        }
        Label label = Ui.label(texts.get("keeping.by"), "text-muted");
        label.setLabelFor(by);
        Label why = Ui.label("", "small", "text-muted");
        why.textProperty().bind(model.whyNotProperty());
        HBox who = new HBox(Ui.STEP, label, by, why);
        who.setAlignment(Pos.CENTER_LEFT);
        VBox content = Ui.styled(
                new VBox(
                        Ui.STEP * 2,
                        Ui.wrapped(texts.get("keeping.caution"), "text-muted"),
                        who,
                        left,
                        section("keeping.withdrawn", withdrawn),
                        section("keeping.due", due),
                        section("keeping.rules", rules),
                        section("keeping.log", log)),
                "dialog-content");
        root = Ui.styled(new ScrollPane(content), "edge-to-edge");
        root.setFitToWidth(true);
        model.overviewProperty().addListener((property, old, now) -> fill(now));
        model.leftToDo().addListener((ListChangeListener<String>) change -> fillLeft());
        Ui.showIf(left, Bindings.isNotEmpty(model.leftToDo()));
    }

    private VBox section(String key, Node body) {
        return new VBox(
                Ui.STEP,
                Ui.label(texts.get(key), "section"),
                Ui.wrapped(texts.get(key + ".text"), "small", "text-muted"),
                body);
    }

    @Override
    public String id() {
        return "keeping";
    }

    @Override
    public String title() {
        return texts.get("keeping.title");
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
    }

    private void fill(CaseKeeping.@Nullable Overview now) {
        for (VBox box : List.of(withdrawn, due, rules, log)) {
            box.getChildren().clear();
        }
        if (now == null) {
            return;
        }
        now.withdrawn().stream()
                .limit(SHOWN)
                .forEach(c -> withdrawn.getChildren().add(withdrawnRow(c)));
        rest(withdrawn, now.withdrawn().size());
        now.due().stream().limit(SHOWN).forEach(c -> due.getChildren().add(dueRow(c)));
        rest(due, now.due().size());
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP);
        for (ConsentSituation situation : ConsentSituation.values()) {
            grid.addRow(
                    grid.getRowCount(),
                    Ui.label(texts.get("keeping.situation." + situation.name())),
                    ruling(situation, now.rules().getOrDefault(situation, situation.usual())));
        }
        rules.getChildren().add(grid);
        now.log().stream().limit(SHOWN).forEach(d -> log.getChildren().add(Ui.label(line(d), "text-muted")));
        rest(log, now.log().size());
    }

    private void rest(VBox box, int count) {
        if (count == 0) {
            box.getChildren().add(Ui.label(texts.get("keeping.nothing"), "text-muted"));
        } else if (count > SHOWN) {
            box.getChildren().add(Ui.label(texts.get("keeping.more", count - SHOWN), "text-muted"));
        }
    }

    private String line(Deletion d) {
        return texts.get(
                "keeping.log.line",
                texts.day(d.on()),
                d.by(),
                texts.get("keeping.kind." + d.kind().name()),
                d.id());
    }

    private HBox withdrawnRow(SurgicalCase one) {
        LocalDate on = one.consent().recordedOn();
        String since = on == null ? Formats.UNKNOWN : texts.day(on);
        Button mistake = Ui.button(
                "keeping-take-back-" + one.code(),
                Feather.ROTATE_CCW,
                texts.get("keeping.takeBack"),
                () -> ask("keeping.takeBack.ask", one.code(), List.of(), () -> model.takeBack(one.code())));
        return row(
                texts.get("keeping.withdrawn.line", one.code(), one.trainee(), since),
                Ui.reasoned(mistake, model.whyNotProperty()),
                delete(one));
    }

    private HBox dueRow(SurgicalCase one) {
        LocalDate by = one.reviewBy();
        DatePicker until = Ui.day("keeping-until-" + one.code(), model.today().plusYears(1));
        until.setPrefWidth(136);
        until.setAccessibleText(texts.get("keeping.until", one.code()));
        Button keep = Ui.button("keeping-extend-" + one.code(), Feather.CLOCK, texts.get("keeping.extend"), () -> {
            LocalDate day = until.getValue();
            if (day != null) {
                model.extend(one.code(), day);
            }
        });
        Button done = Ui.button(
                "keeping-done-" + one.code(), Feather.CHECK, texts.get("keeping.done"), () -> model.done(one.code()));
        return row(
                texts.get("keeping.due.line", one.code(), one.trainee(), by == null ? Formats.UNKNOWN : texts.day(by)),
                until,
                Ui.reasoned(keep, model.whyNotProperty()),
                Ui.reasoned(done, model.whyNotProperty()),
                delete(one));
    }

    private Node delete(SurgicalCase one) {
        Button delete = Ui.button(
                "keeping-delete-" + one.code(),
                Feather.TRASH_2,
                texts.get("keeping.delete"),
                () -> model.plan(one.code(), this::confirm));
        return Ui.reasoned(delete, model.whyNotProperty());
    }

    private static HBox row(String text, Node... actions) {
        HBox row = Ui.styled(new HBox(Ui.STEP, Ui.wrapped(text), Ui.spring()), "job-line");
        row.getChildren().addAll(actions);
        row.setAlignment(Pos.CENTER_LEFT);
        return row;
    }

    private ComboBox<ConsentRuling> ruling(ConsentSituation situation, ConsentRuling now) {
        ComboBox<ConsentRuling> choice = new ComboBox<>();
        choice.setId("keeping-rule-" + situation.id());
        choice.getItems().setAll(ConsentRuling.values());
        choice.setConverter(new StringConverter<ConsentRuling>() {
            @Override
            public String toString(@Nullable ConsentRuling ruling) {
                return ruling == null ? "" : texts.get("keeping.ruling." + ruling.name());
            }

            @Override
            public @Nullable ConsentRuling fromString(String text) {
                return null;
            }
        });
        choice.setValue(now);
        choice.setAccessibleText(texts.get("keeping.situation." + situation.name()));
        choice.valueProperty().addListener((property, old, wanted) -> {
            if (wanted != null && wanted != now) {
                model.decide(situation, wanted);
            }
        });
        return choice;
    }

    private void confirm(DeletionPlan plan) {
        ask("keeping.delete.ask", plan.code(), model.told(plan), () -> model.delete(plan));
    }

    private void ask(String key, String code, List<String> lines, Runnable deed) {
        new Question(
                        "keeping",
                        texts.get("keeping.title"),
                        texts.get(key, code),
                        lines,
                        texts.get(key + ".yes"),
                        texts.get("cancel"),
                        true)
                .ask(root.getScene().getWindow(), deed);
    }

    private void fillLeft() {
        left.getChildren().clear();
        left.getChildren().add(Ui.label(texts.get("keeping.left"), "section"));
        model.leftToDo().forEach(line -> left.getChildren().add(Ui.wrapped(line, "warning-note")));
        left.getChildren()
                .add(Ui.button("keeping-left-done", Feather.CHECK, texts.get("keeping.left.done"), model::forgetLeft));
    }
}
