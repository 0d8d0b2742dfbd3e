package org.sideport.app;

import java.time.Clock;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.sideport.app.assign.AssignmentsPane;
import org.sideport.app.assign.AssignmentsViewModel;
import org.sideport.app.assign.CalibrationPane;
import org.sideport.app.assign.DisagreementsPane;
import org.sideport.app.assign.DisagreementsViewModel;
import org.sideport.app.cohort.CohortPane;
import org.sideport.app.cohort.CohortViewModel;
import org.sideport.app.frame.Navigator;
import org.sideport.app.keeping.KeepingPane;
import org.sideport.app.keeping.KeepingViewModel;
import org.sideport.app.people.Me;
import org.sideport.app.people.PeoplePane;
import org.sideport.app.people.PeopleViewModel;
import org.sideport.app.programme.ProgrammePane;
import org.sideport.app.progress.ChartKit;
import org.sideport.app.rubric.RubricEditorViewModel;
import org.sideport.app.rubric.RubricPane;
import org.sideport.app.standard.DecisionsPane;
import org.sideport.app.standard.DecisionsViewModel;
import org.sideport.app.standard.StandardsPane;
import org.sideport.app.standard.StandardsViewModel;
import org.sideport.app.upkeep.StorePane;
import org.sideport.store.Workspace;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.People;
import org.sideport.workflow.RubricWorkshop;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.CalibrationSet;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.ConsentDoubts;
import org.sideport.workflow.consent.DeleteCase;

/** The parts of the programme's screen, wired together. */
record ProgrammeParts(
        Workspace workspace,
        Clock clock,
        Vocabularies vocabularies,
        Background work,
        Background listedWork,
        Background upkeep,
        Settings settings,
        ChartKit charts) {

    /** Whether there are any for who sits here. */
    boolean isOffered(Me me) {
        return parts().anyMatch(part -> part.isFor(me));
    }

    /** Those that are of use to who sits here, in their order. */
    List<ProgrammePane> offered(Me me, Navigator navigator) {
        return parts().filter(part -> part.isFor(me))
                .map(part -> part.made().apply(navigator))
                .toList();
    }

    private Stream<Part> parts() {
        Assignments assignments = new Assignments(workspace, clock);
        return Stream.of(
                part(Permission.SEE_COHORT, navigator -> cohort(navigator)),
                part(
                        Permission.ASSIGN,
                        navigator -> new AssignmentsPane(
                                new AssignmentsViewModel(
                                        assignments,
                                        new ConsentDoubts(workspace),
                                        work,
                                        charts.notices(),
                                        charts.texts(),
                                        clock),
                                charts.texts())),
                part(
                        Permission.ADJUDICATE,
                        navigator -> new DisagreementsPane(
                                new DisagreementsViewModel(
                                        new Adjudication(workspace, clock),
                                        assignments,
                                        work,
                                        charts.notices(),
                                        charts.texts()),
                                charts.texts())),
                new Part(
                        // assessors see how they compare themselves
                        List.of(Permission.ADJUDICATE, Permission.MARK),
                        navigator -> new CalibrationPane(
                                new CalibrationSet(workspace, clock),
                                vocabularies,
                                new Me(workspace.caller()).may(Permission.ADJUDICATE),
                                work,
                                charts.notices(),
                                charts.texts())),
                part(
                        Permission.EDIT_RUBRIC,
                        navigator -> new RubricPane(
                                new RubricEditorViewModel(
                                        new RubricWorkshop(workspace), listedWork, charts.notices(), charts.texts()),
                                charts.texts())),
                part(Permission.JUDGE_STANDARD, navigator -> standards()),
                part(Permission.SEE_COHORT, navigator -> decisions()),
                part(Permission.MANAGE_PEOPLE, navigator -> people(navigator)),
                part(Permission.DELETE_CASE, navigator -> keeping()),
                part(
                        Permission.KEEP_STORE,
                        navigator ->
                                StorePane.of(workspace, clock, upkeep, charts.notices(), charts.texts(), navigator)));
    }

    /**
     * @param needs one of these one must be allowed to be offered it
     * @param made makes it; it gets the way to other screens
     */
    private record Part(List<Permission> needs, Function<Navigator, ProgrammePane> made) {

        boolean isFor(Me me) {
            return needs.stream().anyMatch(me::may);
        }
    }

    private static Part part(Permission needs, Function<Navigator, ProgrammePane> made) {
        return new Part(List.of(needs), made);
    }

    private ProgrammePane cohort(Navigator navigator) {
        return new CohortPane(
                new CohortViewModel(workspace, clock, vocabularies, listedWork, charts.notices(), settings),
                charts,
                navigator);
    }

    private ProgrammePane people(Navigator navigator) {
        return new PeoplePane(
                new PeopleViewModel(
                        new People(workspace, Credentials.inStore(), clock),
                        work,
                        charts.notices(),
                        charts.texts(),
                        navigator::signOut),
                charts.texts());
    }

    private ProgrammePane keeping() {
        return new KeepingPane(
                new KeepingViewModel(
                        new CaseKeeping(workspace),
                        new DeleteCase(workspace),
                        listedWork,
                        charts.notices(),
                        charts.texts(),
                        settings,
                        clock),
                charts.texts());
    }

    private ProgrammePane standards() {
        return new StandardsPane(
                new StandardsViewModel(
                        new StandardRounds(workspace, clock),
                        new Standards(workspace, clock),
                        vocabularies,
                        listedWork,
                        charts.notices(),
                        charts.texts(),
                        clock,
                        new Me(workspace.caller())),
                charts.texts(),
                charts.notices());
    }

    private ProgrammePane decisions() {
        return new DecisionsPane(
                new DecisionsViewModel(
                        new Decisions(workspace, clock),
                        vocabularies,
                        listedWork,
                        charts.notices(),
                        charts.texts(),
                        clock),
                charts.texts());
    }
}
