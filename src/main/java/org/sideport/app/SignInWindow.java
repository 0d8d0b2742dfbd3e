package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.sideport.app.frame.Theme;
import org.sideport.app.people.SignInPane;
import org.sideport.app.people.SignInViewModel;
import org.sideport.app.settings.Language;
import org.sideport.store.Workspace;
import org.sideport.workflow.SignIn;
import org.sideport.workflow.access.Credentials;

/** What the window shows before anybody has signed in. */
final class SignInWindow implements AutoCloseable {

    private final Stage stage;
    private final Workspace workspace;
    private final Settings settings;
    private final Texts texts;
    private final Theme theme;
    private final ThreadBackground work = new ThreadBackground("sideport-sign-in", new FxThread());
    private final SignInPane pane;

    /** @param in gets the workspace on behalf of who signed in, and closes it in the end */
    SignInWindow(Stage stage, Workspace workspace, Consumer<Workspace> in) {
        this.stage = stage;
        this.workspace = workspace;
        settings = AppContext.settings(workspace.dir(), "");
        texts = new Texts(Language.of(settings.get("language", "")));
        theme = new Theme(settings);
        SignInViewModel model = new SignInViewModel(
                new SignIn(workspace, Credentials.inStore(), Clock.systemUTC()), work, texts, done -> {
                    release();
                    in.accept(done.workspace());
                });
        Path name = workspace.dir().getFileName();
        pane = new SignInPane(
                model, texts, texts.get("signin.title"), texts.get("signin.text", String.valueOf(name)), false);
    }

    void show() {
        Scene scene = new Scene(Ui.styled(new StackPane(pane), "veil"), 1280, 800);
        theme.dress(scene);
        stage.setScene(scene);
        stage.setTitle(texts.get("app.name"));
        stage.show();
        pane.takeFocus();
    }

    private void release() {
        work.close();
        settings.close();
    }

    /** The window went without anybody signing in. */
    @Override
    public void close() {
        release();
        workspace.close();
    }
}
