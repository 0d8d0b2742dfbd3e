package org.sideport.app;

import java.io.File;
import java.nio.file.Path;
import java.util.function.Consumer;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.geometry.Pos;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.stage.DirectoryChooser;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.frame.Theme;
import org.sideport.app.settings.Language;
import org.sideport.model.InputException;
import org.sideport.workflow.upkeep.KeepBackups;

/** What the window shows where a workspace cannot be opened: why, what to do, and the ways to a copy or another one. */
final class RefusedWindow implements AutoCloseable {

    private final Stage stage;
    private final Path folder;
    private final Settings settings;
    private final Texts texts;
    private final Theme theme;
    private final ThreadBackground work = new ThreadBackground("sideport-restore", new FxThread());
    private final SimpleBooleanProperty busy = new SimpleBooleanProperty(false);
    private final Label problem = Ui.wrapped("", "warning-note");
    private final Consumer<Path> open;

    /** @param open gets the folder that is to be opened instead, once */
    RefusedWindow(Stage stage, Path folder, Consumer<Path> open) {
        this.stage = stage;
        this.folder = folder;
        this.open = open;
        settings = AppContext.settings(folder, "");
        texts = new Texts(Language.of(settings.get("language", "")));
        theme = new Theme(settings);
    }

    void show(InputException why) {
        Label head = Ui.wrapped(texts.get("refused.title", String.valueOf(folder.getFileName())), "large");
        head.setId("refused-title");
        say(why);
        problem.setId("refused-why");
        ProgressBar progress = new ProgressBar();
        progress.setMaxWidth(Double.MAX_VALUE);
        progress.setAccessibleText(texts.get("refused.restoring"));
        Ui.showIf(progress, busy);
        Button copy = Ui.button("refused-restore", Feather.ROTATE_CCW, texts.get("store.restore"), this::chooseCopy);
        Button other = Ui.button("refused-other", Feather.FOLDER, texts.get("refused.other"), this::chooseOther);
        Button close = Ui.button("refused-close", null, texts.get("close"), stage::close);
        close.setCancelButton(true);
        copy.disableProperty().bind(busy);
        other.disableProperty().bind(busy);
        FlowPane foot = new FlowPane(Ui.STEP, Ui.STEP, close, other, copy);
        foot.setAlignment(Pos.CENTER_RIGHT);
        Label path = Ui.wrapped(folder.toAbsolutePath().toString(), "small", "text-muted");
        VBox card = Ui.styled(new VBox(Ui.STEP * 2, head, path, problem, progress, foot), "first-card");
        card.setMaxHeight(VBox.USE_PREF_SIZE);
        Scene scene = new Scene(Ui.styled(new StackPane(card), "veil"), 1280, 800);
        theme.dress(scene);
        stage.setScene(scene);
        stage.setTitle(texts.get("app.name"));
        stage.show();
        copy.requestFocus();
    }

    private void say(Throwable failure) {
        Notice said = Notice.of(failure, texts);
        problem.setText(said == null ? "" : said.text());
    }

    private void chooseCopy() {
        File chosen = Copies.chooser(texts, folder).showOpenDialog(stage);
        File into = chosen == null ? null : folder(texts.get("store.restore.into"));
        if (chosen != null && into != null) {
            restore(chosen.toPath(), into.toPath());
        }
    }

    /** Makes a workspace out of a copy and opens it. */
    void restore(Path copy, Path into) {
        busy.set(true);
        work.run(progress -> KeepBackups.restore(copy, into, progress), made -> leave(made.dir()), failure -> {
            busy.set(false);
            say(failure);
        });
    }

    private void chooseOther() {
        File chosen = folder(texts.get("refused.other"));
        if (chosen != null) {
            leave(chosen.toPath());
        }
    }

    private @Nullable File folder(String title) {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle(title);
        return chooser.showDialog(stage);
    }

    private void leave(Path to) {
        close();
        open.accept(to);
    }

    @Override
    public void close() {
        work.close();
        settings.close();
    }
}
