package org.sideport.workflow;

import java.util.Set;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Opens an annotator's tagging of a case for work. */
public final class TagRecording {

    private final Workspace workspace;

    public TagRecording(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * @throws org.sideport.model.InputException if there is no such case, or the annotator's code cannot be one
     */
    public TagSession open(String caseCode, String annotator) {
        String who = Codes.require("an annotator", annotator);
        Access.requireOwn(workspace.caller(), who);
        Access.require(workspace, Permission.TAG, caseCode);
        record Found(SurgicalCase surgicalCase, Tagging tagging, Set<Boundary> confirmed) {}
        Found found = workspace.read(stores -> new Found(
                stores.cases().get(caseCode),
                stores.taggings().find(caseCode, who).orElse(Tagging.EMPTY),
                stores.taggings().confirmed(caseCode, who)));
        Procedure procedure =
                new Vocabularies(workspace).procedure(found.surgicalCase().procedure());
        return new TagSession(workspace, found.surgicalCase(), procedure, who, found.tagging(), found.confirmed());
    }
}
