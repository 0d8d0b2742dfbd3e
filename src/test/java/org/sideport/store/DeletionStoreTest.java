package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.model.Deletion;
import org.sideport.model.DeletionKind;
import org.sideport.model.SurgicalCase;

/** What is signed goes on one path only, and then it is really gone. */
class DeletionStoreTest {

    private static final LocalDate DAY = LocalDate.of(2026, 5, 4);

    @TempDir
    Path temp;

    private Workspace workspace;

    /** C-01 (row 1) has two signed ratings, of which one amends the other, and a draft; C-02 (row 2) a signed one. */
    @BeforeEach
    void signedRatings() {
        workspace = FreshWorkspace.in(temp);
        workspace.change(s -> {
            s.cases().add(Samples.surgicalCase("C-01"));
            s.cases().add(Samples.surgicalCase("C-02"));
            s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
            long first = s.ratings().addDraft("C-01", Samples.rating("A1", 3), null, null);
            s.ratings().sign(first, Instant.parse("2026-03-10T08:15:00Z"));
            long second = s.ratings().addDraft("C-01", Samples.rating("A1", 2), first, "seen again");
            s.ratings().sign(second, Instant.parse("2026-03-11T08:15:00Z"));
            s.ratings().addDraft("C-01", Samples.rating("A2", 1), null, null);
            long other = s.ratings().addDraft("C-02", Samples.rating("A1", 3), null, null);
            s.ratings().sign(other, Instant.parse("2026-03-10T08:15:00Z"));
        });
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void consent(String code, ConsentState state) {
        workspace.change(s -> {
            SurgicalCase c = s.cases().get(code);
            s.cases()
                    .update(
                            new SurgicalCase(
                                    c.code(),
                                    c.trainee(),
                                    c.date(),
                                    c.procedure(),
                                    c.descriptors(),
                                    c.recording(),
                                    new Consent(state, Set.of(), "A9", DAY),
                                    c.reviewBy()),
                            List.of());
        });
    }

    private Deletion delete(String code, DeletionKind kind) {
        return workspace.write(s -> s.deletions().delete(code, kind, "D1", DAY));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "delete from rating where id = 1",
                "delete from surgical_case where id = 1",
                "insert into case_deletion (case_id, log_id) values (1, 'none')",
                "insert into case_deletion (case_id, log_id) select 1, id from deletion_log",
                "update deletion_log set deleted_by = 'X'",
                "delete from deletion_log",
                "insert or replace into deletion_log select id, deleted_on, 'X', kind from deletion_log",
            })
    void theDatabaseLetsNothingSignedGoWithoutAReasonThatItSees(String sql) throws SQLException {
        Samples.raw(temp, "insert into deletion_log values ('l', '2026-05-04', 'D1', 'withdrawn')");
        assertThatThrownBy(() -> Samples.raw(temp, sql)).isInstanceOf(SQLException.class);
        assertThat(Samples.rawText(temp, "select count(*) from rating")).isEqualTo("4");
        assertThat(Samples.rawText(temp, "select deleted_by from deletion_log")).isEqualTo("D1");
    }

    @Test
    void aCaseWithoutAReasonStaysAndTheLogSaysNothing() throws SQLException {
        for (DeletionKind kind : DeletionKind.values()) {
            assertThatThrownBy(() -> delete("C-01", kind)).hasStackTraceContaining("refused or withdrawn");
        }
        assertThat(Samples.rawText(temp, "select count(*) from deletion_log")).isEqualTo("0");
        assertThat(Samples.rawText(temp, "select count(*) from rating")).isEqualTo("4");
    }

    @Test
    void aWithdrawnCaseGoesWithItsSignedRatingsAndTheOthersStay() throws SQLException {
        consent("C-01", ConsentState.WITHDRAWN);
        Deletion deletion = delete("C-01", DeletionKind.WITHDRAWN);

        for (String table :
                List.of("rating", "item_score", "item_evidence", "rating_action", "surgical_case", "case_descriptor")) {
            String of = table.equals("surgical_case") || table.equals("rating") || table.equals("case_descriptor")
                    ? "select count(*) from " + table
                            + (table.equals("surgical_case") ? " where id = 1" : " where case_id = 1")
                    : "select count(*) from " + table + " where rating_id <> 4";
            assertThat(Samples.rawText(temp, of)).as(table).isEqualTo("0");
        }
        assertThat(Samples.rawText(temp, "select count(*) from case_deletion")).isEqualTo("0");
        assertThat(Samples.rawText(temp, "select state from rating where id = 4"))
                .isEqualTo("signed");
        assertThat(workspace.<List<Deletion>>read(s -> s.deletions().log())).containsExactly(deletion);
        assertThat(Samples.rawText(temp, "select id || deleted_on || deleted_by || kind from deletion_log"))
                .isEqualTo(deletion.id() + "2026-05-04D1withdrawn");
    }

    /** Letters of comments and marks must not be left in what the file calls free. */
    @Test
    void nothingOfTheDeletedCaseIsLeftInTheFile() throws Exception {
        String secret = "word-that-stands-nowhere-else";
        workspace.change(s -> s.ratings().saveDraft(3, Samples.rating("A2", 1).withComment(secret.repeat(300))));
        assertThat(bytes()).contains(secret);
        consent("C-01", ConsentState.WITHDRAWN);
        delete("C-01", DeletionKind.WITHDRAWN);
        assertThat(bytes()).doesNotContain(secret);
    }

    private String bytes() throws Exception {
        StringBuilder all = new StringBuilder();
        try (Stream<Path> files = Files.list(temp)) {
            for (Path file : files.filter(f -> f.getFileName().toString().startsWith("sideport.db"))
                    .toList()) {
                all.append(Files.readString(file, StandardCharsets.ISO_8859_1));
            }
        }
        return all.toString();
    }

    @Test
    void aWithdrawnCaseIsInNoListAndByItsCodeOnlyWhoDeletesFindsIt() {
        workspace.change(s -> s.taggings().save("C-01", "A1", org.sideport.model.Tagging.EMPTY));
        consent("C-01", ConsentState.WITHDRAWN);

        workspace.read(s -> {
            assertThat(s.cases().all()).extracting(SurgicalCase::code).containsExactly("C-02");
            assertThat(s.summaries().newest(-1)).extracting("code").containsExactly("C-02");
            assertThat(s.ratings().all()).extracting("caseCode").containsExactly("C-02");
            assertThat(s.ratings().ofCase("C-01")).isEmpty();
            assertThat(s.ratings().find(1L)).isEmpty();
            assertThat(s.taggings().all()).isEmpty();
            assertThat(s.taggings().withPhases()).isEmpty();
            assertThat(s.cases().find("C-01")).isEmpty();
            assertThatThrownBy(() -> s.cases().get("C-01")).hasMessageContaining("consent was withdrawn");
            assertThatThrownBy(() -> s.taggings().find("C-01", "A1")).hasMessageContaining("consent was withdrawn");
            assertThatThrownBy(() -> s.comments().threads("C-01", "A1")).hasMessageContaining("consent was withdrawn");
            assertThat(s.cases().withdrawn()).extracting(SurgicalCase::code).containsExactly("C-01");
            assertThat(s.cases().exists("C-01")).isTrue();
            return true;
        });
    }

    @Test
    void aCaseWhoseDayHasComeMayGoAndOneDayEarlierMayNot() throws SQLException {
        Samples.raw(temp, "update surgical_case set review_by = '2026-05-05' where id = 1");
        assertThatThrownBy(() -> delete("C-01", DeletionKind.RETENTION)).hasStackTraceContaining("its day has come");
        Samples.raw(temp, "update surgical_case set review_by = '2026-05-04' where id = 1");
        assertThat(delete("C-01", DeletionKind.RETENTION).kind()).isEqualTo(DeletionKind.RETENTION);
        assertThat(Samples.rawText(temp, "select count(*) from surgical_case")).isEqualTo("1");
    }
}
