package org.sideport.workflow;

import java.time.Clock;
import org.sideport.model.Progress;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.upkeep.AuditTrail;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.KeepBackups;
import org.sideport.workflow.upkeep.VerifyRatings;

/** Looking after the workspace. */
final class GuardedUpkeepCalls {

    private GuardedUpkeepCalls() {}

    static void add(GuardedCalls all) {
        all.general(
                Permission.SEE_AUDIT, "AuditTrail.lines(String)", g -> new AuditTrail(g.on()).lines(GuardedCalls.CASE));
        all.general(
                Permission.KEEP_STORE,
                "CheckWorkspace.run(boolean,AuditHead,Progress)",
                g -> new CheckWorkspace(g.on()).run(false, null, Progress.NONE));
        all.general(
                Permission.KEEP_STORE,
                "CheckWorkspace.acceptTrail()",
                g -> GuardedCalls.done(new CheckWorkspace(g.on())::acceptTrail));
        all.ofCase(Permission.SEE_MARKS, "VerifyRatings.ofCase(String,boolean,Progress)", g -> {
            g.signed("A7", 0, 3);
            return new VerifyRatings(g.on()).ofCase(GuardedCalls.CASE, true, Progress.NONE);
        });
        backups(all);
    }

    private static KeepBackups backups(GuardedCalls.Given g) {
        return new KeepBackups(g.on(), Clock.systemUTC());
    }

    private static void backups(GuardedCalls all) {
        all.general(Permission.KEEP_STORE, "KeepBackups.list()", g -> backups(g).list());
        all.general(
                Permission.KEEP_STORE,
                "KeepBackups.now(Progress)",
                g -> backups(g).now(Progress.NONE));
        all.general(
                Permission.KEEP_STORE,
                "KeepBackups.archive(Path,Progress)",
                g -> GuardedCalls.done(() -> backups(g).archive(g.fresh(".zip"), Progress.NONE)));
    }
}
