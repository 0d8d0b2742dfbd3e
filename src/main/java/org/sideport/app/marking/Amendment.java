package org.sideport.app.marking;

import java.util.function.BooleanSupplier;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.workflow.AmendMark;

/** Correcting what was signed: begun with a reason, marked as any draft, and signed or given up. */
public final class Amendment {

    private final OpenDraft draft;
    private final AmendMark job;
    private final BooleanSupplier mayMark;
    private final Runnable reopen;
    private final Background work;
    private final Notices notices;

    /** @param reopen shows what is to be marked now */
    Amendment(
            OpenDraft draft,
            AmendMark job,
            BooleanSupplier mayMark,
            Runnable reopen,
            Background work,
            Notices notices) {
        this.draft = draft;
        this.job = job;
        this.mayMark = mayMark;
        this.reopen = reopen;
        this.work = work;
        this.notices = notices;
    }

    /** True while signed marks are shown that may be amended. */
    boolean isOffered() {
        Marks now = draft.marks();
        return now != null && now.isSigned() && mayMark.getAsBoolean();
    }

    /** Why signed marks are being amended; empty while they are not. */
    String reason() {
        Marks now = draft.marks();
        return now == null || now.isSigned() ? "" : now.session().amendment();
    }

    /** Begins to correct what was signed, which stays until the correction is signed. */
    public void begin(String reason) {
        Marks now = draft.marks();
        if (now != null && now.isSigned()) {
            thenReopen(() -> job.begin(
                    now.session().caseCode(),
                    now.rating().rubric(),
                    now.rating().assessor(),
                    now.rating().self(),
                    reason));
        }
    }

    /** Throws the correction away: what was signed is shown again. The caller has asked. */
    public void giveUp() {
        Marks now = draft.marks();
        if (now != null && !reason().isEmpty()) {
            thenReopen(() -> job.giveUp(
                    now.session().caseCode(),
                    now.rating().rubric(),
                    now.rating().assessor(),
                    now.rating().self()));
        }
    }

    private void thenReopen(Runnable deed) {
        work.run(
                progress -> {
                    deed.run();
                    return true;
                },
                done -> reopen.run(),
                notices::failed);
    }
}
