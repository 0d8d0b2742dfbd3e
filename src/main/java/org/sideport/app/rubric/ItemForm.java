package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.NotApplicable;
import org.sideport.model.Procedure;
import org.sideport.rubric.RubricDraft;

/** One item: how it is marked, on what, and what each mark looks like. */
final class ItemForm extends PartForm {

    private final int index;
    private final String at;
    private final List<CheckBox> reasons = new ArrayList<>();

    ItemForm(RubricEditorViewModel model, Texts texts, RubricDraft draft, Part part) {
        super(model, texts, draft, part);
        this.index = part.index();
        this.at = part.path();
        String kind = draft.text(at + "/kind");
        String words = "/items" + RubricDraft.part(draft.text(at + "/id"));
        add(headed(line(at + "/title", "rubrics.field.item.title"), itemButtons()));
        addTranslation(words + "/title");
        add(halves(domain(), kind()));
        add(phase());
        add(halves(line(at + "/weight", "rubrics.field.weight"), critical(kind)));
        add(reasons());
        add(lines(at + "/guidance", texts.get("rubrics.field.item.guidance")));
        addTranslation(words + "/guidance");
        switch (kind) {
            case "level" -> anchors(words);
            case "count", "measured" -> bands(kind, words);
            default -> hint(texts.get("rubrics.check.hint"));
        }
        add(name(at + "/id", "rubrics.field.item.id"));
    }

    private HBox itemButtons() {
        String title = draft.text(at + "/title");
        Button up = icon("item-up", Feather.ARROW_UP, texts.get("rubrics.up", title), () -> model.moveItem(index, -1));
        Button down =
                icon("item-down", Feather.ARROW_DOWN, texts.get("rubrics.down", title), () -> model.moveItem(index, 1));
        Button remove =
                icon("item-remove", Feather.X, texts.get("rubrics.remove", title), () -> model.removeItem(index));
        return new HBox(up, down, remove);
    }

    private DraftField domain() {
        return choice(at + "/domain", "rubrics.field.domain", draft.texts("/domains", "id"), titles());
    }

    private List<String> titles() {
        List<String> ids = draft.texts("/domains", "id");
        List<String> titles = new ArrayList<>(draft.texts("/domains", "title"));
        titles.replaceAll(title -> title.isBlank() ? texts.get("rubrics.untitled") : title);
        return titles.size() == ids.size() ? titles : ids;
    }

    private DraftField kind() {
        List<String> kinds = List.of("level", "check", "count", "measured");
        return choice(
                at + "/kind",
                "rubrics.field.kind",
                kinds,
                kinds.stream().map(kind -> texts.get("rubrics.kind." + kind)).toList());
    }

    private DraftField phase() {
        List<String> ids = new ArrayList<>(List.of(""));
        List<String> names = new ArrayList<>(List.of(texts.get("rubrics.phase.none")));
        Procedure procedure = model.procedure();
        if (procedure != null) {
            procedure.terms().stream().filter(t -> !t.phase().idle()).forEach(term -> {
                ids.add(term.id());
                names.add(term.isStep() ? term.phase().name() + " › " + term.name() : term.name());
            });
        }
        return choice(at + "/phase", "rubrics.field.phase", ids, names);
    }

    private DraftField critical(String kind) {
        List<String> values = new ArrayList<>(List.of(""));
        switch (kind) {
            case "level" -> values.addAll(draft.texts("/levels", "points"));
            case "check" -> values.add("1");
            case "count" ->
                draft.texts(at + "/bands", "points").stream()
                        .distinct()
                        .sorted()
                        .forEach(values::add);
            default -> {
                // a measured item cannot fail a rating by itself
            }
        }
        return choice(
                at + "/critical_minimum",
                kind.equals("measured") ? "rubrics.field.critical.never" : "rubrics.field.critical",
                values,
                values.stream()
                        .map(v -> v.isEmpty() ? texts.get("rubrics.critical.none") : v)
                        .toList());
    }

    private VBox reasons() {
        FlowPane boxes = new FlowPane(Ui.STEP * 2, Ui.STEP / 2);
        for (NotApplicable reason : NotApplicable.values()) {
            CheckBox box = new CheckBox(texts.get("reason." + reason.name()));
            box.setId("allow-" + reason.id());
            box.setUserData(reason);
            box.setSelected(draft.texts(at + "/not_applicable").contains(reason.id()));
            box.setOnAction(event -> model.edit(d -> d.withReason(index, reason.id(), box.isSelected())));
            reasons.add(box);
            boxes.getChildren().add(box);
        }
        return new VBox(2, Ui.wrapped(texts.get("rubrics.field.reasons"), "small", "text-muted"), boxes);
    }

    private void anchors(String words) {
        section(texts.get("rubrics.anchors"));
        for (int i = 0; i < draft.size(at + "/anchors"); i++) {
            String points = draft.text(at + "/anchors/" + i + "/points");
            String label = draft.text("/levels/" + i + "/label");
            add(lines(at + "/anchors/" + i + "/text", texts.get("rubrics.anchor", points, label)));
            addTranslation(words + "/anchors" + RubricDraft.part(points));
        }
        if (draft.size("/levels") == 0) {
            hint(texts.get("rubrics.anchors.none"));
        }
    }

    private void bands(String kind, String words) {
        section(texts.get(kind.equals("count") ? "rubrics.bands.count" : "rubrics.bands.measured"));
        if (kind.equals("measured")) {
            add(halves(
                    line(at + "/unit", "rubrics.field.unit"),
                    choice(
                            at + "/quantity",
                            "rubrics.field.quantity",
                            List.of("entered", "phase_time"),
                            List.of(texts.get("rubrics.quantity.entered"), texts.get("rubrics.quantity.phase_time")))));
            addTranslation(words + "/unit");
        }
        for (int i = 0; i < draft.size(at + "/bands"); i++) {
            String band = at + "/bands/" + i;
            DraftField from = name(band + "/from", "rubrics.field.from");
            DraftField points = name(band + "/points", "rubrics.field.points");
            from.setPrefWidth(88);
            from.setMinWidth(72);
            points.setPrefWidth(88);
            points.setMinWidth(72);
            add(headed(
                    line(band + "/text", "rubrics.field.band"),
                    order(at + "/bands", i, Integer.toString(i + 1)),
                    from,
                    points));
            DraftField translated = translation(words + "/anchors" + RubricDraft.part(draft.text(band + "/points")));
            if (translated != null) {
                add(translated);
            }
        }
        add(button("add-band", Feather.PLUS, "rubrics.band.add", d -> d.addBand(index)));
    }

    @Override
    void showDraft(RubricDraft now) {
        super.showDraft(now);
        List<String> allowed = now.texts(at + "/not_applicable");
        for (CheckBox box : reasons) {
            box.setSelected(allowed.contains(((NotApplicable) Objects.requireNonNull(box.getUserData())).id()));
        }
    }
}
