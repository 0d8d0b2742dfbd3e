package org.sideport.app.standard;

import java.util.List;
import java.util.Locale;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;
import org.sideport.stats.Outcome;
import org.sideport.workflow.Codes;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.CutProposal;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.progress.ProgressWords;

/** Finds a cut by a method, shows what it rests on, and keeps it once people have agreed. */
final class CutSection extends VBox {

    private final StandardsViewModel model;
    private final Texts texts;
    private final ComboBox<StandardMethod> method = new ComboBox<>();
    private final FlowPane settings = new FlowPane(Ui.STEP, Ui.STEP);
    private final VBox result = new VBox(Ui.STEP);
    private final VBox kept = new VBox(Ui.STEP);
    private final TextField gradeRubric = field("cut-grade-rubric", 14);
    private final TextField gradeItem = field("cut-grade-item", 14);
    private final TextField borderline = field("cut-borderline", 5);
    private final TextField weaker = field("cut-weaker", 14);
    private final TextField stronger = field("cut-stronger", 14);
    private final TextField share = field("cut-share", 6);

    CutSection(StandardsViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("cut");
        method.setId("cut-method");
        method.setAccessibleText(texts.get("standard.method"));
        method.getItems().setAll(StandardMethod.values());
        method.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable StandardMethod value) {
                return value == null ? "" : texts.get("standard.method." + value.name());
            }

            @Override
            public StandardMethod fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        method.setValue(StandardMethod.ANGOFF);
        method.valueProperty().addListener((property, old, now) -> settings());
        HBox choice = new HBox(
                Ui.STEP,
                Ui.label(texts.get("standard.method"), "text-muted"),
                method,
                Ui.styled(
                        Ui.button(
                                "cut-compute",
                                Feather.TARGET,
                                texts.get("standard.compute"),
                                () -> model.propose(this::basis)),
                        "accent"));
        choice.setAlignment(Pos.CENTER_LEFT);
        getChildren()
                .addAll(
                        Ui.label(texts.get("standard.inForce"), "section"),
                        kept,
                        Ui.label(texts.get("standard.find"), "section", "group-heading"),
                        choice,
                        settings,
                        result);
        settings();
        model.proposalProperty().addListener((property, old, now) -> show(now));
        model.agreed().addListener((ListChangeListener<Standard>) change -> showKept());
        showKept();
    }

    private void showKept() {
        kept.getChildren().clear();
        for (Standard standard : model.agreed()) {
            Label line = Ui.wrapped(Figure.standard(texts, standard));
            line.setId("standard-" + standard.rubricVersion() + "-" + standard.number());
            kept.getChildren().add(line);
            if (!standard.inForce()) {
                line.getStyleClass().add("text-muted");
                continue;
            }
            if (!standard.note().isEmpty()) {
                kept.getChildren().add(Ui.wrapped(standard.note(), "text-muted", "data"));
            }
            standard.warnings().forEach(w -> kept.getChildren().add(Ui.wrapped(w, "small", "text-muted", "data")));
        }
        if (kept.getChildren().isEmpty()) {
            kept.getChildren().add(Ui.wrapped(texts.get("standard.none"), "text-muted"));
        }
    }

    private void settings() {
        StandardMethod chosen = method.getValue();
        settings.getChildren().clear();
        switch (chosen) {
            case ANGOFF -> settings.getChildren().add(Ui.wrapped(texts.get("standard.how.ANGOFF"), "text-muted"));
            case BORDERLINE_REGRESSION, BORDERLINE_GROUP -> {
                settings.getChildren().add(Ui.wrapped(texts.get("standard.how." + chosen.name()), "text-muted"));
                settings.getChildren()
                        .addAll(
                                named("standard.gradeRubric", gradeRubric),
                                named("standard.gradeItem", gradeItem),
                                named("standard.borderline", borderline));
            }
            case CONTRASTING_GROUPS -> {
                settings.getChildren().add(Ui.wrapped(texts.get("standard.how.CONTRASTING_GROUPS"), "text-muted"));
                settings.getChildren().addAll(named("standard.weaker", weaker), named("standard.stronger", stronger));
            }
            case AGREED -> {
                settings.getChildren().add(Ui.wrapped(texts.get("standard.how.AGREED"), "text-muted"));
                settings.getChildren().add(named("standard.share", share));
            }
        }
    }

    private CutBasis basis() {
        return switch (method.getValue()) {
            case ANGOFF -> new CutBasis.Judged(closed());
            case BORDERLINE_REGRESSION -> new CutBasis.Line(grades(), Figure.parse(borderline.getText()));
            case BORDERLINE_GROUP -> new CutBasis.Borderline(grades(), Figure.parse(borderline.getText()));
            case CONTRASTING_GROUPS ->
                new CutBasis.Groups(
                        CutBasis.Members.TRAINEES, Codes.in(weaker.getText()), Codes.in(stronger.getText()));
            case AGREED -> new CutBasis.Given(Figure.parse(share.getText()) / 100);
        };
    }

    private String closed() {
        return model.rounds().stream()
                .map(StandardRounds.View::round)
                .filter(round -> !round.isOpen())
                .map(round -> round.id())
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "no round of judges is closed", null, "let the judges finish, and close the round"));
    }

    private CutBasis.Grades grades() {
        Rubric rubric = model.rubricProperty().get();
        String other = gradeRubric.getText().strip();
        String item = gradeItem.getText().strip();
        String own = rubric == null ? "" : rubric.id();
        return new CutBasis.Grades(other.isEmpty() ? own : other, item.isEmpty() ? null : item);
    }

    private ProgressWords words() {
        return new ProgressWords(texts.locale(), texts.language()::dressed);
    }

    private void show(@Nullable Outcome<CutProposal> outcome) {
        result.getChildren().clear();
        if (outcome instanceof Outcome.Refused<CutProposal> refused) {
            Label no = Ui.wrapped(
                    texts.get("standard.refused", words().why(refused.refusal()), words().remedy(refused.refusal())));
            no.setId("cut-refused");
            result.getChildren().add(no);
        } else if (outcome instanceof Outcome.Found<CutProposal> found) {
            show(found.value());
        }
    }

    private void show(CutProposal cut) {
        Label line = Ui.wrapped(texts.get(
                "standard.cut",
                Figure.percent(cut.share()),
                Figure.sureness(texts, cut.standardError(), cut.lower(), cut.upper(), cut.level(), cut.n())));
        line.setId("cut-result");
        result.getChildren().add(line);
        String detail = detail(cut.detail());
        if (!detail.isEmpty()) {
            result.getChildren().add(Ui.wrapped(detail, "text-muted"));
        }
        cut.warnings().forEach(w -> result.getChildren().add(Ui.wrapped(w, "small", "text-muted", "data")));
        TextField by = field("cut-agreed-by", 16);
        TextField note = field("cut-note", 20);
        HBox agree = new HBox(
                Ui.STEP,
                named("standard.agreedBy", by),
                named("standard.note", note),
                Ui.button(
                        "cut-agree",
                        Feather.CHECK,
                        texts.get("standard.agree"),
                        () -> model.agree(by.getText(), note.getText())));
        agree.setAlignment(Pos.CENTER_LEFT);
        result.getChildren().addAll(agree, Ui.wrapped(texts.get("standard.agree.what"), "small", "text-muted"));
    }

    private String detail(CutProposal.Detail detail) {
        if (detail instanceof CutProposal.Judges judges) {
            return texts.get(
                    "standard.detail.judges",
                    list(judges.totals().stream()
                            .map(t -> t.judge() + " " + Figure.percent(t.share()))
                            .toList()),
                    Figure.number(100 * judges.panels().get(1).standardError(), 1),
                    judges.panels().get(1).judges());
        }
        if (detail instanceof CutProposal.Line line) {
            return texts.get(
                    "standard.detail.line",
                    Figure.number(100 * line.intercept(), 1),
                    Figure.number(100 * line.slope(), 1),
                    Figure.number(line.r2(), 2),
                    line.performances().size());
        }
        if (detail instanceof CutProposal.Borderline group) {
            return texts.get(
                    "standard.detail.borderline",
                    group.performances().size(),
                    group.graded(),
                    Figure.percent(group.median().value()));
        }
        if (detail instanceof CutProposal.Groups groups) {
            return texts.get(
                    "standard.detail.groups",
                    group(groups.weaker()),
                    group(groups.stronger()),
                    Figure.percent(groups.falsePass()) + " / "
                            + Figure.percent(groups.observedFalsePass().value()),
                    Figure.percent(groups.falseFail()) + " / "
                            + Figure.percent(groups.observedFalseFail().value()));
        }
        return "";
    }

    private static String group(CutProposal.Group group) {
        return String.format(Locale.ROOT, "%.1f ± %.1f %% (n = %d)", 100 * group.mean(), 100 * group.sd(), group.n());
    }

    private static String list(List<String> parts) {
        return String.join(", ", parts);
    }

    private Node named(String key, TextField field) {
        Label label = Ui.label(texts.get(key), "text-muted");
        label.setLabelFor(field);
        field.setAccessibleText(texts.get(key));
        HBox box = new HBox(Ui.STEP, label, field);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private static TextField field(String id, int columns) {
        TextField field = new TextField();
        field.setId(id);
        field.setPrefColumnCount(columns);
        return field;
    }
}
