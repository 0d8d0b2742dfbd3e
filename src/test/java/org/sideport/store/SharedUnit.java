package org.sideport.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.Recording;
import org.sideport.model.Severity;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/**
 * A unit's shared store: director D1; trainees T01, T02; assessors A1 (given C-3 of T02 with all that can be hidden hidden, as
 * B-7), A2 (given C-2 openly), A3 (took in C-4). Each has a login of the database's own.
 */
final class SharedUnit implements AutoCloseable {

    static final String BLIND_LABEL = "B-7";

    /** All that assignments can hide, as at the table's definition. */
    static final String ALL_HIDDEN = "trainee,date,order,stage,earlier_marks,complications,sound,file_names";

    static final Map<String, String> ROLES = Map.of(
            "D1", "director", "T01", "trainee", "T02", "trainee", "A1", "assessor", "A2", "assessor", "A3", "assessor");

    final Path dir;
    final Workspace keeper;
    private final Map<DatabaseLogin, Connection> connections = new HashMap<>();

    SharedUnit(Path dir) throws SQLException {
        this.dir = dir;
        this.keeper = TestEngine.POSTGRESQL.create(dir);
        for (Map.Entry<String, String> one : ROLES.entrySet()) {
            sql(
                    TestPostgres.KEEPER,
                    "insert into person values ('" + one.getKey() + "', true, '2026-01-01T00:00:00Z')");
            sql(
                    TestPostgres.KEEPER,
                    "insert into person_role values ('" + one.getKey() + "', '" + one.getValue() + "')");
            keeper.logins().orElseThrow().make(one.getKey(), password(one.getKey()));
        }
        keeper.change(s -> s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT));
        try (Workspace a3 = open("A3")) {
            a3.change(s -> s.cases().add(one("C-4", "T01", "2026-05-04")));
        }
        keeper.change(s -> {
            s.cases().add(one("C-1", "T01", "2026-05-01"));
            s.cases().add(one("C-2", "T01", "2026-05-02"));
            s.cases().add(one("C-3", "T02", "2026-05-03"));
            for (String code : List.of("C-1", "C-2", "C-3", "C-4")) {
                String trainee = s.cases().trainee(code);
                s.taggings().save(code, trainee, TAGGING);
                s.taggings().save(code, "A3", TAGGING);
                s.comments().save(code, comment(code, trainee, "by " + trainee));
                s.comments().save(code, comment(code, "A3", "by A3"));
                s.ratings().addDraft(code, rating("A3", "draft of " + code), null, null);
                long signed = s.ratings().addDraft(code, rating("A2", "signed of " + code), null, null);
                s.ratings().sign(signed, Instant.parse("2026-06-01T10:00:00Z"));
            }
        });
        give("C-3", "A1", BLIND_LABEL, ALL_HIDDEN);
        give("C-2", "A2", "B-8", "");
    }

    private void give(String code, String assessor, String label, String hidden) throws SQLException {
        sql(
                TestPostgres.KEEPER,
                "insert into assignment (id, case_id, assessor, purpose, label, hidden, state, assigned_by,"
                        + " assigned_at)"
                        + " select"
                        + " '" + label + "', id, '" + assessor + "', 'first', '" + label + "', '" + hidden
                        + "', 'open', 'D1', '2026-06-01T00:00:00Z' from surgical_case where code = '" + code + "'");
    }

    private SurgicalCase one(String code, String trainee, String date) {
        return new SurgicalCase(
                code,
                trainee,
                LocalDate.parse(date),
                "phaco",
                Map.of("eye", "left"),
                new Recording(List.of(Samples.segment(dir.resolve("media/" + trainee + " " + date + ".mp4")))));
    }

    static final Tagging TAGGING = new Tagging(
            TaggingStyle.START_AND_END,
            List.of(new PhaseSpan("rhexis", MediaTime.ofSeconds(1), MediaTime.ofSeconds(2), null)),
            List.of(new PointEvent("capsule_tear_posterior", MediaTime.ofSeconds(1), Severity.MAJOR, "torn")));

    static Rating rating(String assessor, String comment) {
        return Samples.rating(assessor, 3).withComment(comment);
    }

    static Comment comment(String code, String author, String text) {
        return new Comment(
                code + author, author, CommentTone.IMPROVE, text, null, MediaTime.ofSeconds(1), null, List.of(), null);
    }

    static String password(String person) {
        return "password of " + person;
    }

    static DatabaseLogin login(String person) {
        return new DatabaseLogin(person, password(person));
    }

    Workspace open(String person) {
        return Workspace.open(dir, login(person));
    }

    Connection connect(String person) throws SQLException {
        return TestEngine.connect(dir, login(person));
    }

    /** Runs plain SQL as somebody; the rows' columns are joined by blanks. */
    List<String> sql(DatabaseLogin login, String sql) throws SQLException {
        Connection connection = connections.get(login);
        if (connection == null) {
            connection = TestEngine.connect(dir, login);
            connections.put(login, connection);
        }
        try (Statement statement = connection.createStatement()) {
            List<String> rows = new ArrayList<>();
            if (statement.execute(sql)) {
                ResultSet found = statement.getResultSet();
                int columns = found.getMetaData().getColumnCount();
                while (found.next()) {
                    StringBuilder row = new StringBuilder();
                    for (int i = 1; i <= columns; i++) {
                        row.append(i == 1 ? "" : " ").append(found.getString(i));
                    }
                    rows.add(row.toString());
                }
            } else {
                rows.add(statement.getUpdateCount() + " changed");
            }
            return rows;
        }
    }

    List<String> sql(String person, String sql) throws SQLException {
        return sql(login(person), sql);
    }

    @Override
    public void close() throws SQLException {
        for (Connection connection : connections.values()) {
            connection.close();
        }
        keeper.close();
    }
}
