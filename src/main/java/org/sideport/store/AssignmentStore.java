package org.sideport.store;

import org.jdbi.v3.core.Handle;

/** Which case is given to which assessor. */
public final class AssignmentStore {

    private final Handle handle;

    AssignmentStore(Handle handle) {
        this.handle = handle;
    }

    /** True if the case is, or was until done, given to this assessor. */
    public boolean isGiven(String caseCode, String assessor) {
        return handle.createQuery("select count(*) from assignment a join surgical_case c on c.id = a.case_id"
                                + " where c.code = :code and a.assessor = :assessor and a.state <> 'withdrawn'")
                        .bind("code", caseCode)
                        .bind("assessor", assessor)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /** True if something of the case is hidden from this assessor as long as an assignment is open. */
    public boolean isBlinded(String caseCode, String assessor) {
        return handle.createQuery("select count(*) from assignment a join surgical_case c on c.id = a.case_id"
                                + " where c.code = :code and a.assessor = :assessor and a.state = 'open'"
                                + " and a.hidden <> ''")
                        .bind("code", caseCode)
                        .bind("assessor", assessor)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }
}
