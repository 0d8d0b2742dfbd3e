package org.sideport.app.frame;

import java.util.function.Consumer;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppContext;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notice;
import org.sideport.app.keys.PhaseKeys;
import org.sideport.app.settings.Language;
import org.sideport.model.Procedure;

/** The dialogs that open over whatever screen there is. */
final class WindowDialogs {

    private final AppContext context;
    private final Stage owner;
    private final Consumer<Language> speak;
    private final Runnable firstSteps;

    /**
     * @param speak takes another language for the window
     * @param firstSteps shows the first steps again
     */
    WindowDialogs(AppContext context, Stage owner, Consumer<Language> speak, Runnable firstSteps) {
        this.context = context;
        this.owner = owner;
        this.speak = speak;
        this.firstSteps = firstSteps;
    }

    void keys() {
        CurrentCase.Opened open = context.current().opened();
        Procedure procedure = open == null ? null : new PhaseKeys(context.settings()).applied(open.procedure());
        new ShortcutSheet(owner, context.texts(), context.settings(), procedure).show();
    }

    void about() {
        new AboutDialog(owner, context.texts(), context.playerText(), firstSteps).show();
    }

    void settings() {
        new SettingsDialog(owner, context, speak, this::keys, firstSteps).show();
    }

    /** What is known of a problem, to read and to copy. */
    void details(String words, @Nullable Throwable failure) {
        new DetailsDialog(owner, context.texts(), words, failure, context.logTail(), context.work()).show();
    }

    void newestDetails() {
        Notice newest = context.notices().currentProperty().get();
        if (newest != null) {
            details(newest.text(), newest.failure());
        }
    }
}
