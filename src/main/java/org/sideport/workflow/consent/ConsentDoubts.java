package org.sideport.workflow.consent;

import java.util.ArrayList;
import java.util.List;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Asked before cases are handed out or given to mark, so that nobody learns of a doubt only afterwards. */
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

    /**
     * What must be said when these cases are given to be marked: what marking them would say. Of cases that the caller marks
     * blind nothing is known.
     *
     * @throws InputException if one may not be marked at all
     */
    public List<ConsentDoubt> ofGiven(List<String> codes) {
        Access.require(workspace, Permission.ASSIGN);
        return workspace.read(stores -> {
            List<ConsentDoubt> found = new ArrayList<>();
            for (String code : codes) {
                SurgicalCase given = stores.cases().get(code);
                ConsentDoubt doubt =
                        given.hidden().isEmpty() ? ConsentGate.doubt(stores, given, ConsentPurpose.ASSESSMENT) : null;
                if (doubt != null) {
                    found.add(doubt);
                }
            }
            return found;
        });
    }
}
