package org.sideport.workflow.consent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.app.Notice;
import org.sideport.app.Notices;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.app.assign.AssignmentsViewModel;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.SecondDraw;

/**
 * Who gives a case to be marked learns what the assessor would learn on opening it: the same rule, the same words. What the
 * rule is and where it comes from is held by {@link ConsentGateTest}.
 */
class GivenToMarkTest {

    private static final LocalDate DAY = LocalDate.of(2026, 4, 1);
    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();
    private static final Assignments.Terms OPENLY = new Assignments.Terms(Purpose.FIRST, Set.of(), null);
    private static final Assignments.Terms BLIND = new Assignments.Terms(Purpose.SECOND, Hidden.ALL, null);

    @TempDir
    Path temp;

    private Workspace workspace;
    private Workspace director;
    private Assignments assignments;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
        director = workspace.as(new Caller.Person("P1", Set.of(Role.DIRECTOR)));
        assignments = new Assignments(director, Clock.systemUTC());
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void add(String code, ConsentState state, ConsentPurpose... purposes) {
        Consent consent =
                state == ConsentState.UNKNOWN ? Consent.UNKNOWN : new Consent(state, Set.of(purposes), "A9", DAY);
        workspace.change(
                s -> s.cases().add(new SurgicalCase(code, "T03", DAY, "phaco", Map.of(), null, consent, null)));
    }

    /** What marking the case says by way of refusal; {@code null} if it is not refused. */
    private @Nullable String refusal(String code) {
        InputException refused = catchThrowableOfType(
                InputException.class, () -> new MarkCase(workspace).open(code, "A5", false, RUBRIC));
        return refused == null ? null : refused.getMessage() + " | " + refused.remedy();
    }

    @ParameterizedTest
    @CsvSource({
        "UNKNOWN, WARN",
        "UNKNOWN, REFUSE",
        "UNKNOWN, ALLOW",
        "ASKED, WARN",
        "ASKED, REFUSE",
        "OTHER_PURPOSE, REFUSE",
        "OTHER_PURPOSE, WARN",
        "REFUSED, REFUSE",
        "REFUSED, WARN",
        "REFUSED, ALLOW"
    })
    void givingSaysWhatMarkingSays(ConsentSituation situation, ConsentRuling ruling) {
        new CaseKeeping(workspace).decide(situation, ruling);
        switch (situation) {
            case UNKNOWN -> add("C-1", ConsentState.UNKNOWN);
            case ASKED -> add("C-1", ConsentState.ASKED, ConsentPurpose.ASSESSMENT);
            case OTHER_PURPOSE -> add("C-1", ConsentState.GIVEN, ConsentPurpose.TEACHING);
            case REFUSED -> add("C-1", ConsentState.REFUSED);
        }
        String marking = refusal("C-1");
        assertThat(marking != null).isEqualTo(ruling == ConsentRuling.REFUSE);
        ConsentDoubts doubts = new ConsentDoubts(director);
        if (marking != null) {
            for (Assignments.Terms terms : List.of(OPENLY, BLIND)) {
                InputException giving =
                        catchThrowableOfType(InputException.class, () -> assignments.give(List.of("C-1"), "A1", terms));
                assertThat(giving.getMessage() + " | " + giving.remedy()).isEqualTo(marking);
            }
            assertThatThrownBy(() -> doubts.ofGiven(List.of("C-1"))).hasMessage(marking.split(" \\| ")[0]);
            assertThat(assignments.all()).isEmpty();
        } else {
            assertThat(assignments.give(List.of("C-1"), "A1", OPENLY)).hasSize(1);
            String warning =
                    new MarkCase(workspace).open("C-1", "A5", false, RUBRIC).consentWarning();
            assertThat(doubts.ofGiven(List.of("C-1")))
                    .extracting(ConsentDoubt::text)
                    .isEqualTo(warning.isEmpty() ? List.of() : List.of(warning));
            assertThat(warning.isEmpty()).isEqualTo(ruling == ConsentRuling.ALLOW);
        }
    }

    @Test
    void aWithdrawnCaseIsNotThereToBeGiven() {
        add("C-1", ConsentState.WITHDRAWN);
        InputException giving =
                catchThrowableOfType(InputException.class, () -> assignments.give(List.of("C-1"), "A1", BLIND));
        assertThat(giving.getMessage() + " | " + giving.remedy()).isEqualTo(refusal("C-1"));
    }

    /** One that cannot be given leaves all ungiven. */
    @Test
    void oneRefusedCaseHoldsUpTheOthersThatAreGivenWithIt() {
        add("C-1", ConsentState.GIVEN, ConsentPurpose.ASSESSMENT);
        add("C-2", ConsentState.REFUSED);
        assertThatThrownBy(() -> assignments.give(List.of("C-1", "C-2"), "A1", OPENLY))
                .hasMessageContaining("case C-2 may not be used for this: consent was refused on 2026-04-01");
        assertThat(assignments.all()).isEmpty();
    }

    /**
     * Six cases that A1 marks and two that A2 marks, all to be marked twice: by hand, those refused meanwhile, two of A1's and
     * one of A2's, are left out, and five get a second.
     */
    @Test
    void theDrawLeavesOutWhatMayNotBeMarkedAndCountsIt() {
        for (int i = 1; i <= 8; i++) {
            add("C-" + i, ConsentState.GIVEN, ConsentPurpose.ASSESSMENT);
            assignments.give(List.of("C-" + i), i <= 6 ? "A1" : "A2", OPENLY);
        }
        for (String refused : List.of("C-2", "C-5", "C-7")) {
            Consent now = new Consent(ConsentState.REFUSED, Set.of(), "A9", DAY);
            new EditCase(workspace)
                    .edit(
                            refused,
                            new CaseEdit("A9", null, null, Map.of(), now, null, false),
                            Instant.parse("2026-04-01T08:00:00Z"));
        }
        add("C-9", ConsentState.REFUSED);

        SecondDraw.Drawn seen = assignments.draw(List.of(), 1, 7, BLIND, false);
        SecondDraw.Drawn drawn = assignments.draw(List.of(), 1, 7, BLIND, true);

        assertThat(seen).isEqualTo(drawn);
        assertThat(drawn.leftOut()).isEqualTo(new LeftOut(3, ConsentPurpose.ASSESSMENT));
        assertThat(drawn.pairs())
                .extracting(SecondDraw.Pair::caseCode)
                .containsExactlyInAnyOrder("C-1", "C-3", "C-4", "C-6", "C-8");
        assertThat(assignments.all())
                .filteredOn(a -> a.purpose() == Purpose.SECOND)
                .hasSize(5);
        assertThatThrownBy(() -> assignments.draw(List.of(), 1, 7, BLIND, true))
                .hasMessageContaining(
                        "there is no case that just one assessor marks; 3 cases left out: no consent for assessment"
                                + " use");
    }

    @Test
    void theScreenSaysHowManyCasesOfEachKindAreInDoubt() {
        Texts texts = new Texts();
        Notices notices = new Notices(texts);
        AssignmentsViewModel model = new AssignmentsViewModel(
                assignments, new ConsentDoubts(director), new RunNow(), notices, texts, Clock.systemUTC());
        add("C-1", ConsentState.UNKNOWN);
        add("C-2", ConsentState.UNKNOWN);
        add("C-3", ConsentState.ASKED, ConsentPurpose.ASSESSMENT);
        add("C-4", ConsentState.REFUSED);
        add("C-5", ConsentState.GIVEN, ConsentPurpose.ASSESSMENT);
        model.give("C-1, C-2, C-3, C-5", "A1", Purpose.FIRST, true, null);
        assertThat(notices.currentProperty().get().text())
                .isEqualTo("4 cases given to A1. Consent: 2 cases: Nothing is recorded; 1 case: Asked, no answer yet."
                        + " Local rules decide whether they may be marked.");
        model.give("C-5", "A2", Purpose.SECOND, true, null);
        assertThat(notices.currentProperty().get().tone()).isEqualTo(Notice.Tone.DONE);
        model.give("C-4", "A1", Purpose.FIRST, true, null);
        assertThat(notices.currentProperty().get().tone()).isEqualTo(Notice.Tone.PROBLEM);
        assertThat(model.shown()).extracting(Assignment::caseCode).doesNotContain("C-4");
    }
}
