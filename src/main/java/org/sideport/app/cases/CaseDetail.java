package org.sideport.app.cases;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TitledPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.Veiled;
import org.sideport.app.frame.Navigator;
import org.sideport.model.CaseChange;
import org.sideport.model.CaseSummary;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.CaseOverview.RatingOverview;
import org.sideport.workflow.EditCase;

/** What is known of the selected case, and what can be done with it. */
final class CaseDetail extends VBox {

    private static final DateTimeFormatter MINUTE =
            DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm").withZone(ZoneId.systemDefault());

    private final Texts texts;
    private final Navigator navigator;
    private final CaseIntake intake;
    private final VBox facts = new VBox(Ui.STEP);

    CaseDetail(CasesViewModel model, Texts texts, Navigator navigator, CaseIntake intake) {
        super(Ui.STEP);
        this.texts = texts;
        this.navigator = navigator;
        this.intake = intake;
        getStyleClass().addAll("side", "case-detail");
        setPrefWidth(336);
        setMinWidth(336);
        model.selectedProperty().addListener((property, old, now) -> {
            if (now == null || old == null || !now.code().equals(old.code())) {
                head(now);
            }
        });
        model.detailProperty().addListener((property, old, now) -> show(now));
        head(null);
    }

    private void head(@Nullable CaseSummary one) {
        if (one == null) {
            getChildren().setAll(Ui.wrapped(texts.get("detail.none"), "text-muted"));
            return;
        }
        Button review =
                Ui.button("review", Feather.FILM, texts.get("detail.review"), () -> navigator.toReview(one.code()));
        review.getStyleClass().add("accent");
        Button mark =
                Ui.button("mark", Feather.CLIPBOARD, texts.get("detail.mark"), () -> navigator.toMarking(one.code()));
        Button edit = Ui.button("edit-case", Feather.EDIT_2, texts.get("detail.edit"), () -> intake.edit(one.code()));
        facts.getChildren().clear();
        ScrollPane scroll = Ui.styled(new ScrollPane(facts), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().setAll(Ui.label(one.code(), "large"), new HBox(Ui.STEP, review, mark, edit), scroll);
    }

    private void show(CasesViewModel.@Nullable Detail detail) {
        if (detail == null) {
            facts.getChildren().clear();
            return;
        }
        CaseOverview overview = detail.overview();
        EditCase.Sheet sheet = detail.sheet();
        Consent consent = overview.surgicalCase().consent();
        facts.getChildren().clear();
        if (consent.state().isAgainst()) {
            Label warning = Ui.wrapped(
                    texts.get(
                            "consent.warning",
                            texts.get("consent.state." + consent.state().name()),
                            String.valueOf(consent.recordedOn())),
                    "critical-note");
            warning.setId("consent-warning");
            facts.getChildren().add(warning);
        }
        facts.getChildren().add(facts(overview));
        groups(sheet);
        facts.getChildren().add(consent(overview.surgicalCase()));
        facts.getChildren().add(marks(CasesViewModel.current(overview)));
        if (!sheet.changes().isEmpty()) {
            facts.getChildren().add(changes(sheet));
        }
    }

    private static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP / 2);
        return grid;
    }

    private GridPane facts(CaseOverview overview) {
        SurgicalCase shown = overview.surgicalCase();
        GridPane grid = grid();
        fact(grid, texts.get("cases.column.trainee"), Veiled.trainee(shown, texts));
        fact(grid, texts.get("cases.column.date"), Veiled.day(shown, texts));
        Recording recording = shown.recording();
        if (recording == null) {
            fact(grid, texts.get("detail.recording"), texts.get("detail.recording.none"));
        } else {
            fact(grid, texts.get("cases.column.length"), Formats.shortClock(recording.duration()));
            for (Segment segment : recording.segments()) {
                fact(
                        grid,
                        texts.get("detail.file", recording.segments().indexOf(segment) + 1),
                        segment.file().getFileName().toString());
            }
        }
        if (!overview.mediaFound()) {
            fact(grid, texts.get("cases.column.state"), texts.get("detail.missing"));
        }
        fact(
                grid,
                texts.get("cases.column.annotators"),
                overview.annotators().isEmpty()
                        ? texts.get("detail.nobody")
                        : String.join(", ", overview.annotators()));
        return grid;
    }

    /** The descriptors that have a value, under their headings. */
    private void groups(EditCase.Sheet sheet) {
        Map<String, String> values =
                sheet.procedure().withComputed(sheet.surgicalCase().descriptors());
        String group = "";
        GridPane grid = grid();
        for (Procedure.Descriptor descriptor : sheet.procedure().descriptors()) {
            String value = values.get(descriptor.id());
            if (value == null) {
                continue;
            }
            if (!descriptor.group().equals(group) || grid.getRowCount() == 0) {
                group = descriptor.group();
                grid = grid();
                if (!group.isEmpty()) {
                    facts.getChildren().add(Ui.label(group, "section"));
                }
                facts.getChildren().add(grid);
            }
            String unit =
                    descriptor.unit().isEmpty() || descriptor.unit().equals("grade") ? "" : " " + descriptor.unit();
            boolean computed = descriptor.kind() == Procedure.DescriptorKind.COMPUTED;
            fact(grid, descriptor.name(), computed ? texts.get("detail.computed", value + unit) : value + unit);
        }
        GridPane others = grid();
        values.forEach((id, value) -> {
            if (sheet.procedure().descriptor(id).isEmpty()) {
                fact(others, readable(id), value);
            }
        });
        if (others.getRowCount() > 0) {
            facts.getChildren().add(others);
        }
    }

    private VBox consent(SurgicalCase shown) {
        Consent consent = shown.consent();
        GridPane grid = grid();
        String state = texts.get("consent.state." + consent.state().name());
        fact(grid, texts.get("cases.column.consent"), state);
        if (!consent.purposes().isEmpty()) {
            fact(
                    grid,
                    texts.get("consent.purposes"),
                    String.join(
                            ", ",
                            consent.purposes().stream()
                                    .map(p -> texts.get("consent.purpose." + p.name()))
                                    .toList()));
        }
        if (consent.state() != ConsentState.UNKNOWN) {
            LocalDate on = consent.recordedOn();
            fact(
                    grid,
                    texts.get("consent.recorded"),
                    texts.get("consent.recorded.by", consent.recordedBy(), on == null ? "" : texts.day(on)));
        }
        fact(
                grid,
                texts.get("cases.column.review"),
                shown.reviewBy() == null ? texts.get("detail.review.none") : texts.day(shown.reviewBy()));
        return new VBox(Ui.STEP / 2, Ui.label(texts.get("detail.consent"), "section"), grid);
    }

    private TitledPane changes(EditCase.Sheet sheet) {
        VBox lines = new VBox(Ui.STEP / 2);
        List<CaseChange> changes = sheet.changes();
        for (int i = changes.size() - 1; i >= 0; i--) {
            CaseChange change = changes.get(i);
            String field = sheet.procedure()
                    .descriptor(change.field())
                    .map(Procedure.Descriptor::name)
                    .orElse(readable(change.field()));
            lines.getChildren()
                    .add(Ui.wrapped(
                            texts.get("detail.change", field, either(change.before()), either(change.after())),
                            "small"));
            lines.getChildren()
                    .add(Ui.label(
                            texts.get("detail.change.by", change.by(), MINUTE.format(change.at())),
                            "small",
                            "text-muted"));
        }
        TitledPane pane = new TitledPane(texts.get("detail.changes", changes.size()), lines);
        pane.setExpanded(false);
        pane.setId("case-changes");
        return pane;
    }

    private static String either(String value) {
        return value.isEmpty() ? Formats.UNKNOWN : value;
    }

    /** {@code nuclear_grade} as {@code Nuclear grade}. */
    static String readable(String id) {
        String words = id.replace('_', ' ');
        return words.isEmpty() ? words : Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private void fact(GridPane grid, String name, String value) {
        int row = grid.getRowCount();
        Label key = Ui.wrapped(name, "text-muted", "fact-name");
        grid.add(key, 0, row);
        Label shown = Ui.wrapped(value);
        GridPane.setHgrow(shown, Priority.ALWAYS);
        grid.add(shown, 1, row);
    }

    private VBox marks(List<RatingOverview> ratings) {
        VBox box = new VBox(Ui.STEP / 2, Ui.label(texts.get("detail.marks"), "section"));
        if (ratings.isEmpty()) {
            box.getChildren().add(Ui.label(texts.get("detail.noMarks"), "text-muted"));
        }
        for (RatingOverview rating : ratings) {
            String who = texts.get(rating.self() ? "detail.self" : "detail.assessor", rating.assessor());
            Label head = Ui.wrapped(texts.get(
                    "detail.mark.line", who, Formats.percent(rating.score().share())));
            Label base = Ui.wrapped(
                    texts.get(
                            "detail.mark.base",
                            rating.score().marked(),
                            rating.score().missing().size(),
                            texts.get("state." + rating.state().name())),
                    "small",
                    "text-muted");
            box.getChildren().add(new VBox(0, head, base));
        }
        return box;
    }
}
