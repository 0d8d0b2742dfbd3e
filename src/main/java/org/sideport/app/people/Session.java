package org.sideport.app.people;

import java.time.Clock;
import java.time.Duration;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.layout.StackPane;
import javafx.stage.Modality;
import javafx.stage.Stage;
import org.sideport.app.Background;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Caller;
import org.sideport.workflow.SignIn;

/** The time from signing in to signing out in one window: what its menu does, and its time-out. */
public final class Session implements AutoCloseable {

    /** Minutes without a touch after which the screen is covered. */
    public static final String MINUTES = "session.minutes";

    public static final int USUAL_MINUTES = 15;

    private final Stage stage;
    private final Caller.Person me;
    private final SignIn job;
    private final Background work;
    private final Texts texts;
    private final Consumer<Scene> dress;
    private final Runnable signOut;
    private final SessionCover cover;

    /**
     * @param inUse true while a recording runs
     * @param pause stops what plays
     * @param dress gives a scene its looks
     * @param signOut ends it: the window asks who comes next
     */
    public Session(
            Stage stage,
            Caller.Person me,
            SignIn job,
            Background work,
            Texts texts,
            Settings settings,
            Clock clock,
            BooleanSupplier inUse,
            Runnable pause,
            Consumer<Scene> dress,
            Runnable signOut) {
        this.stage = stage;
        this.me = me;
        this.job = job;
        this.work = work;
        this.texts = texts;
        this.dress = dress;
        this.signOut = signOut;
        cover = new SessionCover(
                stage,
                clock,
                () -> Duration.ofMinutes((long) Math.max(1, settings.get(MINUTES, USUAL_MINUTES))),
                inUse,
                pause,
                this::asking,
                dress);
    }

    /** What stands in the bar. */
    public Node menu() {
        return new WhoMenu(me, texts, this::changePassword, cover::cover, signOut);
    }

    public SessionCover cover() {
        return cover;
    }

    private SignInPane asking(Runnable uncover) {
        SignInViewModel model = new SignInViewModel(Door.of(job), work, texts, in -> uncover.run());
        model.codeProperty().set(me.code());
        Button out = Ui.button("cover-out", null, texts.get("signin.other"), signOut);
        return new SignInPane(
                model, texts, texts.get("signin.covered", me.code()), texts.get("signin.covered.text"), true, out);
    }

    private void changePassword() {
        Stage asks = new Stage();
        asks.initModality(Modality.WINDOW_MODAL);
        asks.initOwner(stage);
        asks.setTitle(texts.get("who.password"));
        asks.setResizable(false);
        SignInViewModel model = new SignInViewModel(Door.of(job), work, texts, in -> asks.close());
        model.codeProperty().set(me.code());
        model.change();
        Button cancel = Ui.button("sign-in-cancel", null, texts.get("cancel"), asks::close);
        cancel.setCancelButton(true);
        SignInPane pane =
                new SignInPane(model, texts, texts.get("signin.change"), texts.get("signin.change.text"), true, cancel);
        Scene scene = new Scene(Ui.styled(new StackPane(pane), "veil"));
        dress.accept(scene);
        asks.setScene(scene);
        asks.setOnShown(event -> pane.takeFocus());
        asks.show();
    }

    @Override
    public void close() {
        cover.close();
    }
}
