package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.SQLWarning;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.Caller;
import org.sideport.model.CaseSummary;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;

/** What each login sees and may change with plain SQL, past the program. The truth is what {@link SharedUnit} says. */
class RowSecurityTest {

    @TempDir
    static Path temp;

    private static SharedUnit unit;

    @BeforeAll
    static void open() throws SQLException {
        unit = new SharedUnit(temp);
    }

    @AfterAll
    static void close() throws SQLException {
        unit.close();
    }

    @ParameterizedTest
    @CsvSource({"T01, C-1 C-2 C-4", "T02, C-3", "A1, B-7", "A2, C-2", "A3, C-4", "D1, C-1 C-2 C-3 C-4"})
    void aLoginSeesItsOwnCasesOnly(String person, String cases) throws SQLException {
        int count = cases.split(" ").length;
        assertThat(unit.sql(person, "select code from surgical_case order by code"))
                .containsExactly(cases.split(" "));
        assertThat(unit.sql(person, "select * from segment")).hasSize(count);
        assertThat(unit.sql(person, "select * from case_descriptor")).hasSize(count);
        try (Workspace workspace = unit.open(person)) {
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(count);
            assertThat(workspace.<List<CaseSummary>>read(s -> s.summaries().newest(-1)))
                    .extracting(CaseSummary::code)
                    .containsExactlyInAnyOrder(cases.split(" "));
        }
    }

    @ParameterizedTest
    @CsvSource({
        // two taggings of each case; of C-3 the blinded A1 sees the assessor's, not the trainee's
        "T01, 6, 6, 3",
        "T02, 2, 2, 1",
        "A1, 1, 0, 0",
        "A2, 2, 2, 1",
        "A3, 2, 2, 2",
        "D1, 8, 8, 8"
    })
    void tagsCommentsAndMarksFollowTheCase(String person, int taggings, int comments, int ratings) throws SQLException {
        assertThat(unit.sql(person, "select id from tagging")).hasSize(taggings);
        assertThat(unit.sql(person, "select * from phase_span")).hasSize(taggings);
        assertThat(unit.sql(person, "select * from point_event")).hasSize(person.equals("A1") ? 0 : taggings);
        assertThat(unit.sql(person, "select * from moment_comment")).hasSize(comments);
        // a draft is seen by its writer (A3) and the director, a signed rating by all who reach the case
        assertThat(unit.sql(person, "select * from rating")).hasSize(ratings);
        assertThat(unit.sql(person, "select distinct rating_id from item_score"))
                .hasSize(ratings);
        assertThat(unit.sql(person, "select distinct rating_id from rating_action"))
                .hasSize(ratings);
    }

    /** Who else is of the unit is for directors: a list of codes beside a list of operations tells whose they are. */
    @ParameterizedTest
    @CsvSource({"T01, T01", "A1, A1", "A3, A3", "D1, A1 A2 A3 D1 T01 T02"})
    void aLoginFindsItsOwnCodeOnlyAmongThePeople(String person, String codes) throws SQLException {
        assertThat(unit.sql(person, "select code from person order by code")).containsExactly(codes.split(" "));
        assertThat(unit.sql(person, "select person from person_role order by person"))
                .containsExactly(codes.split(" "));
        assertThat(unit.sql(person, "select count(*) from person where code = 'T02'"))
                .containsExactly(codes.contains("T02") ? "1" : "0");
        // nor by what a change would say, or the name of what is referred to
        if (!person.equals("D1")) {
            assertThat(unit.sql(person, "update person set active = true where code = 'T02'"))
                    .containsExactly("0 changed");
        }
        // and the program works with that: signed in, with the own roles
        try (Workspace workspace = unit.open(person)) {
            assertThat(workspace.caller())
                    .isEqualTo(new Caller.Person(person, Set.of(Role.parse(SharedUnit.ROLES.get(person)))));
            assertThat(workspace.<Boolean>read(s -> s.people().any())).isTrue();
        }
    }

    @Test
    void aMemberOfTheGroupWhoIsNobodyHereSeesNothingAtAll() throws SQLException {
        TestPostgres.shared()
                .asSuperuser(
                        "postgres",
                        "do $$ begin if not exists (select 1 from pg_roles where rolname = 'X9') then create role"
                                + " \"X9\" login password 'x' in role sideport_member; end if; end $$");
        DatabaseLogin stranger = new DatabaseLogin("X9", "x");
        assertThat(readable(stranger)).isEmpty();
        assertThatThrownBy(() -> unit.sql(
                        stranger,
                        "insert into surgical_case (code, trainee, operated_on,"
                                + " procedure_id) values ('C-9', 'X9', '2026-01-01', 'phaco')"))
                .hasMessageContaining("may not take in");
        assertThatThrownBy(() -> Workspace.open(unit.dir, stranger))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("X9 is nobody's code");
    }

    @Test
    void aBlindedAssessorFindsNoSecretInAnythingThatHeCanRead() throws SQLException {
        unit.sql(TestPostgres.KEEPER, "analyze");
        List<String> all = readable(SharedUnit.login("A1"));
        assertThat(all).anyMatch(text -> text.contains(SharedUnit.BLIND_LABEL));
        assertThat(all)
                // not within a moment, such as 2026-05-03T02:15
                .noneMatch(text -> text.matches("(?s).*(?<!\\d)T02.*"))
                .noneMatch(text -> text.contains("C-3"))
                .noneMatch(text -> text.contains("2026-05-03"))
                .noneMatch(text -> text.contains(".mp4") && !text.contains("blind/B-7/0.mp4"))
                .noneMatch(text -> text.contains("list 7")) // the title in the file's own tags
                .noneMatch(text -> text.contains("signed of"))
                .noneMatch(text -> text.contains("capsule_tear"));
        // the same look finds them all for who may know, so that it can fail
        List<String> director = readable(SharedUnit.login("D1"));
        for (String secret : List.of("C-3", "T02", "2026-05-03", "T02 2026-05-03.mp4", "signed of", "capsule_tear")) {
            assertThat(director).anyMatch(text -> text.contains(secret));
        }
    }

    /** All that a login can read of tables, views and statistics, column by column where it must be, each with its place. */
    private static List<String> readable(DatabaseLogin login) throws SQLException {
        List<String> found = new ArrayList<>();
        try (Connection connection = TestEngine.connect(unit.dir, login);
                Statement statement = connection.createStatement();
                Statement look = connection.createStatement()) {
            ResultSet columns = statement.executeQuery("select n.nspname, c.relname, a.attname from pg_attribute a"
                    + " join pg_class c on c.oid = a.attrelid join pg_namespace n on n.oid = c.relnamespace where not"
                    + " a.attisdropped and c.relkind in ('r', 'v', 'm') and (n.nspname like 'sideport%' and a.attnum <> 0"
                    + " and c.relname <> 'flyway_schema_history' or c.relname in ('pg_stats', 'pg_statistic',"
                    + " 'pg_stats_ext') and a.attnum > 0)");
            while (columns.next()) {
                String table = columns.getString(1) + "." + columns.getString(2);
                String where = columns.getString(1).equals("pg_catalog") ? " where schemaname like 'sideport%'" : "";
                try (ResultSet rows =
                        look.executeQuery("select (" + columns.getString(3) + ")::text from " + table + where)) {
                    while (rows.next()) {
                        found.add(columns.getString(2) + "." + columns.getString(3) + ": " + rows.getString(1));
                    }
                } catch (SQLException denied) {
                    assertThat(denied.getSQLState()).isIn("42501", "42703", "42809", "0A000");
                }
            }
        }
        return found;
    }

    @Test
    void whatIsFilteredOutIsNotShownToAFunctionOfTheCallersOwn() throws SQLException {
        for (String table : List.of("surgical_case", "rating", "moment_comment", "tagging")) {
            try (Connection connection = unit.connect("A1");
                    Statement statement = connection.createStatement()) {
                statement.execute(
                        "create function pg_temp.peek(what text) returns boolean language plpgsql cost 0.0000001"
                                + " as 'begin raise notice ''%'', what; return true; end'");
                String column =
                        table.equals("surgical_case") ? "trainee" : table.equals("tagging") ? "annotator" : "id";
                statement.executeQuery(
                        "select count(*) from " + table + " x where pg_temp.peek(x." + column + "::text)");
                StringBuilder seen = new StringBuilder();
                for (SQLWarning notice = statement.getWarnings(); notice != null; notice = notice.getNextWarning()) {
                    seen.append(notice.getMessage()).append('\n');
                }
                assertThat(seen.toString().lines())
                        .as(table)
                        .hasSizeLessThanOrEqualTo(1)
                        .doesNotContain("T01", "T02");
            }
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update person_role set role = 'director' where person = session_user::text",
                "delete from assignment",
                "update assignment set hidden = ''",
                "update assignment set state = 'withdrawn'",
                "update assignment set label = 'C-3'",
                "update case_access set plain = true",
                "delete from case_access",
                "update surgical_case set added_by = 'A1'",
                "delete from surgical_case",
                "delete from segment",
                "update segment set path = 'mine.mp4'",
                "update case_change set before = ''",
                "update rating set comment = 'better'",
                "delete from rating",
                "update item_score set points = 4",
                "delete from tagging",
                "update phase_span set phase = 'suture'",
                "update rubric_document set json = '{}'",
                "update person set active = true",
            })
    void anAssessorChangesNothingThatIsNotHis(String sql) throws SQLException {
        String before = allAsText();
        try {
            assertThat(unit.sql("A1", sql)).containsExactly("0 changed");
        } catch (SQLException refused) {
            assertThat(refused.getSQLState()).isIn("42501", "44000", "23000");
        }
        assertThat(allAsText()).isEqualTo(before);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "insert into person_role values ('A1', 'director')",
                "insert into person values ('A9', true, '')",
                "insert into assignment select 'x', id, 'A1', 'second', 'x', '', 'open', 'A1', '', null from"
                        + " surgical_case",
                "insert into case_access select 'A1', case_id, true, true, true, true, true, null, '{}' from"
                        + " case_access",
                "select * from sideport.surgical_case",
                "select * from sideport.segment",
                "select * from sideport.audit_event",
                "select * from sideport.case_access_due",
                "select sideport.renew_access(null, null)",
                "select sideport.make_login('A9', 'SCRAM-SHA-256$x')",
                "select sideport.change_password('D1', 'SCRAM-SHA-256$x')",
                "select sideport.rule('sideport.rating'::regclass, 'true', 'true')",
                "select changed_at from tagging",
                "update sideport.surgical_case set trainee = 'A1'",
                "delete from audit_event",
                "update audit_event set who = ''",
                "truncate sideport.rating",
                "set role keeper",
                "set session authorization keeper",
                "alter table sideport.rating disable row level security",
                "create policy mine on sideport.rating using (true)",
                "drop view sideport_shown.surgical_case",
                "create table sideport_shown.person (code text)",
                "create function sideport.is_keeper() returns boolean language sql as 'select true'",
                "insert into rating (case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                        + " changed_at) select id, 'made-up', '1.0.0', 'A2', false, false, '', 'draft', '' from"
                        + " surgical_case",
                "insert into tagging (case_id, annotator, style, changed_at) select id, 'T02', 'starts_only', ''"
                        + " from surgical_case",
            })
    void anAssessorIsRefused(String sql) {
        assertThatThrownBy(() -> unit.sql("A1", sql))
                .isInstanceOfSatisfying(
                        SQLException.class,
                        refused -> assertThat(refused.getSQLState()).isEqualTo("42501"));
    }

    @Test
    void whetherAnInvisibleCaseExistsIsNotToldByTheReferenceToIt() throws SQLException {
        String hidden = unit.sql("D1", "select id from surgical_case where code = 'C-1'")
                .get(0);
        for (String id : List.of(hidden, "12345")) {
            assertThatThrownBy(() -> unit.sql(
                            "A1",
                            "insert into tagging (case_id, annotator, style, changed_at) values (" + id
                                    + ", 'A1', 'starts_only', '')"))
                    .isInstanceOfSatisfying(
                            SQLException.class,
                            refused -> assertThat(refused.getSQLState()).isEqualTo("42501"));
        }
    }

    @Test
    void aTraineeWritesOfOwnCasesInOwnNameOnly() throws SQLException {
        String one = unit.sql("T01", "select id from surgical_case where code = 'C-1'")
                .get(0);
        for (String sql : List.of(
                "update surgical_case set trainee = 'T02' where code = 'C-1'",
                "insert into surgical_case (code, trainee, operated_on, procedure_id) values ('C-8', 'T02', '',"
                        + " 'phaco')",
                "insert into rating (case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                        + " changed_at) values (" + one + ", 'made-up', '1.0.0', 'T01', false, false, '', 'draft', '')",
                "insert into moment_comment (id, case_id, author, tone, text, from_us, revision, changed_at) values"
                        + " ('c', " + one + ", 'A3', 'praise', '', 0, 1, '')")) {
            assertThatThrownBy(() -> unit.sql("T01", sql))
                    .as(sql)
                    .isInstanceOfSatisfying(
                            SQLException.class,
                            refused -> assertThat(refused.getSQLState()).isEqualTo("42501"));
        }
        try (Workspace workspace = unit.open("T02")) {
            assertThat(workspace.caller()).isEqualTo(new Caller.Person("T02", Set.of(Role.TRAINEE)));
            workspace.change(s -> {
                s.taggings().save("C-3", "T02", SharedUnit.TAGGING);
                s.cuts().all();
                long own = s.ratings()
                        .addDraft(
                                "C-3",
                                new org.sideport.model.Rating(
                                        Samples.RUBRIC, "1.0.0", "T02", true, false, List.of(), ""),
                                null,
                                null);
                s.ratings()
                        .saveDraft(
                                own,
                                s.ratings().find(own).orElseThrow().rating().withComment("mine"));
            });
            assertThatThrownBy(() -> workspace.change(s -> s.taggings().save("C-3", "A3", SharedUnit.TAGGING)))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("your login may not do this");
            workspace.change(s -> s.handle.execute("delete from rating where assessor = 'T02'"));
        }
    }

    @Test
    void aBlindedAssessorMarksTheCaseUnderItsLabel() throws SQLException {
        try (Workspace workspace = unit.open("A1")) {
            SurgicalCase shown = workspace.read(s -> s.cases().get("b-7"));
            assertThat(shown.code()).isEqualTo("B-7");
            assertThat(shown.trainee()).isEmpty();
            assertThat(shown.date()).isEqualTo("1970-01-01");
            workspace.change(s -> {
                long draft = s.ratings().addDraft("B-7", SharedUnit.rating("A1", "blind"), null, null);
                s.ratings().sign(draft, Instant.parse("2026-06-02T10:00:00Z"));
                s.taggings().save("B-7", "A1", SharedUnit.TAGGING);
                s.comments().save("B-7", SharedUnit.comment("x", "A1", "own"));
                s.handle.execute("update assignment set state = 'done'");
            });
            assertThatThrownBy(() -> workspace.change(s -> s.handle.execute("update rating set comment = 'x'")))
                    .hasMessageContaining("a signed rating cannot be changed");
            // done, but still blind
            assertThat(workspace.<String>read(s -> s.cases().get("B-7").trainee()))
                    .isEmpty();
        }
        assertThat(unit.sql(
                        "D1",
                        "select r.comment from rating r join surgical_case c on c.id = r.case_id"
                                + " where c.code = 'C-3' and r.assessor = 'A1'"))
                .containsExactly("blind");
        unit.sql(TestPostgres.KEEPER, "delete from tagging where annotator = 'A1'");
        unit.sql(TestPostgres.KEEPER, "delete from moment_comment where author = 'A1'");
    }

    @Test
    void whoIsTakenOffTheListSeesNothingAnyMoreAtOnce() throws SQLException {
        try (Connection open = unit.connect("A2");
                Statement statement = open.createStatement()) {
            assertThat(count(statement)).isEqualTo(1);
            unit.sql("D1", "update person set active = false where code = 'A2'");
            assertThat(count(statement)).isZero();
            unit.sql("D1", "update person set active = true where code = 'A2'");
            assertThat(count(statement)).isEqualTo(1);
            unit.sql("D1", "update assignment set state = 'withdrawn' where assessor = 'A2'");
            assertThat(count(statement)).isZero();
            unit.sql("D1", "update assignment set state = 'open' where assessor = 'A2'");
            assertThat(count(statement)).isEqualTo(1);
        }
    }

    private static int count(Statement statement) throws SQLException {
        try (ResultSet rows = statement.executeQuery("select count(*) from surgical_case")) {
            rows.next();
            return rows.getInt(1);
        }
    }

    @Test
    void passwordsAreTheDatabasesOwn() throws SQLException {
        try (Workspace a3 = unit.open("A3")) {
            a3.logins().orElseThrow().change("A3", "a new password");
            assertThatThrownBy(() -> a3.logins().orElseThrow().change("D1", "a new password"))
                    .isInstanceOf(InputException.class);
        }
        assertThatThrownBy(() -> unit.open("A3"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("refuses this login");
        try (Workspace director = unit.open("D1")) {
            director.logins().orElseThrow().change("A3", SharedUnit.password("A3"));
        }
        unit.open("A3").close();
    }

    @Test
    void everyTableHasARuleOfItsOwn() throws SQLException {
        // what the text of the rules does not name, only the keeper reads; a table of that kind is a gap or a secret
        assertThat(unit.sql(
                        TestPostgres.KEEPER,
                        "select tablename from pg_tables t where schemaname = 'sideport' and tablename not in"
                                + " ('flyway_schema_history', 'surgical_case', 'segment', 'audit_event') and not exists"
                                + " (select 1 from pg_policies p where p.schemaname = t.schemaname and p.tablename ="
                                + " t.tablename and p.policyname = 'reads')"))
                .isEmpty();
        assertThat(unit.sql(
                        TestPostgres.KEEPER,
                        "select relname from pg_class c join pg_namespace n on n.oid = c.relnamespace where"
                                + " n.nspname = 'sideport' and relkind = 'r' and relname <>"
                                + " 'flyway_schema_history' and not (relrowsecurity and relforcerowsecurity)"))
                .isEmpty();
    }

    private static String allAsText() throws SQLException {
        StringBuilder all = new StringBuilder();
        for (String table : unit.sql(
                TestPostgres.KEEPER,
                "select schemaname || '.' || tablename from pg_tables" + " where schemaname = 'sideport' order by 1")) {
            all.append(table).append(unit.sql(TestPostgres.KEEPER, "select t::text from " + table + " t order by 1"));
        }
        return all.toString();
    }
}
