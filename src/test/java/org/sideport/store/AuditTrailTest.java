package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.AuditEvent;
import org.sideport.model.AuditHead;
import org.sideport.model.Progress;

class AuditTrailTest {

    private static final List<String> GUARDS =
            List.of("audit_is_frozen", "audit_stays", "audit_continues", "audit_grows_at_its_end");

    @TempDir
    Path temp;

    @BeforeEach
    void nineLines() {
        try (Workspace workspace = Workspace.create(temp)) {
            for (int i = 1; i <= 9; i++) {
                String before = "state " + i;
                workspace.change(s -> s.audit().add("test.deed", "C-01", before, "after"));
            }
        }
    }

    private void force(String... statements) throws SQLException {
        for (String guard : GUARDS) {
            Samples.raw(temp, "drop trigger if exists " + guard);
        }
        for (String sql : statements) {
            assertThat(Samples.raw(temp, sql)).as(sql).isPositive();
        }
    }

    private List<AuditFault> faults() {
        try (Workspace workspace = Workspace.open(temp)) {
            return workspace.keeping().auditFaults();
        }
    }

    @Test
    void aTrailThatNobodyTouchedIsWhole() {
        assertThat(faults()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update audit_event set after = 'x' where id = 3",
                "update audit_event set id = 100 where id = 3",
                "delete from audit_event where id = 9",
                "delete from audit_event",
                "insert or replace into audit_event select * from audit_event where id = 3",
                "insert or replace into audit_event (id, at, who, deed, subject, before, after, previous, digest)"
                        + " select 3, at, who, 'other', subject, before, after, previous, digest from audit_event where id"
                        + " = 9",
                "insert into audit_event (at, who, deed, subject, before, after, previous, digest) select at, who,"
                        + " deed, subject, before, after, previous, digest from audit_event where id = 3",
                "insert into audit_event (id, at, who, deed, subject, before, after, previous, digest) select 0, at,"
                        + " who, deed, subject, before, after, digest, digest from audit_event where id = 9",
            })
    void theDatabaseItselfOnlyLetsItGrowAtItsEnd(String sql) {
        assertThatThrownBy(() -> Samples.raw(temp, sql))
                .isInstanceOf(SQLException.class)
                .hasMessageContaining("the audit trail");
        assertThat(faults()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"at", "who", "deed", "subject", "before", "after", "digest"})
    void eachAlteredLineIsNamed(String column) throws SQLException {
        for (int line : new int[] {1, 5, 9}) {
            force("update audit_event set " + column + " = " + column + " || '0' where id = " + line);
        }
        assertThat(faults())
                .filteredOn(f -> f.kind() == AuditFault.Kind.ALTERED)
                .extracting(AuditFault::line)
                .contains(1L, 5L, 9L);
    }

    /** A letter that moves from one column to the next leaves the joined text as it was. */
    @Test
    void whatIsShiftedFromOneColumnToTheNextIsFound() throws SQLException {
        force("update audit_event set before = 'state ', after = '5after' where id = 5");
        assertThat(faults()).extracting(AuditFault::line).contains(5L);
    }

    @ParameterizedTest
    @CsvSource({"1, 2", "4, 5", "8, 9"})
    void aMissingLineIsFoundAtTheNext(int gone, long foundAt) throws SQLException {
        force("delete from audit_event where id = " + gone);
        assertThat(faults()).extracting(AuditFault::line).contains(foundAt);
        assertThat(faults().get(0).what()).contains("missing");
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 3, 9})
    void aTailThatWasCutOffIsMissedByTheFileBesideTheStore(int cut) throws SQLException {
        force("delete from audit_event where id > " + (9 - cut));
        List<AuditFault> faults = faults();
        assertThat(faults).hasSize(1);
        assertThat(faults.get(0).kind()).isEqualTo(AuditFault.Kind.CUT);
        assertThat(faults.get(0).line()).isEqualTo(10 - cut);
        // nor does going on writing cover it up
        try (Workspace workspace = Workspace.open(temp)) {
            for (int i = 0; i < 12; i++) {
                workspace.change(s -> s.audit().add("test.deed", "C-02", "", ""));
            }
        }
        assertThat(faults()).isNotEmpty();
    }

    @Test
    void aTailThatWasCutOffIsMissedByABackupWhereTheFileWentToo() throws SQLException, IOException {
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.keeping().backUp(Instant.parse("2026-03-09T10:00:00Z"), Progress.NONE);
        }
        force("delete from audit_event where id > 5");
        Files.delete(temp.resolve("workspace.head"));
        assertThat(faults())
                .anySatisfy(f -> assertThat(f.what()).contains("by the backup sideport-20260309T100000000Z.db"));
    }

    @Test
    void linesInAnotherOrderAreFound() throws SQLException {
        force(
                "update audit_event set id = 100 where id = 4",
                "update audit_event set id = 4 where id = 5",
                "update audit_event set id = 5 where id = 100");
        assertThat(faults()).extracting(AuditFault::line).contains(4L, 5L);
    }

    /** Whoever makes a line's digest anew breaks the chain behind it; at the end, the file beside the store. */
    @ParameterizedTest
    @CsvSource({"5, 6", "9, 9"})
    void aLineThatWasReplacedByAConsistentOneIsFound(int line, long foundAt) throws Exception {
        AuditEvent was;
        try (Workspace workspace = Workspace.open(temp)) {
            was = workspace.read(s -> s.audit().all()).get(line - 1);
        }
        String forged = "T01";
        String digest = digest(was.at(), was.who(), was.deed(), was.subject(), was.before(), forged, was.previous());
        force("update audit_event set after = '" + forged + "', digest = '" + digest + "' where id = " + line);
        assertThat(faults()).extracting(AuditFault::line).containsExactly(foundAt);
    }

    /** The digest as the class describes it, made anew here: parts with their lengths in bytes and a colon before. */
    private static String digest(String... parts) throws Exception {
        StringBuilder all = new StringBuilder();
        for (String part : parts) {
            all.append(part.getBytes(StandardCharsets.UTF_8).length).append(':').append(part);
        }
        return HexFormat.of()
                .formatHex(MessageDigest.getInstance("SHA-256")
                        .digest(all.toString().getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void aFileThatLagsBehindAsAfterACrashIsBroughtUp() throws IOException {
        String before = Files.readString(temp.resolve("workspace.head"));
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> s.audit().add("test.deed", "C-01", "", ""));
        }
        String after = Files.readString(temp.resolve("workspace.head"));
        Files.writeString(temp.resolve("workspace.head"), before);
        assertThat(faults()).isEmpty();
        assertThat(temp.resolve("workspace.head")).hasContent(after);
    }

    @Test
    void anEndThatWasNotedIsFoundAgainOrMissed() {
        try (Workspace workspace = Workspace.open(temp)) {
            AuditHead noted = workspace.keeping().head();
            assertThat(noted.count()).isEqualTo(9);
            workspace.change(s -> s.audit().add("test.deed", "C-01", "", ""));
            assertThat(workspace.keeping().reaches(noted)).isTrue();
            assertThat(workspace.keeping().reaches(new AuditHead(8, noted.digest())))
                    .isFalse();
        }
    }

    @Test
    void acceptingATrailIsNotedInItAndEndsTheFinding() throws SQLException {
        force("delete from audit_event where id > 5");
        assertThat(faults()).isNotEmpty();
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.keeping().acceptTrail();
            AuditEvent last = workspace.read(s -> s.audit().all()).get(5);
            assertThat(last.deed()).isEqualTo("audit.accept");
            assertThat(last.before()).startsWith("sideport-audit-head-1 9 ");
        }
        assertThat(faults()).isEmpty();
    }

    @Test
    void aChangeThatFailsLeavesNoLineAndNoOtherEnd() throws IOException {
        String before = Files.readString(temp.resolve("workspace.head"));
        try (Workspace workspace = Workspace.open(temp)) {
            assertThatThrownBy(() -> workspace.change(s -> {
                        s.audit().add("test.deed", "C-01", "", "");
                        throw new IllegalStateException("pulled the plug");
                    }))
                    .hasMessage("pulled the plug");
        }
        assertThat(temp.resolve("workspace.head")).hasContent(before);
        assertThat(faults()).isEmpty();
    }

    /** Times are what the clock said; the order is that of the lines. */
    @Test
    void aClockThatGoesBackwardsChangesNoOrderAndBreaksNothing() throws Exception {
        String last;
        try (Workspace workspace = Workspace.open(temp)) {
            last = workspace.keeping().head().digest();
        }
        String at = "2001-01-01T00:00:00Z";
        Samples.raw(
                temp,
                "insert into audit_event (at, who, deed, subject, before, after, previous, digest) values ('" + at
                        + "', '', 'test.deed', 'C-09', '', '', '" + last + "', '"
                        + digest(at, "", "test.deed", "C-09", "", "", last) + "')");
        try (Workspace workspace = Workspace.open(temp)) {
            workspace.change(s -> s.audit().add("test.deed", "C-10", "", ""));
            assertThat(workspace.<List<AuditEvent>>read(s -> s.audit().all()))
                    .extracting(AuditEvent::subject)
                    .endsWith("C-01", "C-09", "C-10");
            assertThat(workspace.keeping().auditFaults()).isEmpty();
        }
    }
}
