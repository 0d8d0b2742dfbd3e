package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.model.CaseChange;
import org.sideport.model.CaseSummary;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

@ParameterizedClass
@EnumSource(TestEngine.class)
class CaseSheetStoreTest {

    @Parameter
    TestEngine engine;

    private static final Consent GIVEN = new Consent(
            ConsentState.GIVEN,
            Set.of(ConsentPurpose.TEACHING, ConsentPurpose.ASSESSMENT),
            "A1",
            LocalDate.of(2026, 3, 1));

    @TempDir
    Path folder;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = engine.create(folder.resolve("ws"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static SurgicalCase sheet(String code, LocalDate date, Consent consent, LocalDate review) {
        return new SurgicalCase(code, "T03", date, "phaco", Map.of("eye", "left"), null, consent, review);
    }

    private void add(SurgicalCase one) {
        workspace.change(stores -> stores.cases().add(one));
    }

    @Test
    void consentAndReviewDateComeBackAsTheyWere() {
        SurgicalCase one = sheet("C-1", LocalDate.of(2026, 3, 9), GIVEN, LocalDate.of(2027, 3, 9));
        add(one);
        assertThat(workspace.<SurgicalCase>read(s -> s.cases().get("c-1"))).isEqualTo(one);
    }

    @Test
    void aChangedSheetReplacesTheOldOneAndItsHistoryStays() {
        add(sheet("C-1", LocalDate.of(2026, 3, 9), GIVEN, null));
        Instant when = Instant.parse("2026-04-01T10:00:00Z");
        SurgicalCase after = new SurgicalCase(
                "C-1",
                "T04",
                LocalDate.of(2026, 3, 10),
                "phaco",
                Map.of("pupil", "small"),
                null,
                Consent.UNKNOWN,
                LocalDate.of(2027, 1, 1));
        List<CaseChange> changes = List.of(
                new CaseChange(when, "A2", "eye", "left", ""), new CaseChange(when, "A2", "pupil", "", "small"));
        workspace.change(stores -> stores.cases().update(after, changes));

        assertThat(workspace.<SurgicalCase>read(s -> s.cases().get("C-1"))).isEqualTo(after);
        assertThat(workspace.<List<CaseChange>>read(s -> s.cases().history("C-1")))
                .isEqualTo(changes);
    }

    @Test
    void theDatabaseRefusesAConsentThatIsNone() {
        add(sheet("C-1", LocalDate.of(2026, 3, 9), GIVEN, null));
        assertThatThrownBy(() -> engine.raw(workspace.dir(), "update surgical_case set consent = 'perhaps'"))
                .message()
                .containsIgnoringCase("check constraint");
    }

    @Test
    void aSummaryTellsTheStagesOfACaseWithoutReadingMarks() {
        add(sheet("C-1", LocalDate.of(2026, 3, 9), GIVEN, LocalDate.of(2026, 6, 1)));
        add(Samples.surgicalCase("C-2", folder.resolve("a.mp4"), folder.resolve("b.mp4")));
        PhaseSpan span = new PhaseSpan("rhexis", MediaTime.ZERO, MediaTime.ofSeconds(3), null);
        Tagging tagging = new Tagging(TaggingStyle.START_AND_END, List.of(span), List.of());
        workspace.change(stores -> {
            stores.taggings().save("C-1", "B2", tagging);
            stores.taggings().save("C-1", "B1", tagging);
            stores.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
            stores.ratings().addDraft("C-1", rating("A2", false), null, null);
            long signed = stores.ratings().addDraft("C-1", rating("A1", false), null, null);
            stores.ratings().sign(signed, Instant.EPOCH);
            stores.ratings().addDraft("C-2", rating("T03", true), null, null);
        });

        List<CaseSummary> all = workspace.read(s -> s.summaries().newest(-1));
        assertThat(all).extracting(CaseSummary::code).containsExactly("C-1", "C-2");
        CaseSummary first = all.get(0);
        assertThat(first.annotators()).containsExactly("B1", "B2");
        assertThat(first.assessors()).containsExactly("A1", "A2");
        assertThat(List.of(first.tagged(), first.selfMarked(), first.marked(), first.signed()))
                .containsExactly(true, false, true, true);
        assertThat(first.durationUs()).isNull();
        assertThat(first.consent()).isEqualTo(ConsentState.GIVEN);
        assertThat(first.reviewDue(LocalDate.of(2026, 5, 31))).isFalse();
        assertThat(first.reviewDue(LocalDate.of(2026, 6, 1))).isTrue();
        assertThat(first.searchText()).contains("c-1", "t03", "2026-03-09", "left", "b2", "a1");
        CaseSummary second = all.get(1);
        assertThat(List.of(second.tagged(), second.selfMarked(), second.marked(), second.signed()))
                .containsExactly(false, true, false, false);
        assertThat(second.files()).isEqualTo(2);
        // two files of 61.061 s each, as Samples makes them
        assertThat(second.durationUs()).isEqualTo(2 * 61_061_000L);
    }

    private static Rating rating(String assessor, boolean self) {
        return new Rating(
                Samples.RUBRIC, "1.0.0", assessor, self, false, List.of(new ItemScore.Marked("rhexis", 4, "")), "");
    }

    @Test
    void theNewestComeFirstAndAreCounted() {
        for (int day = 1; day <= 5; day++) {
            add(sheet("C-" + day, LocalDate.of(2026, 3, day), Consent.UNKNOWN, null));
        }
        assertThat(workspace.<List<CaseSummary>>read(s -> s.summaries().newest(2)))
                .extracting(CaseSummary::code)
                .containsExactly("C-5", "C-4");
    }
}
