package org.sideport.store;

import java.nio.file.Path;
import java.util.Map;
import org.flywaydb.core.Flyway;
import org.sqlite.SQLiteConfig;

/** Makes a store as the program of the first exchange of marks and tags left it, version 9 of its tables. */
public final class OldStore {

    private OldStore() {}

    /** An empty one. */
    public static void make(Path workspace) {
        Flyway.configure()
                .dataSource(SqliteStore.source(workspace.resolve(Workspace.STORE_FILE), SQLiteConfig.JournalMode.WAL))
                .locations(
                        "classpath:org/sideport/store/migration/common",
                        "classpath:org/sideport/store/migration/sqlite")
                .placeholders(Map.of("id", "id integer primary key"))
                .target("9")
                .load()
                .migrate();
    }

    /** One with a signed rating (id 1) of C-01 by A1 and a draft (id 2) of C-01 by A2, written with plain SQL. */
    public static void makeWithRatings(Path workspace, String rubric, String version, String json) throws Exception {
        make(workspace);
        String text = json.replace("'", "''");
        for (String sql : new String[] {
            "insert into surgical_case (id, code, trainee, operated_on, procedure_id) values"
                    + " (1, 'C-01', 'T03', '2026-03-09', 'phaco')",
            "insert into rubric_document values ('" + rubric + "', '" + version + "', '" + text + "')",
            rating(1, "A1", rubric, version),
            "insert into item_score (rating_id, item, points, not_applicable, comment) values (1, 'rhexis', 3, null,"
                    + " 'old')",
            "update rating set state = 'signed', signed_at = '2025-03-10T08:00:00Z' where id = 1",
            rating(2, "A2", rubric, version),
        }) {
            Samples.raw(workspace, sql);
        }
    }

    private static String rating(int id, String assessor, String rubric, String version) {
        return "insert into rating (id, case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                + " changed_at) values (" + id + ", 1, '" + rubric + "', '" + version + "', '" + assessor
                + "', 0, 0, '', 'draft', '2025-03-10T08:00:00Z')";
    }
}
