package org.sideport.app.compare;

import java.util.List;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.model.Exemplar;
import org.sideport.workflow.Comparison;

/** The exemplars there are, the usual one first, and the way to name another. */
final class ExemplarMenu extends MenuButton {

    private final CompareViewModel model;
    private final Texts texts;

    ExemplarMenu(CompareViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        setText(texts.get("compare.useExemplar"));
        setGraphic(new FontIcon(Feather.STAR));
        setId("use-exemplar");
        setFocusTraversable(false);
        setMinWidth(USE_PREF_SIZE);
        setOnShowing(event -> fill());
        model.exemplars().addListener((javafx.collections.ListChangeListener<Exemplar>) change -> fill());
        model.comparisonProperty().addListener((property, old, now) -> fill());
        fill();
    }

    private void fill() {
        getItems().clear();
        List<Exemplar> offered = model.exemplars();
        for (Exemplar each : offered) {
            MenuItem item = new MenuItem(
                    texts.get(each.usual() ? "exemplar.item.usual" : "exemplar.item", each.caseCode(), each.title()));
            item.setId("exemplar-" + each.caseCode());
            item.setOnAction(event -> model.useExemplar(each));
            getItems().add(item);
        }
        if (offered.isEmpty()) {
            MenuItem none = new MenuItem(texts.get("exemplar.none"));
            none.setDisable(true);
            getItems().add(none);
        }
        Comparison now = model.comparisonProperty().get();
        if (now != null) {
            getItems().add(new SeparatorMenuItem());
            name(now.left());
            name(now.right());
        }
    }

    private void name(Comparison.Side side) {
        MenuItem item = new MenuItem(texts.get("exemplar.name", side.code()));
        item.setId("name-" + side.code());
        item.setOnAction(event -> new ExemplarDialog(
                        getScene().getWindow(),
                        texts,
                        side.code(),
                        side.annotator(),
                        model.person(),
                        model.isPersonFixed(),
                        (code, answer) -> model.name(
                                code, side.annotator(), answer.title(), answer.why(), answer.person(), answer.usual()))
                .show());
        getItems().add(item);
    }
}
