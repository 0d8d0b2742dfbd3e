package org.sideport.workflow;

import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/**
 * Corrects signed marks item by item: a draft with the same marks stands beside them until it is signed, and replaces them
 * then; see {@link MarkCase#amend} for a whole corrected rating at once.
 */
public final class AmendMark {

    private final Workspace workspace;

    public AmendMark(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * Begins an amendment, which {@link MarkCase#open} opens from then on.
     *
     * @param reason why the marks change
     * @throws InputException if nothing is signed, an amendment is begun already, or no reason is given
     */
    public void begin(String caseCode, String rubric, String assessorCode, boolean self, String reason) {
        String assessor = Codes.require("an assessor", assessorCode);
        requireReason(reason);
        workspace.change(stores -> {
            MarkCase.requireMay(stores, caseCode, assessor, self);
            StoredRating signed = stores.ratings()
                    .find(caseCode, rubric, assessor, self, RatingState.SIGNED)
                    .orElseThrow(() -> new InputException(
                            assessor + " has signed no rating of " + caseCode, null, "mark and sign the case first"));
            requireNoDraft(stores, caseCode, signed);
            MarkCase.requireConsent(stores, stores.cases().get(caseCode));
            stores.ratings().addDraft(caseCode, signed.rating(), signed.id(), reason.strip());
        });
    }

    static void requireReason(String reason) {
        if (reason.isBlank()) {
            throw new InputException("an amendment needs a reason", null, "say why the marks change");
        }
    }

    static void requireNoDraft(Stores stores, String caseCode, StoredRating signed) {
        var by = signed.rating();
        if (stores.ratings()
                .find(caseCode, by.rubric(), by.assessor(), by.self(), RatingState.DRAFT)
                .isPresent()) {
            throw new InputException(
                    by.assessor() + " is amending the rating of " + caseCode + " already",
                    null,
                    "open it on the marking screen: sign it there, or give the amendment up");
        }
    }

    /**
     * Gives an amendment up: what was signed stays as it is.
     *
     * @throws InputException if none was begun
     */
    public void giveUp(String caseCode, String rubric, String assessorCode, boolean self) {
        String assessor = Codes.require("an assessor", assessorCode);
        workspace.change(stores -> {
            MarkCase.requireMay(stores, caseCode, assessor, self);
            StoredRating draft = stores.ratings()
                    .find(caseCode, rubric, assessor, self, RatingState.DRAFT)
                    .filter(found -> found.amends() != null)
                    .orElseThrow(() -> new InputException(
                            assessor + " is amending no rating of " + caseCode, null, "open the case again"));
            stores.ratings().deleteDraft(draft.id());
            stores.audit().add("rating.give_up", caseCode, "", assessor + " " + rubric);
        });
    }
}
