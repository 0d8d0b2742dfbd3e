package org.sideport.workflow.consent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.WriteWorkbook;

/**
 * Consent to one use is no consent to another: GDPR, Article 6 (1) (a), "for one or more specific purposes"; withdrawal as
 * easy as giving it: Article 7 (3). That an unknown consent only warns is common practice, no source.
 */
class ConsentGateTest {

    private static final LocalDate DAY = LocalDate.of(2026, 4, 1);
    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void add(String code, String state, String purposes) {
        Consent consent = state.equals("unknown")
                ? Consent.UNKNOWN
                : new Consent(ConsentState.parse(state), ConsentPurpose.parseAll(purposes), "A9", DAY);
        workspace.change(s -> s.cases()
                .add(new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null, consent, null)));
    }

    private static Rating rating() {
        List<ItemScore> scores = RUBRIC.items().stream()
                .<ItemScore>map(i -> new ItemScore.Marked(i.id(), 3, ""))
                .toList();
        return new Rating(RUBRIC.id(), RUBRIC.version(), "A1", false, false, scores, "");
    }

    @ParameterizedTest
    @CsvSource({
        "unknown, '', warns, nothing is recorded",
        "asked, assessment, warns, not given yet",
        "given, assessment, goes, ''",
        "given, 'teaching, assessment', goes, ''",
        "given, teaching, refuses, 'given for teaching, not for assessment'",
        "given, 'teaching, research', refuses, not for assessment",
        "refused, '', refuses, was refused on 2026-04-01",
    })
    void markingGoesWarnsOrIsRefusedByTheConsent(String state, String purposes, String what, String words) {
        add("C-1", state, purposes);
        MarkCase marking = new MarkCase(workspace);
        if (what.equals("refuses")) {
            assertThatThrownBy(() -> marking.rate("C-1", rating()))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining(words);
            assertThatThrownBy(() -> marking.open("C-1", "A1", false, RUBRIC)).hasMessageContaining(words);
            assertThat(workspace.<List<?>>read(s -> s.ratings().all())).isEmpty();
        } else {
            assertThat(marking.rate("C-1", rating()).warning()).contains(words);
            assertThat(marking.open("C-1", "A1", false, RUBRIC).consentWarning())
                    .contains(words);
            assertThat(marking.sign("C-1", RUBRIC.id(), "A1", false).warning().isEmpty())
                    .isEqualTo(what.equals("goes"));
        }
    }

    @Test
    void aDraftCannotBeSignedOnceTheConsentIsRefused() {
        add("C-1", "unknown", "");
        MarkCase marking = new MarkCase(workspace);
        marking.rate("C-1", rating());
        consent("C-1", ConsentState.REFUSED);
        assertThatThrownBy(() -> marking.sign("C-1", RUBRIC.id(), "A1", false)).hasMessageContaining("was refused");
    }

    @Test
    void theUnitsRulesGoBeforeTheUsualOnesAndAreAudited() {
        add("C-1", "unknown", "");
        add("C-2", "refused", "");
        CaseKeeping keeping = new CaseKeeping(workspace);
        keeping.decide(ConsentSituation.UNKNOWN, ConsentRuling.REFUSE);
        keeping.decide(ConsentSituation.REFUSED, ConsentRuling.WARN);
        MarkCase marking = new MarkCase(workspace);
        assertThatThrownBy(() -> marking.rate("C-1", rating())).hasMessageContaining("sideport keeping rules");
        assertThat(marking.rate("C-2", rating()).warning()).contains("was refused");
        keeping.decide(ConsentSituation.UNKNOWN, ConsentRuling.ALLOW);
        assertThat(marking.rate("C-1", rating()).warning()).isEmpty();
        assertThat(workspace.<List<AuditEvent>>read(s -> s.audit().all()))
                .filteredOn(e -> e.deed().startsWith("consent."))
                .extracting(AuditEvent::deed, AuditEvent::subject, AuditEvent::before, AuditEvent::after)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("consent.rule", "unknown", "warn", "refuse"),
                        org.assertj.core.groups.Tuple.tuple("consent.rule", "refused", "refuse", "warn"),
                        org.assertj.core.groups.Tuple.tuple("consent.rule", "unknown", "refuse", "allow"));
    }

    private void consent(String code, ConsentState state) {
        new EditCase(workspace)
                .edit(
                        code,
                        new CaseEdit("A9", null, null, Map.of(), new Consent(state, Set.of(), "A9", DAY), null, false),
                        Instant.parse("2026-04-01T08:00:00Z"));
    }

    @Test
    void whatMayNotBeUsedIsLeftOutOfTheWorkbookAndWithdrawnCasesOfAllLists() {
        add("C-1", "unknown", "");
        add("C-2", "refused", "");
        add("C-3", "given", "assessment");
        for (String code : List.of("C-1", "C-3")) {
            new MarkCase(workspace).rate(code, rating());
            new MarkCase(workspace).sign(code, RUBRIC.id(), "A1", false);
        }
        consent("C-3", ConsentState.WITHDRAWN);

        var data = new WriteWorkbook(workspace).data();
        assertThat(data.cases()).extracting(SurgicalCase::code).containsExactly("C-1");
        assertThat(data.ratings()).extracting("caseCode").containsExactly("C-1");
        assertThat(new CaseList(workspace).newest(-1)).extracting("code").containsExactly("C-1", "C-2");
        assertThatThrownBy(() -> new CaseList(workspace).one("C-3")).hasMessageContaining("consent was withdrawn");
        assertThatThrownBy(() -> new MarkCase(workspace).rate("C-3", rating()))
                .hasMessageContaining("consent was withdrawn");
    }

    @Test
    void onlyADirectorSeesWhatWaitsToBeDeletedAndDecidesTheRules() {
        for (Role role : EnumSet.of(Role.TRAINEE, Role.ASSESSOR)) {
            Workspace theirs = workspace.as(new Caller.Person("P1", Set.of(role)));
            assertThatThrownBy(() -> new CaseKeeping(theirs).overview(DAY)).hasMessageContaining("you may not");
            assertThatThrownBy(() -> new CaseKeeping(theirs).decide(ConsentSituation.ASKED, ConsentRuling.ALLOW))
                    .hasMessageContaining("you may not");
            assertThatThrownBy(() -> new DeleteCase(theirs).plan("C-1", DAY)).hasMessageContaining("you may not");
        }
        Workspace directors = workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR)));
        assertThat(new CaseKeeping(directors).overview(DAY).withdrawn()).isEmpty();
    }
}
