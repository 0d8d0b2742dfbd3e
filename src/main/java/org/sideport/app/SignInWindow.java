package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.util.function.Consumer;
import java.util.function.Function;
import javafx.scene.Scene;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.sideport.app.frame.Theme;
import org.sideport.app.people.Door;
import org.sideport.app.people.SignInPane;
import org.sideport.app.people.SignInViewModel;
import org.sideport.app.settings.Language;
import org.sideport.store.Workspace;
import org.sideport.workflow.DatabaseSignIn;
import org.sideport.workflow.SignIn;
import org.sideport.workflow.access.Credentials;

/** What the window shows before anybody has signed in. */
final class SignInWindow implements AutoCloseable {

    private final Stage stage;
    private final Settings settings;
    private final Texts texts;
    private final Theme theme;
    private final ThreadBackground work = new ThreadBackground("sideport-sign-in", new FxThread());
    private final SignInPane pane;
    private final Runnable left;

    private SignInWindow(
            Stage stage,
            Path folder,
            Function<Texts, Door> door,
            String textKey,
            Runnable left,
            Consumer<Workspace> in) {
        this.stage = stage;
        this.left = left;
        settings = AppContext.settings(folder, "");
        texts = new Texts(Language.of(settings.get("language", "")));
        theme = new Theme(settings);
        SignInViewModel model = new SignInViewModel(door.apply(texts), work, texts, opened -> {
            release();
            in.accept(opened);
        });
        String name = String.valueOf(folder.getFileName());
        pane = new SignInPane(model, texts, texts.get("signin.title"), texts.get(textKey, name), false);
    }

    /**
     * For a workspace whose people sign in.
     *
     * @param in gets the workspace on behalf of who signed in, and closes it in the end
     */
    static SignInWindow ofPeople(Stage stage, Workspace workspace, Consumer<Workspace> in) {
        SignIn people = new SignIn(workspace, Credentials.inStore(), Clock.systemUTC());
        return new SignInWindow(stage, workspace.dir(), texts -> Door.of(people), "signin.text", workspace::close, in);
    }

    /**
     * For a workspace on a shared database that has refused the login it was tried with.
     *
     * @param in as {@link #ofPeople}
     */
    static SignInWindow ofDatabase(Stage stage, Path folder, Consumer<Workspace> in) {
        return new SignInWindow(
                stage,
                folder,
                texts -> Door.of(new DatabaseSignIn(folder), texts.get("signin.database.refused")),
                "signin.database.text",
                () -> {},
                in);
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
        left.run();
    }
}
