package org.sideport.app.exchange;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.model.Progress;
import org.sideport.workflow.exchange.ImportBundle;
import org.sideport.workflow.exchange.ImportChoice;
import org.sideport.workflow.exchange.ImportPlan;

/** A case bundle: what it would bring and where it differs, before anything is stored. */
public final class ImportBundleViewModel {

    private static final String BY_SETTING = "annotator";

    private final ImportBundle job;
    private final Path file;
    private final Background work;
    private final Texts texts;
    private final Settings settings;
    private final Consumer<ImportPlan> taken;
    private final StringProperty by;
    private final StringProperty passphrase = new SimpleStringProperty("");
    private final StringProperty caseAs = new SimpleStringProperty("");
    private final BooleanProperty theirs = new SimpleBooleanProperty(false);
    private final ObservableList<PersonHere> people = FXCollections.observableArrayList();
    private final ReadOnlyBooleanWrapper locked = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyObjectWrapper<@Nullable ImportPlan> plan = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyDoubleWrapper working = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    /** What the plan was made for; {@code null} where there is none. */
    private @Nullable ImportChoice planned;

    private Background.@Nullable Job running;

    /** @param taken told what was done when it is in the store */
    public ImportBundleViewModel(
            ImportBundle job, Path file, Background work, Texts texts, Settings settings, Consumer<ImportPlan> taken) {
        this.job = job;
        this.file = file;
        this.work = work;
        this.texts = texts;
        this.settings = settings;
        this.taken = taken;
        by = new SimpleStringProperty(settings.get(BY_SETTING, settings.get("assessor", "")));
        by.addListener((property, old, now) -> check());
        passphrase.addListener((property, old, now) -> check());
        caseAs.addListener((property, old, now) -> check());
        theirs.addListener((property, old, now) -> check());
        check();
    }

    public Path file() {
        return file;
    }

    /** Code of the person who takes it in. */
    public StringProperty byProperty() {
        return by;
    }

    /** True if who signed in takes it in under the own code. */
    public boolean isByFixed() {
        return settings.isFixed(BY_SETTING);
    }

    public StringProperty passphraseProperty() {
        return passphrase;
    }

    /** Another code for the case here; empty for its own. */
    public StringProperty caseAsProperty() {
        return caseAs;
    }

    /** True if drafts of the bundle go before those here. */
    public BooleanProperty theirsProperty() {
        return theirs;
    }

    ObservableList<PersonHere> people() {
        return people;
    }

    /** True if it opens with a passphrase only. */
    public ReadOnlyBooleanProperty lockedProperty() {
        return locked.getReadOnlyProperty();
    }

    /** What would happen; {@code null} while it is not known. */
    public ReadOnlyObjectProperty<@Nullable ImportPlan> planProperty() {
        return plan.getReadOnlyProperty();
    }

    /** How far the reading or storing is, 0 to 1; not a number when neither is under way. */
    public ReadOnlyDoubleProperty workingProperty() {
        return working.getReadOnlyProperty();
    }

    public boolean isWorking() {
        return !Double.isNaN(working.get());
    }

    /** Why it cannot be taken in yet; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    private void check() {
        ImportPlan now = plan.get();
        if (isWorking()) {
            whyNot.set(texts.get("bundle.why.reading"));
        } else if (locked.get() && passphrase.get().isEmpty()) {
            whyNot.set(texts.get("bundle.why.passphrase"));
        } else if (now == null || !choice().equals(planned)) {
            whyNot.set(texts.get("bundle.why.look"));
        } else if (by.get().isBlank()) {
            whyNot.set(texts.get("bundle.why.by"));
        } else if (!now.questions().isEmpty()) {
            whyNot.set(texts.get("bundle.why.questions"));
        } else if (now.bringsNothing()) {
            whyNot.set(texts.get(now.conflicts().isEmpty() ? "bundle.why.here" : "bundle.why.kept", now.caseCode()));
        } else {
            whyNot.set("");
        }
    }

    private ImportChoice choice() {
        Map<String, String> others = new HashMap<>();
        String trainee = null;
        for (PersonHere person : people) {
            String here = person.hereProperty().get().strip();
            if (here.isEmpty()) {
                continue;
            }
            if (person.isTrainee()) {
                trainee = here;
            } else {
                others.put(person.code(), here);
            }
        }
        String code = caseAs.get().strip();
        return new ImportChoice(
                code.isEmpty() ? null : code,
                trainee,
                others,
                theirs.get(),
                by.get().strip());
    }

    /** Finds out whether it is locked, and looks into it if it is not. */
    public void begin() {
        work.run(
                progress -> ImportBundle.needsPassphrase(file),
                needed -> {
                    locked.set(needed);
                    if (needed) {
                        check();
                    } else {
                        look();
                    }
                },
                this::failed);
    }

    /** Reads the whole bundle and compares it with what is here; changes nothing. */
    public void look() {
        if (isWorking() || (locked.get() && passphrase.get().isEmpty())) {
            return;
        }
        ImportChoice wanted = choice();
        plan.set(null);
        start((secret, progress) -> job.look(file, secret, wanted, progress), found -> {
            planned = wanted;
            plan.set(found);
            fill(found);
        });
    }

    private void fill(ImportPlan found) {
        List<String> shown = people.stream().map(PersonHere::code).toList();
        if (!shown.equals(found.people().stream().map(ImportPlan.Person::code).toList())) {
            people.clear();
            for (int i = 0; i < found.people().size(); i++) {
                ImportPlan.Person one = found.people().get(i);
                PersonHere person = new PersonHere(one.code(), one.known(), i == 0);
                person.hereProperty().addListener((property, old, now) -> check());
                people.add(person);
            }
        }
    }

    /** Takes it in as the plan that shows says. */
    public void take() {
        ImportChoice wanted = planned;
        if (wanted == null || !whyNot.get().isEmpty()) {
            return;
        }
        start((secret, progress) -> job.take(file, secret, wanted, progress), taken);
    }

    @FunctionalInterface
    private interface Step {
        ImportPlan run(char @Nullable [] secret, Progress progress);
    }

    private void start(Step step, Consumer<ImportPlan> then) {
        problem.set(null);
        char[] secret = locked.get() ? passphrase.get().toCharArray() : null;
        working.set(0);
        check();
        running = work.run(
                progress -> {
                    try {
                        return step.run(secret, progress);
                    } finally {
                        if (secret != null) {
                            Arrays.fill(secret, '\0');
                        }
                    }
                },
                done -> {
                    working.set(Double.NaN);
                    then.accept(done);
                    check();
                },
                this::failed,
                (fraction, message) -> {
                    if (isWorking()) {
                        working.set(Math.max(0, fraction));
                    }
                });
    }

    private void failed(Throwable failure) {
        working.set(Double.NaN);
        problem.set(Notice.of(failure, texts));
        check();
    }

    public void cancel() {
        if (running != null) {
            running.cancel();
        }
    }
}
