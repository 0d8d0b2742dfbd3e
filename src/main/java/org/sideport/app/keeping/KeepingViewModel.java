package org.sideport.app.keeping;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.DeleteCase;
import org.sideport.workflow.consent.DeletionPlan;

/** What waits for a look or for deletion, the unit's rules about consent, and what was deleted. */
public final class KeepingViewModel {

    private static final String BY = "keeping.person";
    /** Fixed for who signed in, see {@code AppContext}. */
    private static final String SIGNED_IN = "annotator";

    private final CaseKeeping keeping;
    private final DeleteCase deleting;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final Clock clock;
    private final boolean byFixed;
    private final StringProperty by;
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<CaseKeeping.@Nullable Overview> overview = new ReadOnlyObjectWrapper<>(null);
    private final ObservableList<String> leftToDo = FXCollections.observableArrayList();

    public KeepingViewModel(
            CaseKeeping keeping,
            DeleteCase deleting,
            Background work,
            Notices notices,
            Texts texts,
            Settings settings,
            Clock clock) {
        this.keeping = keeping;
        this.deleting = deleting;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        this.clock = clock;
        byFixed = settings.isFixed(SIGNED_IN);
        by = new SimpleStringProperty(byFixed ? settings.get(SIGNED_IN, "") : settings.get(BY, ""));
        by.addListener((property, old, now) -> {
            if (!byFixed) {
                settings.put(BY, now);
            }
            check();
        });
        check();
    }

    private void check() {
        whyNot.set(by.get().isBlank() ? texts.get("keeping.why.who") : "");
    }

    /** Code of the person who decides here. */
    public StringProperty byProperty() {
        return by;
    }

    /** True if who signed in decides under the own code, which is not to be changed. */
    public boolean isByFixed() {
        return byFixed;
    }

    /** Why nothing can be decided yet; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    /** {@code null} until it was read. */
    public ReadOnlyObjectProperty<CaseKeeping.@Nullable Overview> overviewProperty() {
        return overview.getReadOnlyProperty();
    }

    /** Files of deleted cases that a person has to delete, since the program came up. */
    public ObservableList<String> leftToDo() {
        return leftToDo;
    }

    public LocalDate today() {
        return LocalDate.now(clock);
    }

    public void refresh() {
        work.run(progress -> keeping.overview(today()), overview::set, notices::failed);
    }

    /** Looks what deleting a case would do. */
    public void plan(String code, Consumer<DeletionPlan> found) {
        work.run(progress -> deleting.plan(code, today()), found, notices::failed);
    }

    /** Deletes as planned and confirmed. */
    public void delete(DeletionPlan confirmed) {
        String who = by.get();
        work.named("jobs.delete")
                .run(
                        progress -> deleting.delete(confirmed, who, today()),
                        done -> {
                            List<String> left = files(done.plan());
                            leftToDo.addAll(left);
                            notices.show(Notice.done(
                                    texts.get(
                                            left.isEmpty() ? "keeping.deleted" : "keeping.deleted.left",
                                            done.deletion().id()),
                                    null));
                            refresh();
                        },
                        failure -> {
                            notices.failed(failure);
                            refresh();
                        });
    }

    private List<String> files(DeletionPlan plan) {
        List<String> lines = new ArrayList<>();
        for (Path file : plan.elsewhere()) {
            lines.add(texts.get("keeping.left.elsewhere", file.toString()));
        }
        for (Path file : plan.missing()) {
            lines.add(texts.get("keeping.left.missing", file.toString()));
        }
        for (Path file : plan.shared()) {
            lines.add(texts.get("keeping.left.shared", file.toString()));
        }
        return lines;
    }

    /** What a confirmation must tell of a plan, a line each. */
    public List<String> told(DeletionPlan plan) {
        List<String> lines = new ArrayList<>();
        lines.add(texts.get("keeping.plan.marks", plan.signed()));
        lines.add(texts.get("keeping.plan.files", plan.files().size()));
        lines.addAll(files(plan));
        lines.add(texts.get("keeping.plan.beyond"));
        return lines;
    }

    public void extend(String code, LocalDate until) {
        change(() -> keeping.extend(code, until, by.get(), Instant.now(clock), today()));
    }

    public void done(String code) {
        change(() -> keeping.done(code, by.get(), Instant.now(clock)));
    }

    public void takeBack(String code) {
        change(() -> keeping.takeBack(code, by.get(), Instant.now(clock)));
    }

    public void decide(ConsentSituation situation, ConsentRuling ruling) {
        change(() -> keeping.decide(situation, ruling));
    }

    private void change(Runnable deed) {
        work.run(
                progress -> {
                    deed.run();
                    return true;
                },
                done -> refresh(),
                failure -> {
                    notices.failed(failure);
                    refresh();
                });
    }

    /** Takes the list of files off. */
    public void forgetLeft() {
        leftToDo.clear();
    }
}
