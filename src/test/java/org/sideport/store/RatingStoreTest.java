package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.RatingState;

@ParameterizedClass
@EnumSource(TestEngine.class)
class RatingStoreTest {

    @Parameter
    TestEngine engine;

    private static final Instant SIGNED = Instant.parse("2026-03-10T08:15:00Z");

    @TempDir
    Path temp;

    private Workspace workspace;
    private long signed;
    private long draft;

    /** A1's rating is signed, A2's is a draft; ids 1 and 2, as the raw statements below use. */
    @BeforeEach
    void aSignedRatingAndADraft() {
        workspace = engine.create(temp);
        workspace.change(s -> {
            s.cases().add(Samples.surgicalCase("C-01"));
            s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
            signed = s.ratings().addDraft("C-01", Samples.rating("A1", 3), null, null);
            s.ratings().sign(signed, SIGNED);
            draft = s.ratings().addDraft("C-01", Samples.rating("A2", 2), null, null);
        });
        assertThat(signed).isEqualTo(1);
        assertThat(draft).isEqualTo(2);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private StoredRating stored(long id) {
        return workspace.read(s -> s.ratings().find(id).orElseThrow());
    }

    @Test
    void aRatingComesBackAsItWasWithTheTextOfItsRubric() {
        assertThat(stored(signed).rating()).isEqualTo(Samples.rating("A1", 3));
        assertThat(stored(signed).state()).isEqualTo(RatingState.SIGNED);
        assertThat(stored(signed).signedAt()).isEqualTo(SIGNED);
        assertThat(stored(signed).rubricJson()).isEqualTo(Samples.RUBRIC_TEXT);
        assertThat(stored(draft).rating()).isEqualTo(Samples.rating("A2", 2));
        assertThat(stored(draft).state()).isEqualTo(RatingState.DRAFT);
        assertThat(stored(draft).signedAt()).isNull();
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().ofCase("c-01")))
                .containsExactly(stored(signed), stored(draft))
                .isEqualTo(workspace.<List<StoredRating>>read(s -> s.ratings().all()));
    }

    @Test
    void theSignedMarksOfAWholeUnitAreReadAtOnceAsOneByOne() {
        List<SignedRating> atOnce = workspace.read(s -> s.ratings().signed(Samples.RUBRIC));
        assertThat(atOnce).extracting(SignedRating::id).containsExactly(signed);
        SignedRating one = atOnce.get(0);
        assertThat(one.caseCode()).isEqualTo("C-01");
        assertThat(one.signedAt()).isEqualTo(SIGNED);
        assertThat(one.rating().assessor()).isEqualTo("A1");
        assertThat(one.rating().scores())
                .extracting(ItemScore::item, ItemScore::pointsOrNull)
                .containsExactlyInAnyOrderElementsOf(stored(signed).rating().scores().stream()
                        .map(score -> org.assertj.core.groups.Tuple.tuple(score.item(), score.pointsOrNull()))
                        .toList());
        assertThat(workspace.<List<SignedRating>>read(s -> s.ratings().signed("another")))
                .isEmpty();
        assertThat(workspace.<List<?>>read(s -> s.cases().bare())).hasSize(1);
        assertThat(workspace.<java.util.Map<?, ?>>read(s -> s.taggings().byCase(CaseReach.ALL)))
                .isEmpty();
    }

    @Test
    void aDraftChangesUntilItIsSigned() {
        workspace.change(s -> s.ratings().saveDraft(draft, Samples.rating("A2", 4)));
        assertThat(stored(draft).rating()).isEqualTo(Samples.rating("A2", 4));
        workspace.change(s -> s.ratings().sign(draft, SIGNED));
        assertThatThrownBy(() -> workspace.change(s -> s.ratings().saveDraft(draft, Samples.rating("A2", 1))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("by A2 is signed")
                .hasMessageContaining("amend it");
        assertThatThrownBy(() -> workspace.change(s -> s.ratings().sign(draft, SIGNED)))
                .isInstanceOf(InputException.class);
        assertThat(stored(draft).rating()).isEqualTo(Samples.rating("A2", 4));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update rating set comment = 'better' where id = 1",
                "update rating set state = 'draft' where id = 1",
                "update rating set assessor = 'A9', state = 'superseded' where id = 1",
                "update rating set reason = 'none', state = 'superseded' where id = 1",
                "update rating set changed_at = '2020-01-01T00:00:00Z', state = 'superseded' where id = 1",
                "update rating set id = 7, state = 'superseded' where id = 1",
                "update rating set signed_at = null, state = 'superseded' where id = 1",
                "delete from rating where id = 1",
                "delete from surgical_case",
                "update item_score set points = 4 where rating_id = 1 and item = 'rhexis'",
                "update item_score set comment = '' where rating_id = 1",
                "update item_score set rating_id = 2, item = 'taken' where rating_id = 1 and item = 'rhexis'",
                "update item_score set rating_id = 1, item = 'slipped in' where rating_id = 2 and item = 'rhexis'",
                "delete from item_score where rating_id = 1",
                "insert into item_score (rating_id, item, points, comment) values (1, 'new', 4, '')",
                "insert or replace into item_score (rating_id, item, points, comment) values (1, 'rhexis', 4, '')",
                "insert or replace into rating select id, case_id, rubric, rubric_version, assessor, self, blind, 'x',"
                        + " 'draft', changed_at, signed_at, amends, reason from rating where id = 1",
                "insert into rating select 9, case_id, rubric, rubric_version, 'A9', self, blind, comment, 'signed',"
                        + " changed_at, signed_at, amends, reason from rating where id = 1",
                "update item_score set value = 9 where rating_id = 1 and item = 'slips'",
                "update item_evidence set at_us = 1 where rating_id = 1",
                "delete from item_evidence where rating_id = 1",
                "insert into item_evidence (rating_id, item, at_us, ordinal) values (1, 'rhexis', 1, 9)",
                "update item_evidence set rating_id = 1, ordinal = 8 where rating_id = 2 and ordinal = 1",
                "update rating_action set action = 'x' where rating_id = 1",
                "delete from rating_action where rating_id = 1",
                "insert into rating_action values (1, 2, 'x')",
                "update rubric_document set json = '{}'",
                "delete from rubric_document",
                "insert or replace into rubric_document values ('made-up', '1.0.0', '{}')",
            })
    void theDatabaseItselfRefusesToTouchWhatIsSigned(String sql) throws SQLException {
        StoredRating before = stored(signed);
        assertThatThrownBy(() -> engine.raw(temp, sql)).isInstanceOf(SQLException.class);
        assertThat(stored(signed)).isEqualTo(before);
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).hasSize(2);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update item_score set points = 4 where rating_id = 2 and item = 'rhexis'",
                "insert into item_score (rating_id, item, points, comment) values (2, 'new', 4, '')",
                "delete from item_score where rating_id = 2 and item = 'rhexis'",
                "delete from rating where id = 2",
                "update rating set comment = 'better' where id = 2"
            })
    void theDatabaseLetsADraftBeChanged(String sql) throws SQLException {
        assertThat(engine.raw(temp, sql)).isPositive();
    }

    @Test
    void anAmendmentStandsBesideWhatItAmendsAndSupersedesItWhenSigned() {
        long amendment = workspace.write(
                s -> s.ratings().addDraft("C-01", Samples.rating("A1", 2), signed, "saw it again at full size"));
        assertThat(stored(signed).state()).isEqualTo(RatingState.SIGNED);
        workspace.change(s -> s.ratings().sign(amendment, SIGNED.plusSeconds(60)));

        assertThat(stored(signed).state()).isEqualTo(RatingState.SUPERSEDED);
        assertThat(stored(signed).rating()).isEqualTo(Samples.rating("A1", 3));
        assertThat(stored(signed).signedAt()).isEqualTo(SIGNED);
        assertThat(stored(amendment).state()).isEqualTo(RatingState.SIGNED);
        assertThat(stored(amendment).amends()).isEqualTo(signed);
        assertThat(stored(amendment).reason()).isEqualTo("saw it again at full size");
        assertThat(workspace.<Optional<StoredRating>>read(
                        s -> s.ratings().find("C-01", Samples.RUBRIC, "A1", false, RatingState.SIGNED)))
                .contains(stored(amendment));
        assertThatThrownBy(() -> engine.raw(temp, "update rating set state = 'signed' where id = 1"))
                .isInstanceOf(SQLException.class);
        assertThatThrownBy(() -> engine.raw(temp, "delete from rating where id = 1"))
                .isInstanceOf(SQLException.class);
    }

    @Test
    void anAssessorHasOneDraftOfACaseAndARubric() {
        assertThatThrownBy(() ->
                        workspace.change(s -> s.ratings().addDraft("C-01", Samples.rating("A2", 1), null, null)))
                .satisfies(e -> assertThat(org.assertj.core.util.Throwables.getStackTrace(e))
                        .containsIgnoringCase("unique constraint"));
        assertThat(stored(draft).rating()).isEqualTo(Samples.rating("A2", 2));
    }

    @Test
    void aChangedRubricUnderTheSameVersionIsRefusedAndUnderANewOneKept() {
        workspace.change(s -> s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT));
        assertThatThrownBy(() -> workspace.change(
                        s -> s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT + " ")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("still calls itself version 1.0.0")
                .hasMessageContaining("give the changed rubric a new version");
        workspace.change(s -> s.ratings().keepRubric(Samples.RUBRIC, "1.1.0", Samples.RUBRIC_TEXT + " "));
        assertThat(stored(signed).rubricJson()).isEqualTo(Samples.RUBRIC_TEXT);
    }
}
