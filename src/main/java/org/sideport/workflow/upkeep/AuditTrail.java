package org.sideport.workflow.upkeep;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AuditEvent;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Shows who did what when. */
public final class AuditTrail {

    private final Workspace workspace;

    public AuditTrail(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * The lines, oldest first.
     *
     * @param caseCode only those about this case; {@code null} for all
     */
    public List<AuditEvent> lines(@Nullable String caseCode) {
        Access.require(workspace, Permission.SEE_AUDIT);
        return workspace.read(stores ->
                caseCode == null ? stores.audit().all() : stores.audit().of(caseCode));
    }
}
