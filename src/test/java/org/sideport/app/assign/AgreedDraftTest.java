package org.sideport.app.assign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Texts;
import org.sideport.app.settings.Language;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MarkSession;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.assign.CalibrationSet;

/** What people agree upon in the window, from two signed marks to what is kept. */
class AgreedDraftTest {

    @TempDir
    Path temp;

    private final Texts texts = new Texts(Language.of("en"));

    private static void marked(Workspace workspace, Rubric rubric, String assessor, int apart) {
        MarkSession session = new MarkCase(workspace).open("C-1", assessor, false, rubric);
        for (int i = 0; i < rubric.items().size(); i++) {
            Rubric.Item item = rubric.items().get(i);
            List<Integer> points = rubric.pointsOf(item);
            session.mark(item.id(), points.get(i < apart ? points.size() - 1 : 0));
        }
        session.sign();
    }

    @Test
    void whatAllMarkedAlikeIsThereTheRestIsAgreedAndTheMarksStayAsTheyWere() {
        try (Workspace workspace = FreshWorkspace.in(temp)) {
            workspace.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            Rubric rubric =
                    new Vocabularies(workspace).rubric("phaco-competency").rubric();
            marked(workspace, rubric, "A1", 0);
            marked(workspace, rubric, "A2", 3);
            Adjudication adjudication = new Adjudication(workspace, Clock.systemUTC());
            Adjudication.Differing differing = adjudication.differing("C-1", rubric.id());
            AgreedDraft draft = new AgreedDraft(differing.rubric(), differing.by(), texts);

            List<String> first = rubric.items().subList(0, 3).stream()
                    .map(Rubric.Item::title)
                    .toList();
            assertThat(draft.missing()).isEqualTo(first);
            AgreedDraft.Line line = draft.lines().get(0);
            List<Integer> points = rubric.pointsOf(line.item());
            assertThat(line.marks()).isEqualTo("A1 " + points.get(0) + ", A2 " + points.get(points.size() - 1));
            // an unfinished agreement is refused, and what is missing is named
            assertThatThrownBy(() -> adjudication.agree("C-1", draft.rating(), "A1, A2", "watched together"))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining(line.item().id());

            draft.choose(line, line.choices().get(1));
            for (AgreedDraft.Line other : draft.lines().subList(1, 3)) {
                draft.choose(
                        other,
                        other.choices().stream()
                                .filter(c -> c.score() instanceof ItemScore.Excused e
                                        && e.reason() == NotApplicable.DONE_BY_TRAINER)
                                .findFirst()
                                .orElseThrow());
            }
            assertThat(draft.missing()).isEmpty();
            Adjudication.Settled settled = adjudication.agree("C-1", draft.rating(), "A1, A2", "watched together");
            assertThat(settled.standing()).isNull();
            Rating kept = settled.mark().asRating();
            assertThat(kept.score(line.item().id()).orElseThrow().pointsOrNull())
                    .isEqualTo(points.get(1));
            assertThat(kept.score(rubric.items().get(2).id()).orElseThrow().pointsOrNull())
                    .isNull();
            assertThat(kept.scores()).hasSize(rubric.items().size());
            assertThat(adjudication.differing("C-1", rubric.id()).by()).isEqualTo(differing.by());
        }
    }

    @Test
    void aPanelsReferenceMarksBeginWithNothingAndNeedEveryItem() {
        try (Workspace workspace = FreshWorkspace.in(temp)) {
            workspace.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            Rubric rubric =
                    new Vocabularies(workspace).rubric("phaco-competency").rubric();
            AgreedDraft draft = new AgreedDraft(rubric, List.of(), texts);
            assertThat(draft.missing()).hasSize(rubric.items().size());
            draft.lines().forEach(line -> draft.choose(line, line.choices().get(0)));
            CalibrationSet set = new CalibrationSet(workspace, Clock.systemUTC());
            assertThat(set.setReference("C-1", draft.rating(), "P1", "for practice")
                            .mark()
                            .asRating()
                            .scores())
                    .hasSize(rubric.items().size());
            assertThat(set.report(rubric.id()).references()).isEqualTo(1);
        }
    }
}
