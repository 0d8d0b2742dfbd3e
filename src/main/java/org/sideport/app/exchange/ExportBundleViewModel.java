package org.sideport.app.exchange;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.workflow.exchange.ExportCase;

/** Cases on their way out: one file each, for another store. */
public final class ExportBundleViewModel {

    static final String ENDING = ".sideport-case.zip";

    private final ExportCase job;
    private final List<String> codes;
    private final Background work;
    private final Texts texts;
    private final Consumer<List<ExportCase.Exported>> written;
    private final BooleanProperty media = new SimpleBooleanProperty(false);
    private final BooleanProperty acceptTags = new SimpleBooleanProperty(false);
    private final BooleanProperty encrypted = new SimpleBooleanProperty(true);
    private final StringProperty passphrase = new SimpleStringProperty("");
    private final StringProperty again = new SimpleStringProperty("");
    private final ReadOnlyDoubleWrapper writing = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private Background.@Nullable Job running;

    /**
     * @param codes of the cases, one or more
     * @param written told when all files are there
     */
    public ExportBundleViewModel(
            ExportCase job,
            List<String> codes,
            Background work,
            Texts texts,
            Consumer<List<ExportCase.Exported>> written) {
        this.job = job;
        this.codes = List.copyOf(codes);
        this.work = work;
        this.texts = texts;
        this.written = written;
        encrypted.addListener((property, old, now) -> check());
        passphrase.addListener((property, old, now) -> check());
        again.addListener((property, old, now) -> check());
        check();
    }

    public List<String> codes() {
        return codes;
    }

    /** True to put the recordings in. */
    public BooleanProperty mediaProperty() {
        return media;
    }

    /** True to put a recording in although its tags may name a person. */
    public BooleanProperty acceptTagsProperty() {
        return acceptTags;
    }

    public BooleanProperty encryptedProperty() {
        return encrypted;
    }

    public StringProperty passphraseProperty() {
        return passphrase;
    }

    /** The passphrase once more. */
    public StringProperty againProperty() {
        return again;
    }

    /** How far the writing is, 0 to 1; not a number when none is under way. */
    public ReadOnlyDoubleProperty writingProperty() {
        return writing.getReadOnlyProperty();
    }

    public boolean isWriting() {
        return !Double.isNaN(writing.get());
    }

    /** Why nothing can be written now; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    private void check() {
        if (isWriting()) {
            whyNot.set(texts.get("bundle.why.writing"));
        } else if (!encrypted.get()) {
            whyNot.set("");
        } else if (passphrase.get().length() < ExportCase.SHORTEST_PASSPHRASE) {
            whyNot.set(texts.get("bundle.why.short", ExportCase.SHORTEST_PASSPHRASE));
        } else {
            whyNot.set(passphrase.get().equals(again.get()) ? "" : texts.get("bundle.why.differ"));
        }
    }

    static String nameOf(String code) {
        return code + ENDING;
    }

    /**
     * Writes the bundles.
     *
     * @param target the file of a single case, which is replaced if it is there; else the folder of all files
     */
    public void export(Path target) {
        if (!whyNot.get().isEmpty()) {
            return;
        }
        problem.set(null);
        boolean withMedia = media.get();
        boolean withTags = acceptTags.get();
        char[] secret = encrypted.get() ? passphrase.get().toCharArray() : null;
        writing.set(0);
        check();
        running = work.run(
                progress -> {
                    try {
                        return write(target, withMedia, withTags, secret, progress);
                    } finally {
                        if (secret != null) {
                            Arrays.fill(secret, '\0');
                        }
                    }
                },
                all -> {
                    ended();
                    written.accept(all);
                },
                failure -> {
                    ended();
                    problem.set(Notice.of(failure, texts));
                },
                (fraction, message) -> {
                    if (isWriting()) {
                        writing.set(Math.max(0, fraction));
                    }
                });
    }

    private List<ExportCase.Exported> write(
            Path target, boolean withMedia, boolean withTags, char @Nullable [] secret, Progress progress) {
        if (codes.size() == 1) {
            return List.of(
                    job.export(new ExportCase.Wanted(codes.get(0), withMedia, withTags), secret, target, progress));
        }
        for (String code : codes) {
            Path file = target.resolve(nameOf(code));
            if (Files.exists(file)) {
                throw new InputException("the file exists already", file.toString(), "choose another folder");
            }
        }
        List<ExportCase.Exported> all = new ArrayList<>();
        for (int i = 0; i < codes.size(); i++) {
            progress.check();
            all.add(job.export(
                    new ExportCase.Wanted(codes.get(i), withMedia, withTags),
                    secret,
                    target.resolve(nameOf(codes.get(i))),
                    progress.part((double) i / codes.size(), (i + 1.0) / codes.size())));
        }
        return all;
    }

    /** Says why nothing can be written at all. */
    void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }

    private void ended() {
        writing.set(Double.NaN);
        check();
    }

    public void cancel() {
        if (running != null) {
            running.cancel();
        }
    }
}
