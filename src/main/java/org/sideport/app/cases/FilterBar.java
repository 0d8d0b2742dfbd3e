package org.sideport.app.cases;

import java.time.LocalDate;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.Label;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ConsentState;
import org.sideport.workflow.CaseFilter;

/** What the list is narrowed down to: a menu that adds parts, a chip for each, and how many cases are left. */
final class FilterBar {

    private final CasesViewModel model;
    private final Texts texts;
    private final MenuButton menu;
    private final FlowPane chips = new FlowPane(Ui.STEP / 2, Ui.STEP / 2);
    private final HBox row;

    FilterBar(CasesViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        menu = new MenuButton(texts.get("filter.title"), new FontIcon(Feather.FILTER));
        menu.setId("filter-menu");
        menu.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        menu.setOnShowing(event -> fill());
        fill();
        Label count = Ui.label("", "text-muted", "digits");
        count.setId("case-count");
        count.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        count.textProperty().bind(model.countProperty());
        chips.setAlignment(Pos.CENTER_LEFT);
        HBox.setHgrow(chips, Priority.ALWAYS);
        row = Ui.styled(new HBox(Ui.STEP, chips, count), "chip-row");
        row.setAlignment(Pos.CENTER_LEFT);
        model.filterProperty().addListener((property, old, now) -> showChips());
        model.wordsProperty().addListener((property, old, now) -> {
            if (old.isBlank() != now.isBlank()) {
                showChips();
            }
        });
        showChips();
    }

    /** The menu that adds to the filter. */
    MenuButton menu() {
        return menu;
    }

    /** The line of chips with the count. */
    Node row() {
        return row;
    }

    private void showChips() {
        chips.getChildren().clear();
        for (CaseFilters.Chip chip : CaseFilters.chips(model.filterProperty().get(), texts)) {
            Button button = new Button(chip.text(), new FontIcon(Feather.X));
            button.getStyleClass().addAll("chip", "small");
            button.setAccessibleText(texts.get("filter.remove", chip.text()));
            button.setOnAction(event -> model.narrow(chip.without()));
            chips.getChildren().add(button);
        }
        if (model.isFiltered()) {
            Button clear = Ui.button("clear-filter", null, texts.get("filter.clear"), model::clearFilter);
            clear.getStyleClass().addAll("flat", "small", "chip-clear");
            chips.getChildren().add(clear);
        }
    }

    private void fill() {
        menu.getItems().setAll(trainees(), days(), states(), recording(), procedures(), consents(), review());
    }

    private CaseFilter now() {
        return model.filterProperty().get();
    }

    private Menu trainees() {
        Menu submenu = new Menu(texts.get("cases.column.trainee"));
        for (String code : model.trainees()) {
            toggle(
                    submenu,
                    code,
                    () -> code.equals(now().trainee()),
                    f -> CaseFilters.trainee(f, code.equals(f.trainee()) ? null : code));
        }
        return filled(submenu);
    }

    private Menu days() {
        Menu submenu = new Menu(texts.get("cases.column.date"));
        LocalDate today = model.today();
        LocalDate january = today.withDayOfYear(1);
        days(submenu, "filter.days.quarter", today.minusMonths(3).plusDays(1), today);
        days(submenu, "filter.days.thisYear", january, today);
        days(submenu, "filter.days.lastYear", january.minusYears(1), january.minusDays(1));
        MenuItem choose = new MenuItem(texts.get("filter.days.choose"));
        choose.setId("filter-days");
        choose.setOnAction(event -> new DaysDialog(texts, now())
                .ask(row.getScene().getWindow())
                .ifPresent(chosen -> model.narrow(f -> CaseFilters.days(f, chosen.from(), chosen.to()))));
        submenu.getItems().add(choose);
        return submenu;
    }

    private void days(Menu submenu, String key, LocalDate from, LocalDate to) {
        toggle(
                submenu,
                texts.get(key),
                () -> from.equals(now().from()) && to.equals(now().to()),
                f -> CaseFilters.days(f, from, to));
    }

    private Menu states() {
        Menu submenu = new Menu(texts.get("cases.column.state"));
        for (CaseFilter.State state : CaseFilter.State.values()) {
            toggle(
                    submenu,
                    texts.get("filter.state." + state.name()),
                    () -> now().states().contains(state),
                    f -> CaseFilters.state(f, state, !f.states().contains(state)));
        }
        return submenu;
    }

    private Menu recording() {
        Menu submenu = new Menu(texts.get("detail.recording"));
        for (boolean with : List.of(true, false)) {
            toggle(
                    submenu,
                    texts.get(with ? "filter.recording.with" : "filter.recording.without"),
                    () -> Boolean.valueOf(with).equals(now().recording()),
                    f -> CaseFilters.recording(f, Boolean.valueOf(with).equals(f.recording()) ? null : (Boolean) with));
        }
        return submenu;
    }

    private Menu procedures() {
        Menu submenu = new Menu(texts.get("add.procedure"));
        for (String id : model.procedures()) {
            toggle(
                    submenu,
                    id,
                    () -> id.equals(now().procedure()),
                    f -> CaseFilters.procedure(f, id.equals(f.procedure()) ? null : id));
        }
        return filled(submenu);
    }

    private Menu consents() {
        Menu submenu = new Menu(texts.get("cases.column.consent"));
        for (ConsentState state : ConsentState.values()) {
            toggle(
                    submenu,
                    texts.get("consent.state." + state.name()),
                    () -> now().consents().contains(state),
                    f -> CaseFilters.consent(f, state, !f.consents().contains(state)));
        }
        return submenu;
    }

    private MenuItem review() {
        CheckMenuItem item = new CheckMenuItem(texts.get("filter.review.due"));
        item.setId("filter-review-due");
        item.setSelected(now().reviewDue() != null);
        item.setOnAction(event ->
                model.narrow(f -> CaseFilters.reviewDue(f, f.reviewDue() == null ? model.today() : null)));
        return item;
    }

    private void toggle(Menu submenu, String text, BooleanSupplier on, UnaryOperator<CaseFilter> change) {
        CheckMenuItem item = new CheckMenuItem(text);
        item.setMnemonicParsing(false);
        item.setSelected(on.getAsBoolean());
        item.setOnAction(event -> model.narrow(change));
        submenu.getItems().add(item);
    }

    /** A menu without items would open as nothing: it says so instead. */
    private Menu filled(Menu submenu) {
        if (submenu.getItems().isEmpty()) {
            MenuItem none = new MenuItem(texts.get("filter.none"));
            none.setDisable(true);
            submenu.getItems().add(none);
        }
        return submenu;
    }
}
