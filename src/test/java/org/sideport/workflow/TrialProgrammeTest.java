package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TrialProgramme;
import org.sideport.store.Workspace;

class TrialProgrammeTest {

    @TempDir
    Path temp;

    /** 90 cases, every third marked twice: 120 marks, and each can be read and scored. */
    @Test
    void whatIsMadeToMeasureIsAProgrammeLikeAnother() {
        try (Workspace workspace = FreshWorkspace.in(temp.resolve("w"))) {
            Vocabularies.RubricText rubric = new Vocabularies(workspace).rubric("phaco-competency");
            TrialProgramme.fill(workspace, 90, 5, rubric.rubric(), rubric.json(), List.of("incision", "rhexis"));
            CohortView view =
                    new FollowCohort(workspace, Clock.systemUTC()).show(FollowCohort.Question.of("phaco-competency"));
            assertThat(view.rows()).hasSize(5).allMatch(r -> r.whole().n() == 18);
            assertThat(view.assessors().stream()
                            .mapToInt(CohortView.Assessor::marks)
                            .sum())
                    .isEqualTo(120);
            assertThat(view.agreement()).isNotNull();
            assertThat(view.missing()).isEmpty();
        }
    }
}
