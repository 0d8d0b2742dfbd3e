package org.sideport.workflow;

import java.util.List;
import org.sideport.model.CommentThread;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Opens the comments of a case to read and to write. */
public final class CommentCase {

    private final Workspace workspace;

    public CommentCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @param person code of who comments, answers and reads
     * @throws org.sideport.model.InputException if there is no such case, or the code cannot be one
     */
    public CommentSession open(String caseCode, String person) {
        String who = Codes.require("a person", person);
        Access.requireOwn(workspace.caller(), who);
        SurgicalCase surgicalCase = workspace.read(stores -> {
            Access.require(stores, Permission.COMMENT, caseCode);
            return stores.cases().get(caseCode);
        });
        return new CommentSession(workspace, surgicalCase, who);
    }

    /**
     * All comments by time, to nobody in particular: everything is new.
     *
     * @throws org.sideport.model.InputException if there is no such case
     */
    public List<CommentThread> of(String caseCode) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, caseCode);
            return stores.comments().threads(caseCode, "");
        });
    }
}
