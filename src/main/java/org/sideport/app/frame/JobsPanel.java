package org.sideport.app.frame;

import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Formats;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.jobs.Jobs;
import org.sideport.app.jobs.ListedJob;

/** What goes on in the background, how far it is, and how to stop it. */
final class JobsPanel extends VBox {

    private static final double WIDTH = 400;
    private static final double HEIGHT = 420;

    private final Jobs jobs;
    private final Texts texts;
    private final Consumer<ListedJob> details;
    private final VBox lines = new VBox(Ui.STEP);

    JobsPanel(Jobs jobs, Texts texts, Consumer<ListedJob> details, Runnable close) {
        super(Ui.STEP);
        this.jobs = jobs;
        this.texts = texts;
        this.details = details;
        setId("jobs-panel");
        getStyleClass().add("jobs-panel");
        setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        setPrefWidth(WIDTH);
        Label title = Ui.label(texts.get("jobs.title"), "section");
        Button tidy = Ui.button("jobs-tidy", null, texts.get("jobs.tidy"), jobs::dismissEnded);
        tidy.getStyleClass().addAll("small", "flat");
        Button away = Ui.iconButton("close-jobs", Feather.X, texts.get("close"), close);
        away.setFocusTraversable(true);
        HBox head = new HBox(Ui.STEP, title, Ui.spring(), tidy, away);
        head.setAlignment(Pos.CENTER_LEFT);
        ScrollPane scroll = new ScrollPane(lines);
        scroll.setFitToWidth(true);
        scroll.setMaxHeight(HEIGHT);
        scroll.prefViewportHeightProperty().bind(Bindings.min(HEIGHT, lines.heightProperty()));
        scroll.setMinHeight(Region.USE_PREF_SIZE);
        getChildren().addAll(head, scroll);
        jobs.all().addListener((ListChangeListener<ListedJob>) change -> show());
        show();
    }

    /** Says how many jobs run, or that one failed; opens their list. */
    static Button opener(Jobs jobs, Texts texts, Runnable toggle) {
        Button button = Ui.iconButton("jobs", Feather.ACTIVITY, Ui.withKey(texts, Shortcut.JOBS), toggle);
        button.getStyleClass().add("jobs-button");
        button.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> {
                            int running = jobs.runningProperty().get();
                            int failed = jobs.failedProperty().get();
                            return running > 0
                                    ? texts.get("jobs.running", running)
                                    : failed > 0 ? texts.get("jobs.failed", failed) : "";
                        },
                        jobs.runningProperty(),
                        jobs.failedProperty()));
        return button;
    }

    private void show() {
        lines.getChildren().clear();
        if (jobs.all().isEmpty()) {
            lines.getChildren().add(Ui.wrapped(texts.get("jobs.none"), "text-muted", "small"));
        }
        for (ListedJob job : jobs.all()) {
            lines.getChildren().add(line(job));
        }
    }

    private Node line(ListedJob job) {
        Label name = Ui.wrapped(job.name());
        HBox.setHgrow(name, Priority.ALWAYS);
        name.setMaxWidth(Double.MAX_VALUE);
        HBox first = new HBox(Ui.STEP, new FontIcon(icon(job)), name);
        first.setAlignment(Pos.CENTER_LEFT);
        VBox line = Ui.styled(new VBox(Ui.STEP / 2, first), "job-line");
        if (job.isRunning()) {
            ProgressBar bar = new ProgressBar();
            bar.progressProperty().bind(Bindings.max(-1, job.fractionProperty()));
            bar.setMaxWidth(Double.MAX_VALUE);
            HBox.setHgrow(bar, Priority.ALWAYS);
            Label share = Ui.label("", "digits", "small");
            share.textProperty()
                    .bind(Bindings.createStringBinding(
                            () -> job.fractionProperty().get() < 0
                                    ? ""
                                    : Formats.percent(job.fractionProperty().get()),
                            job.fractionProperty()));
            share.setMinWidth(Region.USE_PREF_SIZE);
            Button stop = Ui.button("stop-job", null, texts.get("jobs.stop"), job::cancel);
            stop.getStyleClass().add("small");
            HBox second = new HBox(Ui.STEP, bar, share, stop);
            second.setAlignment(Pos.CENTER_LEFT);
            line.getChildren().add(second);
            job.stateProperty().addListener((property, old, now) -> show());
        } else {
            Label state = Ui.label(texts.get("jobs.state." + job.stateProperty().get()), "small", "text-muted");
            state.setMinWidth(Region.USE_PREF_SIZE);
            first.getChildren().add(state);
            Button away = Ui.iconButton("dismiss-job", Feather.X, texts.get("jobs.dismiss"), () -> jobs.dismiss(job));
            away.setFocusTraversable(true);
            first.getChildren().add(away);
        }
        Label message = Ui.wrapped("", "small", "text-muted");
        message.textProperty().bind(job.messageProperty());
        Ui.showIf(message, Bindings.isNotEmpty(job.messageProperty()));
        line.getChildren().add(message);
        if (job.failure() != null) {
            Button what = Ui.button("job-details", null, texts.get("notice.details"), () -> details.accept(job));
            what.getStyleClass().add("small");
            line.getChildren().add(what);
        }
        return line;
    }

    private static Feather icon(ListedJob job) {
        return switch (job.stateProperty().get()) {
            case RUNNING -> Feather.LOADER;
            case DONE -> Feather.CHECK;
            case STOPPED -> Feather.SLASH;
            case FAILED -> Feather.ALERT_TRIANGLE;
        };
    }
}
