package org.sideport.store;

import java.util.UUID;

/** Rows that no job of these tests makes, put in with plain SQL. */
public final class TestRows {

    private TestRows() {}

    /** Gives a case to an assessor. */
    public static void assign(Workspace workspace, String caseCode, String assessor, String state) {
        workspace.change(s -> s.handle.execute(
                "insert into assignment (id, case_id, assessor, purpose, label, hidden, state, assigned_by,"
                        + " assigned_at) values (?, (select id from surgical_case where code = ?), ?, 'first', ?, '', ?,"
                        + " 'D1', '2026-03-09T08:00:00Z')",
                UUID.randomUUID().toString(),
                caseCode,
                assessor,
                "label-" + UUID.randomUUID(),
                state));
    }
}
