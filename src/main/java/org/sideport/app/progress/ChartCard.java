package org.sideport.app.progress;

import java.io.File;
import java.util.List;
import java.util.Locale;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.chart.Chart;
import org.sideport.workflow.progress.ChartExport;

/** A chart under its title, with what it says in words below, and a menu to take it away. */
final class ChartCard extends VBox {

    private final Chart chart;
    private final String prefix;
    private final ChartKit kit;
    private final Texts texts;

    /**
     * @param says what it shows, a sentence each
     * @param note what it rests on; may be empty
     * @param prefix of the proposed names of files
     */
    ChartCard(Chart chart, double height, List<String> says, String note, String prefix, ChartKit kit) {
        super(Ui.STEP / 2);
        this.chart = chart;
        this.prefix = prefix;
        this.kit = kit;
        this.texts = kit.texts();
        getStyleClass().add("chart-card");
        double factor = kit.theme().fontSizeProperty().get().factor();
        ChartPane pane = new ChartPane(chart.bare(), kit.drawing(), kit.theme().lightProperty(), factor);
        pane.setId("chart-" + chart.id());
        pane.setPrefHeight(height * factor);
        pane.setMinHeight(height * factor);
        Label title = Ui.wrapped(chart.title(), "section");
        HBox head = new HBox(Ui.STEP, title, Ui.spring(), export());
        head.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(head, pane);
        says.forEach(words -> getChildren().add(Ui.wrapped(words, "small")));
        if (!note.isEmpty()) {
            getChildren().add(Ui.wrapped(note, "small", "text-muted"));
        }
    }

    private MenuButton export() {
        MenuButton menu = Ui.styled(new MenuButton("", new FontIcon(Feather.DOWNLOAD)), "flat", "button-icon");
        menu.setId("export-" + chart.id());
        menu.setAccessibleText(texts.get("progress.export", chart.title()));
        menu.setTooltip(new javafx.scene.control.Tooltip(texts.get("progress.export", chart.title())));
        for (ChartExport.Format format : ChartExport.Format.values()) {
            MenuItem item = new MenuItem(texts.get("progress.export." + format.name()));
            item.setOnAction(event -> choose(format));
            menu.getItems().add(item);
        }
        return menu;
    }

    private void choose(ChartExport.Format format) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("progress.export", chart.title()));
        chooser.setInitialFileName((prefix + "-" + chart.id()).toLowerCase(Locale.ROOT) + "." + format.ending());
        chooser.getExtensionFilters()
                .add(new FileChooser.ExtensionFilter(
                        texts.get("progress.export." + format.name()), "*." + format.ending()));
        File chosen = chooser.showSaveDialog(getScene().getWindow());
        if (chosen != null) {
            kit.export(chart, chosen.toPath(), format);
        }
    }
}
