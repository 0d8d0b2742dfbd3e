package org.sideport.store;

import org.jdbi.v3.core.Handle;
import org.sideport.model.InputException;

/** From a case's code to its row. */
final class CaseKey {

    private CaseKey() {}

    /**
     * @throws InputException if there is no such case
     */
    static long of(Handle handle, String code) {
        return handle.createQuery("select id from surgical_case where code = :code")
                .bind("code", code)
                .mapTo(Long.class)
                .findOne()
                .orElseThrow(() -> new InputException(
                        "there is no case " + code, null, "list the cases with: sideport case list"));
    }
}
