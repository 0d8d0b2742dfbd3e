package org.sideport.app.progress;

import java.nio.file.Path;
import java.util.Objects;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.FollowProgress.Question;
import org.sideport.workflow.FollowProgress.Subject;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.exchange.ExportOwnData;
import org.sideport.workflow.handout.WritePortfolio;

/** The progress of one trainee at a time. */
public final class ProgressViewModel {

    private final FollowProgress progress;
    private final WritePortfolio portfolio;
    private final ExportOwnData ownData;
    private final CurrentCase current;
    private final String own;
    private final Background work;
    private final Notices notices;
    private final ObservableList<Subject> subjects = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Subject> subject = new SimpleObjectProperty<>(null);
    private final IntegerProperty recent = new SimpleIntegerProperty(FollowProgress.USUAL_RECENT);
    private final BooleanProperty complete = new SimpleBooleanProperty(false);
    private final BooleanProperty steps = new SimpleBooleanProperty(false);
    private final ReadOnlyObjectWrapper<@Nullable ProgressView> view = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyBooleanWrapper loading = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyStringWrapper whyNoPortfolio = new ReadOnlyStringWrapper("");
    private final ReadOnlyStringWrapper whyNoData = new ReadOnlyStringWrapper("");
    private final Texts texts;
    /** Code of the case that was open when one was here last. */
    private String lastOpen = "";

    private int turn;
    private boolean choosing;

    /** @param own code of who signed in; empty for nobody */
    public ProgressViewModel(
            FollowProgress progress,
            WritePortfolio portfolio,
            ExportOwnData ownData,
            CurrentCase current,
            String own,
            Background work,
            Notices notices,
            Texts texts,
            Settings settings) {
        this.progress = progress;
        this.portfolio = portfolio;
        this.ownData = ownData;
        this.current = current;
        this.own = own;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        whyNoPortfolio.set(whyNoPortfolio(null));
        whyNoData.set(whyNoData(null));
        subject.addListener((property, old, now) -> {
            whyNoPortfolio.set(whyNoPortfolio(now));
            whyNoData.set(whyNoData(now));
            choosing = true;
            complete.set(now != null && settings.get(key(now), false));
            choosing = false;
            // nobody's figures stand under another's code while they are computed
            loading.set(true);
            view.set(null);
            read();
        });
        recent.addListener((property, old, now) -> read());
        complete.addListener((property, old, now) -> {
            Subject of = subject.get();
            if (of != null && !choosing) {
                settings.put(key(of), now);
                read();
            }
        });
    }

    /** Under which it is remembered that somebody stated that a trainee's log of a procedure is complete. */
    public static String completeKey(String trainee, String procedure) {
        return "log_complete." + trainee + "." + procedure;
    }

    private static String key(Subject of) {
        return completeKey(of.trainee(), of.procedure());
    }

    /** Whom one may follow. */
    public ObservableList<Subject> subjects() {
        return subjects;
    }

    public ObjectProperty<@Nullable Subject> subjectProperty() {
        return subject;
    }

    /** How many of the latest cases are compared with those before. */
    public IntegerProperty recentProperty() {
        return recent;
    }

    /** True if the person at work states that every operation of the trainee is here; remembered for each. */
    public BooleanProperty completeProperty() {
        return complete;
    }

    /** True to show the steps too. */
    public BooleanProperty stepsProperty() {
        return steps;
    }

    /** {@code null} until something is read, and where there is nobody to follow. */
    public ReadOnlyObjectProperty<@Nullable ProgressView> viewProperty() {
        return view.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty loadingProperty() {
        return loading.getReadOnlyProperty();
    }

    /** Reads what there is now. */
    public void load() {
        loading.set(true);
        work.run(
                job -> progress.subjects(),
                found -> {
                    Subject before = subject.get();
                    if (!subjects.equals(found)) {
                        subjects.setAll(found);
                    }
                    Subject wanted = before == null ? first() : followed(before);
                    if (Objects.equals(wanted, before)) {
                        read();
                    } else {
                        subject.set(wanted);
                    }
                },
                this::failed);
    }

    /** Whose case was opened since one was here last; else who was followed before. */
    private @Nullable Subject followed(Subject before) {
        CurrentCase.Opened open = current.opened();
        String code = open == null ? "" : open.overview().surgicalCase().code();
        if (open == null || code.equals(lastOpen)) {
            return same(before);
        }
        lastOpen = code;
        String trainee = open.overview().surgicalCase().trainee();
        String procedure = open.overview().surgicalCase().procedure();
        return subjects.stream()
                .filter(s -> s.trainee().equals(trainee) && s.procedure().equals(procedure))
                .findFirst()
                .orElseGet(() -> same(before));
    }

    private @Nullable Subject same(Subject before) {
        return subjects.stream()
                .filter(s ->
                        s.trainee().equals(before.trainee()) && s.procedure().equals(before.procedure()))
                .findFirst()
                .orElseGet(this::first);
    }

    /** Oneself; else whose case is open; else anybody. */
    private @Nullable Subject first() {
        CurrentCase.Opened open = current.opened();
        String trainee = open == null ? "" : open.overview().surgicalCase().trainee();
        lastOpen = open == null ? "" : open.overview().surgicalCase().code();
        return subjects.stream()
                .filter(s -> s.trainee().equals(own))
                .findFirst()
                .or(() -> subjects.stream()
                        .filter(s -> s.trainee().equals(trainee))
                        .findFirst())
                .or(() -> subjects.stream().findFirst())
                .orElse(null);
    }

    private void read() {
        int mine = ++turn;
        Subject of = subject.get();
        if (of == null) {
            view.set(null);
            loading.set(false);
            return;
        }
        loading.set(true);
        Question asked = new Question(of.trainee(), of.procedure(), null, recent.get(), complete.get());
        work.run(
                job -> progress.show(asked),
                now -> {
                    if (turn == mine) {
                        view.set(now);
                        loading.set(false);
                    }
                },
                this::failed);
    }

    private void failed(Throwable failure) {
        loading.set(false);
        notices.failed(failure);
    }

    /** Why the portfolio cannot be written; empty if it can. */
    public ReadOnlyStringProperty whyNoPortfolioProperty() {
        return whyNoPortfolio.getReadOnlyProperty();
    }

    private String whyNoPortfolio(@Nullable Subject of) {
        if (of == null) {
            return texts.get("portfolio.why.nobody");
        }
        return portfolio.isOffered(of.trainee()) ? "" : texts.get("portfolio.why.role");
    }

    /** Writes the portfolio of the trainee that shows, in the language of the screens. */
    public void exportPortfolio(Path file) {
        Subject of = subject.get();
        if (of == null) {
            return;
        }
        WritePortfolio.Wanted wanted = new WritePortfolio.Wanted(
                of.trainee(),
                of.procedure(),
                null,
                complete.get(),
                texts.locale().getLanguage());
        work.named("jobs.portfolio")
                .run(
                        running -> portfolio.write(wanted, file, running),
                        written -> notices.show(Notice.done(
                                texts.get("portfolio.written", written.cases(), written.marks()),
                                written.file().toString())),
                        notices::failed);
    }

    /** Why all that is held of the person cannot be written; empty if it can. */
    public ReadOnlyStringProperty whyNoDataProperty() {
        return whyNoData.getReadOnlyProperty();
    }

    private String whyNoData(@Nullable Subject of) {
        String whose = whoseData(of);
        if (whose.isEmpty()) {
            return texts.get("portfolio.why.nobody");
        }
        // they are for the same people as the portfolio
        return portfolio.isOffered(whose) ? "" : texts.get("ownData.why.role");
    }

    /** Whose data would be written; who has no case yet can ask for the own. Empty for nobody's. */
    public String whoseData() {
        return whoseData(subject.get());
    }

    private String whoseData(@Nullable Subject of) {
        return of == null ? own : of.trainee();
    }

    /** Writes all that the store holds about the trainee that shows. */
    public void exportData(Path file) {
        String whose = whoseData();
        work.named("jobs.ownData")
                .run(
                        running -> ownData.export(whose, file),
                        cases -> notices.show(Notice.done(texts.get("ownData.written", whose, cases), file.toString())),
                        notices::failed);
    }
}
