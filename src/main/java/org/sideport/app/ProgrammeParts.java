package org.sideport.app;

import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.sideport.app.assign.AssignmentsPane;
import org.sideport.app.assign.AssignmentsViewModel;
import org.sideport.app.assign.CalibrationPane;
import org.sideport.app.assign.DisagreementsPane;
import org.sideport.app.assign.DisagreementsViewModel;
import org.sideport.app.frame.Navigator;
import org.sideport.app.keeping.KeepingPane;
import org.sideport.app.keeping.KeepingViewModel;
import org.sideport.app.people.Me;
import org.sideport.app.people.PeoplePane;
import org.sideport.app.people.PeopleViewModel;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.rubric.RubricEditorViewModel;
import org.sideport.app.rubric.RubricPane;
import org.sideport.app.standard.CohortPane;
import org.sideport.app.standard.CohortViewModel;
import org.sideport.app.standard.DecisionsPane;
import org.sideport.app.standard.DecisionsViewModel;
import org.sideport.app.standard.StandardsPane;
import org.sideport.app.standard.StandardsViewModel;
import org.sideport.app.upkeep.StorePane;
import org.sideport.store.Workspace;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.People;
import org.sideport.workflow.RubricWorkshop;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.CalibrationSet;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.DeleteCase;

/** The parts of the programme's screen, wired together. */
record ProgrammeParts(
        Workspace workspace,
        Clock clock,
        Vocabularies vocabularies,
        Background work,
        Background listedWork,
        Background upkeep,
        Notices notices,
        Texts texts,
        Settings settings) {

    /** The rubric that assessors practise on. */
    private static final String CALIBRATED_RUBRIC = "phaco-competency";

    /** Those that are of use to who sits here, in their order. */
    List<ProgrammePane> offered(Me me, Navigator navigator) {
        Assignments assignments = new Assignments(workspace, clock);
        return Stream.<ProgrammePane>of(
                        new CohortPane(
                                new CohortViewModel(
                                        new FollowCohort(workspace, clock), vocabularies, listedWork, notices),
                                texts),
                        new AssignmentsPane(new AssignmentsViewModel(assignments, work, notices, texts, clock), texts),
                        new DisagreementsPane(
                                new DisagreementsViewModel(
                                        new Adjudication(workspace, clock), assignments, work, notices, texts),
                                texts),
                        new CalibrationPane(
                                new CalibrationSet(workspace, clock), CALIBRATED_RUBRIC, work, notices, texts),
                        new RubricPane(
                                new RubricEditorViewModel(new RubricWorkshop(workspace), listedWork, notices, texts),
                                texts),
                        standards(),
                        decisions(),
                        new PeoplePane(
                                new PeopleViewModel(
                                        new People(workspace, Credentials.inStore(), clock),
                                        work,
                                        notices,
                                        texts,
                                        navigator::signOut),
                                texts),
                        new KeepingPane(
                                new KeepingViewModel(
                                        new CaseKeeping(workspace),
                                        new DeleteCase(workspace),
                                        listedWork,
                                        notices,
                                        texts,
                                        settings,
                                        clock),
                                texts),
                        StorePane.of(workspace, clock, upkeep, notices, texts))
                .filter(pane -> pane.needs() == null || me.may(pane.needs()))
                .toList();
    }

    private ProgrammePane standards() {
        return new StandardsPane(
                new StandardsViewModel(
                        new StandardRounds(workspace, clock),
                        new Standards(workspace, clock),
                        vocabularies,
                        listedWork,
                        notices,
                        texts,
                        clock),
                texts,
                notices);
    }

    private ProgrammePane decisions() {
        return new DecisionsPane(
                new DecisionsViewModel(
                        new Decisions(workspace, clock), vocabularies, listedWork, notices, texts, clock),
                texts);
    }
}
