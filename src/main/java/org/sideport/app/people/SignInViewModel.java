package org.sideport.app.people;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.store.Workspace;

/** Signing in, and changing the own password, with what there is to say about it. */
public final class SignInViewModel {

    private final Door door;
    private final Background work;
    private final Texts texts;
    private final Consumer<Workspace> in;
    private final StringProperty code = new SimpleStringProperty("");
    private final ReadOnlyStringWrapper problem = new ReadOnlyStringWrapper("");
    private final ReadOnlyBooleanWrapper busy = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyBooleanWrapper changing = new ReadOnlyBooleanWrapper(false);

    /** @param in gets the workspace on behalf of who signed in */
    public SignInViewModel(Door door, Background work, Texts texts, Consumer<Workspace> in) {
        this.door = door;
        this.work = work;
        this.texts = texts;
        this.in = in;
    }

    public StringProperty codeProperty() {
        return code;
    }

    /** What went wrong; empty if nothing did. */
    public ReadOnlyStringProperty problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** True while the password is looked at. */
    public ReadOnlyBooleanProperty busyProperty() {
        return busy.getReadOnlyProperty();
    }

    /** True if a new password is to be chosen first. */
    public ReadOnlyBooleanProperty changingProperty() {
        return changing.getReadOnlyProperty();
    }

    /** Asks for a new password at once. */
    public void change() {
        changing.set(true);
    }

    /**
     * Signs in, or changes the password and signs in.
     *
     * @param fresh the new password, if one is to be chosen; likewise {@code again}
     */
    public void submit(String password, String fresh, String again) {
        if (busy.get()) {
            return;
        }
        if (code.get().isBlank() || password.isEmpty()) {
            problem.set(texts.get("signin.why.empty"));
            return;
        }
        if (changing.get() && !fresh.equals(again)) {
            problem.set(texts.get("signin.why.differ"));
            return;
        }
        boolean toChange = changing.get();
        String who = code.get();
        char[] old = password.toCharArray();
        char[] chosen = fresh.toCharArray();
        problem.set("");
        busy.set(true);
        work.run(
                progress -> {
                    try {
                        return toChange ? Optional.of(door.change(who, old, chosen)) : door.enter(who, old);
                    } finally {
                        Arrays.fill(old, '\0');
                        Arrays.fill(chosen, '\0');
                    }
                },
                this::answered,
                failure -> {
                    busy.set(false);
                    Notice notice = Notice.of(failure, texts);
                    problem.set(notice == null ? "" : texts.sentence(notice.text()));
                });
    }

    private void answered(Optional<Workspace> opened) {
        busy.set(false);
        opened.ifPresentOrElse(in, () -> changing.set(true));
    }
}
