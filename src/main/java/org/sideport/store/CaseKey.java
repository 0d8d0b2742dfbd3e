package org.sideport.store;

import org.jdbi.v3.core.Handle;
import org.sideport.model.InputException;

/** From a case's code to its row. A case whose consent was withdrawn is not there for anybody who does not ask for it so. */
final class CaseKey {

    private CaseKey() {}

    /**
     * @throws InputException if there is no such case, or its consent was withdrawn
     */
    static long of(Handle handle, String code) {
        if (isWithdrawn(handle, code)) {
            throw new InputException(
                    "case " + code + " is not there any more: consent was withdrawn",
                    null,
                    "a programme director finds it among what is to be deleted");
        }
        return evenWithdrawn(handle, code);
    }

    private static boolean isWithdrawn(Handle handle, String code) {
        return handle.createQuery("select count(*) from surgical_case where code = :code and consent = 'withdrawn'")
                        .bind("code", code)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /**
     * @throws InputException if there is no such case
     */
    static long evenWithdrawn(Handle handle, String code) {
        return handle.createQuery("select id from surgical_case where code = :code")
                .bind("code", code)
                .mapTo(Long.class)
                .findOne()
                .orElseThrow(() -> new InputException(
                        "there is no case " + code, null, "list the cases with: sideport case list"));
    }
}
