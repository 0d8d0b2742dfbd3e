package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Rubric;

/**
 * Made-up cases in great number, each with 12 spans and a mark for each item of a rubric, 200 to a trainee; one text for both
 * databases. Each is given to an assessor, every other one blind; of each assessor one case in four is still a draft.
 */
final class TrialCases {

    static final String DIRECTOR = "bench-D1";
    static final String TRAINEE = "bench-T1";

    private static final int CASES_EACH = 200;
    private static final int SPANS = 12;

    private final long cases;
    private final int signingIn;
    private final Rubric rubric;
    private final String json;
    private final Consumer<String> note;

    /**
     * @param signingIn how many of the assessors get logins
     * @param rubric whose items each have the same number of points more than the one before
     */
    TrialCases(long cases, int signingIn, Rubric rubric, String json, Consumer<String> note) {
        this.cases = cases;
        this.signingIn = signingIn;
        this.rubric = rubric;
        this.json = json;
        this.note = note;
    }

    static String assessor(int number) {
        return "bench-A" + number;
    }

    List<String> assessors() {
        List<String> all = new ArrayList<>();
        for (int i = 1; i <= signingIn; i++) {
            all.add(assessor(i));
        }
        return all;
    }

    /** Who gets a login. */
    List<String> people() {
        List<String> all = new ArrayList<>(List.of(DIRECTOR, TRAINEE));
        all.addAll(assessors());
        return all;
    }

    /** A code or label under which the assessor has a draft. */
    static String draftOf(Handle handle, String assessor) {
        return handle.createQuery("select case when a.hidden = '' then 'B-' else 'L-' end || r.case_id from rating r"
                        + " join assignment a on a.case_id = r.case_id where r.id = (select min(id) from rating"
                        + " where assessor = :who and state = 'draft')")
                .bind("who", assessor)
                .mapTo(String.class)
                .one();
    }

    /** On PostgreSQL, into the tables behind the views. */
    void fillQuickly(Handle handle) {
        handle.execute("set local search_path = " + PostgresSchema.TABLES);
        // who may leaves out references and triggers: all is made to fit
        boolean may = handle.createQuery("select rolsuper from pg_roles where rolname = session_user")
                .mapTo(Boolean.class)
                .one();
        if (may) {
            handle.execute("set local session_replication_role = replica");
        }
        fill(handle);
        if (may) {
            handle.execute("set local session_replication_role = origin");
        }
        note.accept("who reaches which case …");
        handle.execute("select renew_access(null, null)");
    }

    void fill(Handle handle) {
        long trainees = Math.max(1, cases / CASES_EACH);
        long assessors = Math.max(signingIn, cases / 1000);
        String now = Instant.now().toString();
        note.accept("making " + cases + " cases …");
        handle.execute("insert into person (code, active, added_at) values (?, true, ?)", DIRECTOR, now);
        handle.execute("insert into person_role (person, role) values (?, 'director')", DIRECTOR);
        people(handle, "bench-T", "trainee", trainees, now);
        people(handle, "bench-A", "assessor", assessors, now);
        String whose = "'bench-A' || (1 + id % " + assessors + ")";
        handle.execute(
                "insert into rubric_document (rubric, version, json) values (?, ?, ?)",
                rubric.id(),
                rubric.version(),
                json);
        handle.execute("insert into surgical_case (id, code, trainee, operated_on, procedure_id) " + numbers(cases)
                + "select i, 'B-' || i, 'bench-T' || (1 + i % " + trainees + "), '20' || (16 + i % 10) || '-'"
                + " || (10 + i % 3) || '-' || (10 + i % 19), 'phaco' from g");
        handle.execute(
                "insert into case_descriptor (case_id, name, value) select id, 'eye', 'left' from surgical_case");
        handle.execute("insert into assignment (id, case_id, assessor, purpose, label, hidden, state, assigned_by,"
                + " assigned_at) select 'g' || id, id, " + whose + ", 'first', 'L-' || id, case when id % 2 = 0 then"
                + " 'trainee,date' else '' end, 'open', '" + DIRECTOR + "', '" + now + "' from surgical_case");
        handle.execute("insert into tagging (id, case_id, annotator, style, changed_at) select id, id, " + whose
                + ", 'start_and_end', '" + now + "' from surgical_case");
        note.accept("making " + cases * SPANS + " spans …");
        handle.execute("insert into phase_span (tagging_id, phase, start_us, end_us) " + numbers(SPANS)
                + "select c.id, 'rhexis', i * 60000000, i * 60000000 + 50000000 from surgical_case c cross join g");
        note.accept("making " + cases * rubric.items().size() + " marks …");
        handle.execute(
                "insert into rating (id, case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                        + " changed_at) select id, id, ?, ?, " + whose + ", false, id % 2 = 0, '', 'draft', '" + now
                        + "' from surgical_case",
                rubric.id(),
                rubric.version());
        handle.execute(
                "insert into item_score (rating_id, item, points, comment) with g(i, item, first, many) as (values "
                        + rubric.items().stream().map(this::points).collect(Collectors.joining(", "))
                        + ") select c.id, item, first + (c.id + i) % many, '' from surgical_case c cross join g");
        // nothing is signed without a seal; these seal nothing
        handle.execute("insert into rating_seal (rating_id, form, digest, rubric_sha256, tagging_of, tagging_sha256,"
                + " recordings, amends_digest, late) select id, '', '" + "0".repeat(64) + "', '', '', '', '', '', false"
                + " from rating where (id / " + assessors + ") % 4 <> 0");
        handle.execute("update rating set state = 'signed', signed_at = '" + now + "' where (id / " + assessors
                + ") % 4 <> 0");
    }

    private String points(Rubric.Item item) {
        List<Integer> points = rubric.pointsOf(item);
        return "(" + rubric.items().indexOf(item) + ", '" + item.id() + "', " + points.get(0) + ", " + points.size()
                + ")";
    }

    private static void people(Handle handle, String prefix, String role, long count, String now) {
        handle.execute("insert into person (code, active, added_at) " + numbers(count) + "select '" + prefix
                + "' || i, true, '" + now + "' from g");
        handle.execute("insert into person_role (person, role) " + numbers(count) + "select '" + prefix + "' || i, '"
                + role + "' from g");
    }

    private static String numbers(long most) {
        return "with recursive g(i) as (select 1 union all select i + 1 from g where i < " + most + ") ";
    }

    void remove(Handle handle) {
        handle.execute("drop schema " + PostgresSchema.SHOWN + " cascade");
        handle.execute("drop schema " + PostgresSchema.TABLES + " cascade");
        for (String person : people()) {
            handle.execute("drop role if exists \"" + person + "\"");
        }
    }
}
