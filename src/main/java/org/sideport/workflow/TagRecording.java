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
     * @throws org.sideport.model.InputException if there is no such case, the annotator's code cannot be one, or is somebody
     *     else's than the caller's
     */
    public TagSession open(String caseCode, String annotator) {
        String who = Codes.require("an annotator", annotator);
        Access.requireOwn(workspace.caller(), who);
        Access.require(workspace, Permission.TAG, caseCode);
        TagSession session = session(caseCode, who);
        session.takeUp();
        return session;
    }

    /** Somebody's tags to look at; changing them is refused to whom they are not. */
    public TagSession look(String caseCode, String annotator) {
        Access.require(workspace, Permission.SEE_CASE, caseCode);
        return session(caseCode, Codes.require("an annotator", annotator));
    }

    /** To {@link #open} if {@code own}, else to {@link #look}. */
    public TagSession of(String caseCode, String annotator, boolean own) {
        return own ? open(caseCode, annotator) : look(caseCode, annotator);
    }

    private TagSession session(String caseCode, String who) {
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
