package org.sideport.workflow;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.Set;
import org.sideport.model.Consent;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CaseKeeping;
import org.sideport.workflow.consent.DeleteCase;
import org.sideport.workflow.consent.DeletionPlan;

/** How long cases are kept, and deleting them. */
final class GuardedConsentCalls {

    private static final LocalDate TODAY = LocalDate.of(2026, 7, 1);
    private static final Instant NOW = Instant.parse("2026-07-01T12:00:00Z");

    private GuardedConsentCalls() {}

    static void add(GuardedCalls all) {
        keeping(all);
        deleting(all);
    }

    private static CaseKeeping keeping(GuardedCalls.Given g) {
        return new CaseKeeping(g.on());
    }

    private static void keeping(GuardedCalls all) {
        all.general(
                Permission.DELETE_CASE,
                "CaseKeeping.overview(LocalDate)",
                g -> keeping(g).overview(TODAY));
        all.general(
                Permission.DELETE_CASE, "CaseKeeping.rules()", g -> keeping(g).rules());
        all.general(
                Permission.DELETE_CASE,
                "CaseKeeping.decide(ConsentSituation,ConsentRuling)",
                g -> GuardedCalls.done(() -> keeping(g).decide(ConsentSituation.UNKNOWN, ConsentRuling.REFUSE)));
        all.generalUnderCode(
                Permission.DELETE_CASE,
                "CaseKeeping.extend(String,LocalDate,String,Instant,LocalDate)",
                g -> GuardedCalls.done(
                        () -> keeping(g).extend(GuardedCalls.CASE, TODAY.plusDays(30), g.code(), NOW, TODAY)));
        all.generalUnderCode(
                Permission.DELETE_CASE,
                "CaseKeeping.done(String,String,Instant)",
                g -> GuardedCalls.done(() -> keeping(g).done(GuardedCalls.CASE, g.code(), NOW)));
        all.generalUnderCode(Permission.DELETE_CASE, "CaseKeeping.takeBack(String,String,Instant)", g -> {
            consent(g, ConsentState.WITHDRAWN);
            return GuardedCalls.done(() -> keeping(g).takeBack(GuardedCalls.CASE, g.code(), NOW));
        });
    }

    private static void consent(GuardedCalls.Given g, ConsentState state) {
        boolean there = g.anyones()
                .read(s -> s.cases().evenWithdrawn(GuardedCalls.CASE).consent().state() == state);
        if (!there) {
            Consent given = new Consent(state, Set.of(), "T03", TODAY);
            new EditCase(g.anyones())
                    .edit(GuardedCalls.CASE, new CaseEdit("A9", null, null, Map.of(), given, null, false), NOW);
        }
    }

    private static void deleting(GuardedCalls all) {
        all.general(Permission.DELETE_CASE, "DeleteCase.plan(String,LocalDate)", g -> {
            consent(g, ConsentState.REFUSED);
            return new DeleteCase(g.on()).plan(GuardedCalls.CASE, TODAY);
        });
        all.generalUnderCode(Permission.DELETE_CASE, "DeleteCase.delete(DeletionPlan,String,LocalDate)", g -> {
            consent(g, ConsentState.REFUSED);
            DeletionPlan plan = new DeleteCase(g.anyones()).plan(GuardedCalls.CASE, TODAY);
            return new DeleteCase(g.on()).delete(plan, g.code(), TODAY);
        });
        all.general(Permission.DELETE_CASE, "CaseThumbnails.forget(Recording)", g -> {
            var recording = java.util.Objects.requireNonNull(g.theCase().recording());
            return GuardedCalls.done(() -> new CaseThumbnails(g.on()).forget(recording));
        });
    }
}
