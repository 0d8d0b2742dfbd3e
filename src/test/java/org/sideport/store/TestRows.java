package org.sideport.store;

import java.util.UUID;

/** Rows that no job of these tests makes, put in with plain SQL. */
public final class TestRows {

    private TestRows() {}

    /** As {@link #assign(Workspace, String, String, String)}, as third, with a label, hiding the trainee. */
    public static void assignBlind(Workspace workspace, String caseCode, String assessor, String state, String label) {
        workspace.change(s -> assign(s, caseCode, assessor, "third", label, "trainee", state));
    }

    /** Among other things in one transaction. */
    public static void assign(
            Stores s, String caseCode, String assessor, String purpose, String label, String hidden, String state) {
        s.handle.execute(
                "insert into assignment (id, case_id, assessor, purpose, label, hidden, state, assigned_by,"
                        + " assigned_at) values (?, (select id from surgical_case where code = ?), ?, ?, ?, ?, ?,"
                        + " 'D1', '2026-03-09T08:00:00Z')",
                UUID.randomUUID().toString(),
                caseCode,
                assessor,
                purpose,
                label,
                hidden,
                state);
    }

    /** Gives a case to an assessor. */
    public static void assign(Workspace workspace, String caseCode, String assessor, String state) {
        workspace.change(s -> assign(s, caseCode, assessor, "first", "label-" + UUID.randomUUID(), "", state));
    }
}
