package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;

/** Whose marks of a case one sees: independence asks that nobody sees others' before the own ones stand. */
class SeenMarksTest {

    @TempDir
    Path dir;

    private Workspace workspace;

    @BeforeEach
    void make() {
        workspace = FreshWorkspace.in(dir.resolve("unit"));
        Unit.addCase(workspace, "C-1");
        TestRows.assign(workspace, "C-1", "A1", "open");
        TestRows.assign(workspace, "C-1", "A2", "open");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void draft(String assessor, boolean self) {
        new MarkCase(workspace).rate("C-1", Unit.rating(assessor, self));
    }

    private void sign(String assessor, boolean self) {
        draft(assessor, self);
        new MarkCase(workspace).sign("C-1", Unit.RUBRIC.id(), assessor, self);
    }

    /** Assessors whose ratings of C-1 this person sees, by all three ways of reading them. */
    private Set<String> seen(String person, Role... roles) {
        CaseList list = new CaseList(workspace.as(new Caller.Person(person, EnumSet.of(roles[0], roles))));
        Set<String> one = assessors(list.one("C-1"));
        assertThat(assessors(list.all().get(0))).isEqualTo(one);
        Set<String> listed = Set.copyOf(list.newest(-1).get(0).assessors());
        assertThat(listed).isEqualTo(one.stream().filter(a -> !a.equals("T03")).collect(Collectors.toSet()));
        return one;
    }

    private static Set<String> assessors(CaseOverview overview) {
        return overview.ratings().stream()
                .map(CaseOverview.RatingOverview::assessor)
                .collect(Collectors.toSet());
    }

    @Test
    void anAssessorSeesOthersOnlyWhenBothHaveSigned() {
        sign("A2", false);
        sign("T03", true);
        assertThat(seen("A1", Role.ASSESSOR)).isEmpty();
        draft("A1", false);
        assertThat(seen("A1", Role.ASSESSOR)).containsExactly("A1");
        new MarkCase(workspace).sign("C-1", Unit.RUBRIC.id(), "A1", false);
        assertThat(seen("A1", Role.ASSESSOR)).containsExactlyInAnyOrder("A1", "A2", "T03");
    }

    @Test
    void aDraftOfSomebodyElseIsSeenByADirectorOnly() {
        draft("A2", false);
        sign("A1", false);
        assertThat(seen("A1", Role.ASSESSOR)).containsExactly("A1");
        assertThat(seen("T03", Role.TRAINEE)).isEmpty();
        assertThat(seen("D1", Role.DIRECTOR)).containsExactlyInAnyOrder("A1", "A2");
    }

    @Test
    void aTraineeSeesAssessorsOnceTheOwnSelfRatingIsSigned() {
        sign("A1", false);
        assertThat(seen("T03", Role.TRAINEE)).isEmpty();
        draft("T03", true);
        assertThat(seen("T03", Role.TRAINEE)).containsExactly("T03");
        new MarkCase(workspace).sign("C-1", Unit.RUBRIC.id(), "T03", true);
        assertThat(seen("T03", Role.TRAINEE)).containsExactlyInAnyOrder("A1", "T03");
    }

    @Test
    void aDirectorWhoMarksACaseToSeesOthersOnlyAfterSigning() {
        sign("A2", false);
        TestRows.assign(workspace, "C-1", "D1", "open");
        assertThat(seen("D1", Role.DIRECTOR, Role.ASSESSOR)).isEmpty();
        sign("D1", false);
        assertThat(seen("D1", Role.DIRECTOR, Role.ASSESSOR)).containsExactlyInAnyOrder("A2", "D1");
    }

    @Test
    void anyoneSeesAllWhereNobodySignsIn() {
        sign("A1", false);
        draft("A2", false);
        draft("T03", true);
        assertThat(assessors(new CaseList(workspace).one("C-1"))).containsExactlyInAnyOrder("A1", "A2", "T03");
    }
}
