package org.sideport.app.progress;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.SpinnerValueFactory.IntegerSpinnerValueFactory;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.chart.Chart;
import org.sideport.workflow.FollowProgress.Subject;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.progress.ProgressCharts;
import org.sideport.workflow.progress.ProgressSentences;
import org.sideport.workflow.progress.ProgressWords;

/** How a trainee comes along: times, marks, own marks beside the assessors', what to work on, complications. */
public final class ProgressScreen implements Screen {

    private static final double TALL = 300;
    private static final double SMALL = 160;
    private static final double WIDE_CARD = 440;
    private static final double SMALL_CARD = 240;
    private static final int MOST_RECENT = 100;

    private final ProgressViewModel model;
    private final Texts texts;
    private final ChartKit kit;
    private final Navigator navigator;
    private final ProgressWords words;
    private final BorderPane root = Ui.styled(new BorderPane(), "progress");
    private final VBox content = Ui.styled(new VBox(2 * Ui.STEP), "items");
    private final ScrollPane scroll = Ui.styled(new ScrollPane(content), "edge-to-edge");

    public ProgressScreen(ProgressViewModel model, ChartKit kit, Navigator navigator) {
        this.model = model;
        this.kit = kit;
        this.texts = kit.texts();
        this.navigator = navigator;
        this.words = new ProgressWords(texts.locale(), texts.language()::dressed);
        root.setId("progress");
        root.setFocusTraversable(true);
        root.setTop(choices());
        scroll.setFitToWidth(true);
        scroll.setId("progress-scroll");
        root.setCenter(scroll);
        model.viewProperty().addListener((property, old, now) -> show(now));
        model.stepsProperty()
                .addListener((property, old, now) -> show(model.viewProperty().get()));
        model.loadingProperty()
                .addListener((property, old, now) -> show(model.viewProperty().get()));
        kit.theme()
                .fontSizeProperty()
                .addListener((property, old, now) -> show(model.viewProperty().get()));
    }

    private FlowPane choices() {
        ComboBox<@Nullable Subject> who = new ComboBox<>(model.subjects());
        who.setId("progress-trainee");
        who.setAccessibleText(texts.get("progress.trainee"));
        who.valueProperty().bindBidirectional(model.subjectProperty());
        who.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable Subject of) {
                return of == null ? "" : texts.get("progress.subject", of.trainee(), of.procedure(), of.cases());
            }

            @Override
            public @Nullable Subject fromString(String text) {
                return model.subjectProperty().get();
            }
        });
        Spinner<Integer> recent = new Spinner<>(new IntegerSpinnerValueFactory(
                1, MOST_RECENT, model.recentProperty().get()));
        recent.setId("progress-recent");
        recent.setPrefWidth(88);
        recent.setAccessibleText(texts.get("progress.recent"));
        recent.valueProperty()
                .addListener((property, old, now) -> model.recentProperty().set(now));
        CheckBox steps = new CheckBox(texts.get("progress.steps"));
        steps.setId("progress-steps");
        steps.setMinWidth(Region.USE_PREF_SIZE);
        steps.selectedProperty().bindBidirectional(model.stepsProperty());
        // wraps where letters are large
        FlowPane box = Ui.styled(
                new FlowPane(
                        Ui.STEP,
                        Ui.STEP,
                        Ui.label(texts.get("progress.trainee"), "text-muted"),
                        who,
                        Ui.label(texts.get("progress.recent"), "text-muted"),
                        recent,
                        steps,
                        Ui.reasoned(
                                Ui.button(
                                        "progress-portfolio",
                                        Feather.FILE_TEXT,
                                        texts.get("portfolio.out"),
                                        this::writePortfolio),
                                model.whyNoPortfolioProperty()),
                        Ui.reasoned(
                                Ui.button(
                                        "progress-own-data",
                                        Feather.PACKAGE,
                                        texts.get("ownData.out"),
                                        this::writeData),
                                model.whyNoDataProperty())),
                "toolbar");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void writePortfolio() {
        Subject of = model.subjectProperty().get();
        write(
                texts.get("portfolio.out"),
                texts.get("portfolio.kind"),
                of == null ? "" : of.trainee(),
                ".pdf",
                model::exportPortfolio);
    }

    private void writeData() {
        write(texts.get("ownData.out"), texts.get("ownData.kind"), model.whoseData(), ".zip", model::exportData);
    }

    private void write(String title, String kind, String name, String ending, Consumer<Path> use) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(title);
        chooser.setInitialFileName(name + ending);
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(kind, "*" + ending));
        File chosen = chooser.showSaveDialog(root.getScene().getWindow());
        if (chosen != null) {
            use.accept(chosen.toPath());
        }
    }

    private void show(@Nullable ProgressView view) {
        if (view == null) {
            scroll.setVvalue(0);
            content.getChildren()
                    .setAll(
                            model.loadingProperty().get()
                                    ? Ui.label(texts.get("progress.loading"), "text-muted")
                                    : new EmptyState(
                                            Feather.TRENDING_UP,
                                            texts.get("progress.empty"),
                                            texts.get("progress.empty.text"),
                                            Ui.button(
                                                    "progress-to-cases",
                                                    Feather.LIST,
                                                    texts.get("progress.toCases"),
                                                    navigator::toCases)));
            return;
        }
        ProgressCharts charts = new ProgressCharts(view, words);
        content.getChildren().setAll(summary(view));
        if (view.leftOut().cases() > 0) {
            Label leftOut = Ui.wrapped(
                    texts.get("consent.leftOut.assessment", view.leftOut().cases()), "text-muted");
            leftOut.setId("progress-left-out");
            content.getChildren().add(leftOut);
        }
        heading("progress.comments");
        content.getChildren().add(new SaidList(view.comments(), texts, navigator));
        times(view, charts);
        marks(view, charts);
        complications(view, charts);
    }

    private Label summary(ProgressView view) {
        Label label = Ui.wrapped(
                texts.get(
                        "progress.summary",
                        view.trainee(),
                        view.cases().size(),
                        view.untagged(),
                        view.hidden(),
                        texts.get("progress.caution")),
                "text-muted");
        label.setId("progress-summary");
        return label;
    }

    private void heading(String key) {
        content.getChildren().add(Ui.label(texts.get(key), "section", "group-heading"));
    }

    private void times(ProgressView view, ProgressCharts charts) {
        heading("progress.times");
        if (view.times().isEmpty()) {
            content.getChildren()
                    .add(new EmptyState(
                            Feather.CLOCK,
                            texts.get("progress.untagged"),
                            texts.get("progress.untagged.text"),
                            Ui.button(
                                    "progress-tag", Feather.LIST, texts.get("progress.toCases"), navigator::toCases)));
            return;
        }
        ProgressSentences sentences = new ProgressSentences(words);
        CardGrid grid = new CardGrid(WIDE_CARD);
        grid.setId("progress-times");
        view.times().stream()
                .filter(t -> !t.step() || model.stepsProperty().get())
                .forEach(t -> grid.getChildren().add(timeCard(view, t, charts, sentences)));
        content.getChildren().add(grid);
    }

    private ChartCard timeCard(ProgressView view, TermTimes term, ProgressCharts charts, ProgressSentences sentences) {
        Held held = ProgressCharts.usual(term);
        return card(charts.time(term, held), TALL, sentences.of(view, term), sentences.basis(term, held), view);
    }

    private void marks(ProgressView view, ProgressCharts charts) {
        heading("progress.marks");
        CardGrid large = new CardGrid(WIDE_CARD);
        charts.share().ifPresent(c -> large.getChildren().add(said(c, view)));
        charts.gap().ifPresent(c -> large.getChildren().add(said(c, view)));
        if (large.getChildren().isEmpty()) {
            content.getChildren().add(Ui.wrapped(texts.get("progress.marks.none"), "text-muted"));
        } else {
            content.getChildren().add(large);
        }
        if (view.marks() != null && view.gap() == null) {
            content.getChildren().add(Ui.wrapped(texts.get("progress.gap.none"), "text-muted"));
        }
        // large letters need room for their longest word
        CardGrid items = new CardGrid(SMALL_CARD * Ui.letters(root));
        items.setId("progress-items");
        charts.items().forEach(c -> items.getChildren().add(card(c, SMALL, List.of(), c.note(), view)));
        content.getChildren().add(items);
    }

    private void complications(ProgressView view, ProgressCharts charts) {
        heading("progress.complications");
        CheckBox complete = new CheckBox(texts.get("progress.complete"));
        complete.setId("progress-complete");
        complete.setWrapText(true);
        complete.setSelected(model.completeProperty().get());
        complete.setOnAction(event -> model.completeProperty().set(complete.isSelected()));
        content.getChildren().add(complete);
        charts.monitoring()
                .ifPresentOrElse(
                        chart -> {
                            CardGrid grid = new CardGrid(WIDE_CARD);
                            grid.getChildren().add(said(chart, view));
                            content.getChildren().add(grid);
                        },
                        () -> {
                            Label why = Ui.wrapped(new ProgressSentences(words).monitoring(view));
                            why.setId("progress-no-complications");
                            content.getChildren().add(why);
                        });
    }

    private ChartCard said(Chart chart, ProgressView view) {
        return card(chart, TALL, List.of(chart.sentence()), chart.note(), view);
    }

    private ChartCard card(Chart chart, double height, List<String> says, String note, ProgressView view) {
        return new ChartCard(chart, height, says, note, view.trainee().toLowerCase(Locale.ROOT), kit);
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.load();
    }
}
