package org.sideport.workflow.consent;

import java.util.ArrayList;
import java.util.List;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Asked before cases are handed out, so that nobody learns of a doubt only when the file is written. */
public final class ConsentDoubts {

    private final Workspace workspace;

    public ConsentDoubts(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What must be said before these cases go out for a purpose; empty if nothing speaks against it.
     *
     * @throws InputException if one may not be handed out at all
     */
    public List<ConsentDoubt> of(List<String> codes, ConsentPurpose purpose) {
        return workspace.read(stores -> {
            List<ConsentDoubt> found = new ArrayList<>();
            for (String code : codes) {
                Access.require(stores, Permission.EXPORT_CASE, code);
                ConsentDoubt doubt = ConsentGate.doubt(stores, stores.cases().get(code), purpose);
                if (doubt != null) {
                    found.add(doubt);
                }
            }
            return found;
        });
    }
}
