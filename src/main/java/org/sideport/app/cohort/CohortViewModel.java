package org.sideport.app.cohort;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.DoubleProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.Property;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleDoubleProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.progress.ProgressViewModel;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortTimes;
import org.sideport.workflow.CohortView.By;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.OutstandingWork;
import org.sideport.workflow.PlanMarking;
import org.sideport.workflow.UnitComplications;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.handout.WriteCohortReport;

/** A cohort by one rubric at a time; only the section that is looked at is computed. */
public final class CohortViewModel {

    private final ReadOnlyBooleanWrapper loaded = new ReadOnlyBooleanWrapper(false);
    private final FollowCohort cohort;
    private final OutstandingWork outstanding;
    private final PlanMarking planning;
    private final UnitComplications complications;
    private final CohortTimes times;
    private final WriteCohortReport report;
    private final Vocabularies vocabularies;
    private final Background work;
    private final Notices notices;
    private final Settings settings;
    private final ObservableList<Rubric> rubrics = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Rubric> rubric = new SimpleObjectProperty<>(null);
    private final ObjectProperty<Section> section = new SimpleObjectProperty<>(Section.MATRIX);
    private final IntegerProperty last = new SimpleIntegerProperty(FollowCohort.USUAL_LAST);
    private final ObjectProperty<By> by = new SimpleObjectProperty<>(By.DOMAIN);
    private final DoubleProperty wish = new SimpleDoubleProperty(Decisions.USUAL_WISH);
    private final DoubleProperty minutes = new SimpleDoubleProperty(Decisions.USUAL_MINUTES);
    private final BooleanProperty shared = new SimpleBooleanProperty(false);
    private final ReadOnlyObjectWrapper<@Nullable Shown> shown = new ReadOnlyObjectWrapper<>(null);
    private @Nullable OpenCell openCell;
    private int turn;

    private record OpenCell(String trainee, @Nullable String competency) {}

    public CohortViewModel(
            Workspace workspace,
            Clock clock,
            Vocabularies vocabularies,
            Background work,
            Notices notices,
            Settings settings) {
        this.cohort = new FollowCohort(workspace, clock);
        this.outstanding = new OutstandingWork(workspace, clock);
        this.planning = new PlanMarking(workspace);
        this.complications = new UnitComplications(workspace);
        this.times = new CohortTimes(workspace);
        this.report = new WriteCohortReport(workspace, clock);
        this.vocabularies = vocabularies;
        this.work = work;
        this.notices = notices;
        this.settings = settings;
        for (Property<?> asked : new Property<?>[] {rubric, section, last, by, wish, minutes, shared}) {
            asked.addListener((property, old, now) -> read());
        }
    }

    /** Writes the matrix on paper, in the language of the screens. */
    void exportReport(Path file, Texts texts) {
        Rubric of = rubric.get();
        int cases = last.get();
        work.named("jobs.cohort")
                .run(
                        progress -> report.write(
                                of == null ? null : of.id(),
                                cases,
                                texts.locale().getLanguage(),
                                file,
                                progress),
                        written -> notices.show(Notice.done(texts.get("cohort.report.written"), file.toString())),
                        notices::failed);
    }

    ObservableList<Rubric> rubrics() {
        return rubrics;
    }

    ObjectProperty<@Nullable Rubric> rubricProperty() {
        return rubric;
    }

    ObjectProperty<Section> sectionProperty() {
        return section;
    }

    /** How many of the latest marked cases the means are over. */
    IntegerProperty lastProperty() {
        return last;
    }

    /** What the columns of the matrix are. */
    ObjectProperty<By> byProperty() {
        return by;
    }

    /** Coefficient to plan for. */
    DoubleProperty wishProperty() {
        return wish;
    }

    /** Of an assessor for one case. */
    DoubleProperty minutesProperty() {
        return minutes;
    }

    /** True to hide small counts, for passing on. */
    BooleanProperty sharedProperty() {
        return shared;
    }

    /** {@code null} until something is read. */
    ReadOnlyObjectProperty<@Nullable Shown> shownProperty() {
        return shown.getReadOnlyProperty();
    }

    /** True if somebody stated that every operation of the trainee is here, in turn. */
    boolean isComplete(String trainee) {
        Rubric of = rubric.get();
        return of != null && settings.get(ProgressViewModel.completeKey(trainee, of.procedure()), false);
    }

    void setComplete(String trainee, boolean complete) {
        Rubric of = rubric.get();
        if (of != null) {
            settings.put(ProgressViewModel.completeKey(trainee, of.procedure()), complete);
            read();
        }
    }

    /** True once what there is was read: before that nothing is known to be empty. */
    ReadOnlyBooleanProperty loadedProperty() {
        return loaded.getReadOnlyProperty();
    }

    /** Reads what there is now. */
    void load() {
        work.run(
                progress -> vocabularies.rubricTexts().stream()
                        .map(Vocabularies.RubricText::rubric)
                        .toList(),
                found -> {
                    // a list set anew would take the choice off the screen
                    if (!rubrics.equals(found)) {
                        rubrics.setAll(found);
                    }
                    Rubric before = rubric.get();
                    Rubric same = found.stream()
                            .filter(r -> before != null && r.id().equals(before.id()))
                            .findFirst()
                            .orElse(found.isEmpty() ? null : found.get(0));
                    OpenCell cell = openCell;
                    if (same != null && !same.equals(before)) {
                        rubric.set(same);
                    } else if (cell != null) {
                        // whoever comes back from a moment of the recording finds the list that led there
                        open(cell.trainee(), cell.competency());
                    } else {
                        loaded.set(loaded.get() || same == null);
                        read();
                    }
                },
                notices::failed);
    }

    /** The marks behind a cell of the matrix. */
    void open(String trainee, @Nullable String competency) {
        Rubric of = rubric.get();
        if (of != null) {
            openCell = new OpenCell(trainee, competency);
            show(progress -> new Shown.Cell(cohort.marks(of.id(), null, trainee, competency)));
        }
    }

    /** Back from a cell. */
    void read() {
        openCell = null;
        Rubric of = rubric.get();
        if (of == null) {
            shown.set(null);
            return;
        }
        FollowCohort.Question question =
                new FollowCohort.Question(of.id(), null, last.get(), by.get(), wish.get(), minutes.get());
        boolean masked = shared.get();
        double asked = wish.get();
        double each = minutes.get();
        switch (section.get()) {
            case MATRIX -> show(progress -> new Shown.Matrix(cohort.show(question)));
            case WORK -> show(progress -> work(question));
            case PLAN -> show(progress -> new Shown.Plan(planning.show(of.id(), null, asked, each)));
            case COMPLICATIONS -> show(progress -> complications(of.procedure(), masked));
            case TIMES -> show(progress -> new Shown.Times(times.show(of.procedure(), question.last())));
            case ASSESSORS -> show(progress -> new Shown.Assessors(cohort.show(question)));
        }
    }

    private Shown work(FollowCohort.Question question) {
        List<OutstandingWork.Item> items = outstanding.of(question.rubric(), null);
        return new Shown.Work(
                items, !items.isEmpty() || !cohort.show(question).rows().isEmpty());
    }

    private Shown complications(String procedure, boolean masked) {
        int fewest = masked ? UnitComplications.USUAL_FEWEST : 0;
        Set<String> complete = new TreeSet<>();
        for (var one : complications
                .show(new UnitComplications.Question(procedure, Set.of(), 0))
                .trainees()) {
            if (settings.get(ProgressViewModel.completeKey(one.trainee(), procedure), false)) {
                complete.add(one.trainee());
            }
        }
        return new Shown.Complications(complications.show(new UnitComplications.Question(procedure, complete, fewest)));
    }

    private void show(Background.Work<Shown> job) {
        int mine = ++turn;
        work.run(
                job,
                now -> {
                    if (turn == mine) {
                        loaded.set(true);
                        shown.set(now);
                    }
                },
                notices::failed);
    }
}
