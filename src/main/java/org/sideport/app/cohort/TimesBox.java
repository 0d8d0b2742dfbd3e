package org.sideport.app.cohort;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.progress.ChartKit;
import org.sideport.chart.Chart;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.progress.ProgressSentences;
import org.sideport.workflow.progress.ProgressWords;
import org.sideport.workflow.progress.UnitCharts;

/** What phases take the trainees, beside a reference of one's choice. */
final class TimesBox extends VBox {

    private static final double TALL = 420;
    private static final String EXEMPLARS = org.sideport.workflow.ReferenceTimes.Kind.EXEMPLARS.name();

    private final CohortTimesView view;
    private final ChartKit kit;
    private final UnitCharts charts;
    private final VBox drawn = new VBox(Ui.STEP);
    private final ComboBox<String> against = new ComboBox<>();
    private final CheckBox steps;

    TimesBox(CohortTimesView view, ChartKit kit, Navigator navigator) {
        super(Ui.STEP);
        this.view = view;
        this.kit = kit;
        Texts texts = kit.texts();
        setId("cohort-times");
        ProgressWords words = new ProgressWords(texts.locale(), texts.language()::dressed);
        charts = new UnitCharts(words);
        steps = new CheckBox(texts.get("progress.steps"));
        if (view.terms().isEmpty()) {
            getChildren()
                    .add(new EmptyState(
                            Feather.CLOCK,
                            texts.get("progress.untagged"),
                            texts.get("cohort.untagged.text"),
                            Ui.button("cohort-tag", Feather.LIST, texts.get("progress.toCases"), navigator::toCases)));
            return;
        }
        Map<String, String> names = new LinkedHashMap<>();
        ProgressSentences sentences = new ProgressSentences(words);
        view.terms().forEach(t -> t.references().forEach(h -> names.putIfAbsent(h.id(), sentences.heldName(h))));
        against.setId("cohort-against");
        against.setAccessibleText(texts.get("cohort.against"));
        against.getItems().setAll(names.keySet());
        against.setConverter(new javafx.util.StringConverter<>() {
            @Override
            public String toString(@Nullable String id) {
                return id == null ? "" : names.getOrDefault(id, id);
            }

            @Override
            public String fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        if (!names.isEmpty()) {
            against.setValue(
                    names.containsKey(EXEMPLARS) || !names.containsKey(UnitCharts.USUAL)
                            ? names.keySet().iterator().next()
                            : UnitCharts.USUAL);
        }
        against.setOnAction(event -> draw());
        steps.setId("cohort-steps");
        // published times name steps more than phases
        steps.setSelected(true);
        steps.setOnAction(event -> draw());
        Node label = Ui.label(texts.get("cohort.against"), "text-muted");
        FlowPane bar = new FlowPane(Ui.STEP, Ui.STEP, label, against, steps);
        bar.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(bar, drawn);
        draw();
    }

    private void draw() {
        drawn.getChildren().clear();
        for (Chart chart : charts.times(view, against.getValue(), steps.isSelected())) {
            drawn.getChildren().add(kit.card(chart, TALL, List.of(chart.sentence()), chart.note(), "unit"));
        }
    }
}
