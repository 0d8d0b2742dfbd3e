package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.RatingSeal;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.SealStore.Difference;

class RatingSealTest {

    private static final Instant WHEN = Instant.parse("2026-03-09T10:15:30.123456Z");

    @TempDir
    Path temp;

    private static Tagging tags(long end) {
        return new Tagging(
                TaggingStyle.START_AND_END,
                List.of(
                        new PhaseSpan("side_port", MediaTime.ofMicros(0), MediaTime.ofMicros(end), Operator.TRAINEE),
                        new PhaseSpan("rhexis", MediaTime.ofMicros(end), null, null)),
                List.of(new PointEvent(
                        "bleeding", MediaTime.ofMicros(7), Severity.MINOR, "say \"ah\" \u0001/ \u00fc")));
    }

    @BeforeEach
    void aSignedRating() {
        try (Workspace workspace = FreshWorkspace.in(temp)) {
            workspace.change(s -> {
                s.cases().add(Samples.surgicalCase("C-01", temp.resolve("C-01.mp4")));
                s.taggings().save("C-01", "A2", tags(900));
                s.taggings().save("C-01", "A1", tags(500));
                s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
                long id = s.ratings().addDraft("C-01", Samples.rating("A1", 3), null, null);
                s.ratings().sign(id, WHEN);
            });
        }
    }

    private List<Difference> differences() {
        try (Workspace workspace = Workspace.open(temp)) {
            return workspace.read(s -> s.seals().compare(s.ratings().find(1).orElseThrow()));
        }
    }

    /** Breaks what the triggers guard, as somebody with the file and a database program could. */
    private void force(String sql) throws SQLException {
        for (String trigger : List.of(
                "signed_rating_is_frozen",
                "signed_score_is_frozen",
                "signed_rating_keeps_its_history",
                "signed_evidence_is_frozen",
                "signed_action_is_frozen",
                "signed_action_stays",
                "rubric_text_is_frozen",
                "seal_is_frozen",
                "seal_stays",
                "signed_score_takes_no_other")) {
            Samples.raw(temp, "drop trigger if exists " + trigger);
        }
        assertThat(Samples.raw(temp, sql)).isPositive();
    }

    @Test
    void whatWasSignedIsAsItWasSigned() {
        assertThat(differences()).isEmpty();
    }

    /**
     * The digest by another program: Python 3's json.dumps(sort_keys=True, separators=(',', ':'), ensure_ascii=False) is
     * RFC 8785 for such texts and whole numbers; hashlib.sha256 of its UTF-8 (src/test/oracle/seal/digest.py).
     */
    @Test
    void theDigestIsTheOneThatAnotherProgramComesTo() {
        try (Workspace workspace = Workspace.open(temp)) {
            RatingSeal seal = workspace.read(s -> s.seals().find(1).orElseThrow());
            assertThat(seal.form()).isEqualTo("sideport-rating-1");
            assertThat(seal.taggingOf()).isEqualTo("A1");
            assertThat(seal.taggingSha256())
                    .isEqualTo("d13d4905b353107c1aaee1174d032fd94ed124baa33364649fa922ed0239cf42");
            assertThat(seal.rubricSha256())
                    .isEqualTo("3f34565b1a5a42f52b71029ff44e900f551e76ba8940a69248eb0bb8c3db4d42");
            assertThat(seal.recordings()).containsExactly("ab".repeat(32));
            assertThat(seal.digest()).isEqualTo("4ae9eb6b176b7e302059facc3424e1030cfb7606459135192879167f9cd89e34");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update item_score set points = 4 where item = 'rhexis'",
                "update item_score set comment = 'first try' where item = 'rhexis'",
                "update item_score set value = 2.25 where item = 'slips'",
                "update item_score set not_applicable = 'not_visible' where item = 'suture'",
                "update item_evidence set at_us = 8 where at_us = 7",
                "update rating_action set action = 'faster' where ordinal = 0",
                "delete from rating_action where ordinal = 1",
                "update rating set comment = ''",
                "update rating set assessor = 'A9'",
                "update rating set self = 1",
                "update rating set blind = 0",
                "update rating set signed_at = '2026-03-10T10:15:30Z'",
                "update rating set reason = 'none'",
                "update surgical_case set trainee = 'T09'",
                "update surgical_case set procedure_id = 'other'",
                "update surgical_case set code = 'C-02'",
                "update rating_seal set digest = '0000000000000000000000000000000000000000000000000000000000000000'",
                "update rating_seal set rubric_sha256 = ''",
                "update rating_seal set recordings = ''",
                "update rating_seal set tagging_of = 'A2'",
                "update rating_seal set amends_digest = '1'",
            })
    void eachPartThatIsAlteredBehindTheProgramsBackIsFound(String sql) throws SQLException {
        force(sql);
        assertThat(differences()).contains(Difference.RATING);
    }

    @Test
    void whatTheRatingRestsOnIsTold() throws SQLException {
        force("update rubric_document set json = json || ' '");
        force("update segment set sha256 = 'cd'");
        force("update phase_span set end_us = 400 where end_us = 500");
        assertThat(differences()).containsExactly(Difference.RUBRIC, Difference.RECORDINGS, Difference.TAGGING);
    }

    @Test
    void tagsThatContradictThemselvesDoNotStandInTheWay() throws SQLException {
        force("update phase_span set end_us = 600 where end_us = 500");
        assertThat(differences()).containsExactly(Difference.TAGGING);
    }

    @Test
    void tagsOfOthersMayChangeUnsaid() {
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> s.taggings().save("C-01", "A2", tags(1)));
        }
        assertThat(differences()).isEmpty();
    }

    @Test
    void aSealThatIsTakenAwayIsMissed() throws SQLException {
        force("delete from rating_seal");
        // the next opening must not take it for one of before seals, and seal what may have been altered
        assertThat(differences()).containsExactly(Difference.UNSEALED);
    }

    @Test
    void anAmendmentCarriesTheDigestOfWhatItSupersedes() {
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> {
                long id = s.ratings().addDraft("C-01", Samples.rating("A1", 4), 1L, "seen again");
                s.ratings().sign(id, WHEN.plusSeconds(60));
            });
            RatingSeal first = workspace.read(s -> s.seals().find(1).orElseThrow());
            RatingSeal second = workspace.read(s -> s.seals().find(2).orElseThrow());
            assertThat(second.amendsDigest()).isEqualTo(first.digest());
            assertThat(second.digest()).isNotEqualTo(first.digest());
            // superseding changed its state and nothing of what was signed
            for (long id : new long[] {1, 2}) {
                assertThat(workspace.<List<Difference>>read(
                                s -> s.seals().compare(s.ratings().find(id).orElseThrow())))
                        .isEmpty();
            }
        }
    }

    @Test
    void theOrderInWhichItemsWereMarkedMakesNoOtherDigest() {
        Rating one = Samples.rating("A1", 3);
        List<ItemScore> turned = new java.util.ArrayList<>(one.scores());
        java.util.Collections.reverse(turned);
        RatingForm.Subject subject = new RatingForm.Subject("C-01", "T03", "phaco");
        assertThat(RatingForm.rating(subject, one.withScores(turned), null, WHEN, bare()))
                .isEqualTo(RatingForm.rating(subject, one, null, WHEN, bare()));
    }

    private static RatingSeal bare() {
        return new RatingSeal(RatingForm.RATING, "", "", "", "", List.of(), "", false);
    }

    /** IEEE 754: the double nearest to 0.1 is exactly this decimal (well known; Python: decimal.Decimal(0.1)). */
    @Test
    void aMeasuredValueStandsWithAllItsDigits() {
        Rating rating =
                new Rating("r", "1", "A1", false, false, List.of(new ItemScore.Marked("a", 1, 0.1, "", List.of())), "");
        assertThat(RatingForm.rating(new RatingForm.Subject("C", "T", "p"), rating, null, null, bare()))
                .contains("\"value\":\"0.1000000000000000055511151231257827021181583404541015625\"");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update rating_seal set late = 1",
                "update rating_seal set digest = digest",
                "delete from rating_seal",
                "insert or replace into rating_seal select * from rating_seal",
                "delete from rating",
                "delete from surgical_case",
            })
    void theDatabaseItselfRefusesToChangeASeal(String sql) {
        assertThatThrownBy(() -> Samples.raw(temp, sql)).isInstanceOf(SQLException.class);
    }

    @Test
    void theDatabaseItselfRefusesASignatureWithoutASeal() {
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> s.ratings().addDraft("C-01", Samples.rating("A2", 4), null, null));
        }
        assertThatThrownBy(() -> Samples.raw(
                        temp, "update rating set state = 'signed', signed_at = '2026-01-01T00:00:00Z' where id = 2"))
                .hasMessageContaining("a rating is sealed when it is signed");
    }

    @Test
    void aDraftWithoutASealCanGoWithItsCase() throws SQLException {
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> {
                s.cases().add(Samples.surgicalCase("C-02"));
                s.ratings().addDraft("C-02", Samples.rating("A2", 4), null, null);
            });
        }
        assertThat(Samples.raw(temp, "delete from surgical_case where code = 'C-02'"))
                .isPositive();
    }
}
