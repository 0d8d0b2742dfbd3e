package org.sideport.workflow.consent;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.model.Deletion;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Looks after consent and after how long cases are kept. */
public final class CaseKeeping {

    private final Workspace workspace;

    public CaseKeeping(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * All that a director looks at here, as of one moment.
     *
     * @param due cases to be looked at again by now, longest overdue first
     * @param withdrawn cases hidden everywhere else, which wait to be deleted
     * @param log what was deleted, newest first
     */
    public record Overview(
            List<SurgicalCase> due,
            List<SurgicalCase> withdrawn,
            List<Deletion> log,
            Map<ConsentSituation, ConsentRuling> rules) {

        public Overview {
            due = List.copyOf(due);
            withdrawn = List.copyOf(withdrawn);
            log = List.copyOf(log);
            rules = Map.copyOf(rules);
        }
    }

    /**
     * @throws InputException if the caller may not delete cases
     */
    public Overview overview(LocalDate today) {
        Access.require(workspace, Permission.DELETE_CASE);
        return workspace.read(stores -> new Overview(
                stores.cases().reviewDue(today),
                stores.cases().withdrawn(),
                stores.deletions().log(),
                stores.consents().rules()));
    }

    /** The unit's rules, as they hold. */
    public Map<ConsentSituation, ConsentRuling> rules() {
        Access.require(workspace, Permission.DELETE_CASE);
        return workspace.read(stores -> stores.consents().rules());
    }

    /** Decides what a situation leads to from now on, in the whole unit. */
    public void decide(ConsentSituation situation, ConsentRuling ruling) {
        Access.require(workspace, Permission.DELETE_CASE);
        workspace.change(stores -> {
            ConsentRuling before = stores.consents().rules().getOrDefault(situation, situation.usual());
            if (before != ruling) {
                stores.consents().rule(situation, ruling);
                stores.audit().add("consent.rule", situation.id(), before.id(), ruling.id());
            }
        });
    }

    /**
     * Keeps a case until another day.
     *
     * @throws InputException if that day is not after today
     */
    public void extend(String code, LocalDate until, String by, Instant now, LocalDate today) {
        Access.require(workspace, Permission.DELETE_CASE);
        if (!until.isAfter(today)) {
            throw new InputException(
                    until + " is not in the future",
                    null,
                    "choose a later day, or delete the case if it is not needed");
        }
        change(code, by, now, "case.keep", c -> with(c, c.consent(), until));
    }

    /** Notes that a case was looked at and may stay without a further day. */
    public void done(String code, String by, Instant now) {
        change(code, by, now, "case.keep", c -> with(c, c.consent(), null));
    }

    /**
     * Takes back a withdrawal that was recorded by mistake; the case is there again with its consent unknown.
     *
     * @throws InputException if the case is not withdrawn
     */
    public void takeBack(String code, String by, Instant now) {
        change(code, by, now, "consent.take_back", c -> {
            if (c.consent().state() != ConsentState.WITHDRAWN) {
                throw new InputException(
                        "consent to case " + c.code() + " was not withdrawn", null, "there is nothing to take back");
            }
            return with(c, Consent.UNKNOWN, c.reviewBy());
        });
    }

    private interface Edit {
        SurgicalCase of(SurgicalCase before);
    }

    private void change(String code, String givenBy, Instant now, String deed, Edit edit) {
        String by = Codes.require("the person who decides", givenBy);
        Access.require(workspace, Permission.DELETE_CASE);
        Access.requireOwn(workspace.caller(), by);
        workspace.change(stores -> {
            SurgicalCase before = stores.cases().evenWithdrawn(code);
            SurgicalCase after = edit.of(before);
            if (!before.consent().equals(after.consent())) {
                note(stores, before, after, now, by, "consent", deed);
            } else {
                note(stores, before, after, now, by, "review_by", deed);
            }
        });
    }

    private static void note(
            Stores stores, SurgicalCase before, SurgicalCase after, Instant now, String by, String field, String deed) {
        String was = field.equals("consent") ? before.consent().text() : text(before.reviewBy());
        String is = field.equals("consent") ? after.consent().text() : text(after.reviewBy());
        stores.cases().update(after, List.of(new CaseChange(now, by, field, was, is)));
        stores.audit().add(deed, before.code(), was, is);
    }

    private static String text(@Nullable LocalDate day) {
        return day == null ? "" : day.toString();
    }

    private static SurgicalCase with(SurgicalCase c, Consent consent, @Nullable LocalDate reviewBy) {
        return new SurgicalCase(
                c.code(), c.trainee(), c.date(), c.procedure(), c.descriptors(), c.recording(), consent, reviewBy);
    }
}
