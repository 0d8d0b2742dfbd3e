package org.sideport.workflow;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Changes the sheet of a case and keeps what it was, who changed it and when. */
public final class EditCase {

    private final Workspace workspace;

    public EditCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * The case as it is now and how it came to be so.
     *
     * @param changes oldest first
     */
    public record Sheet(SurgicalCase surgicalCase, Procedure procedure, List<CaseChange> changes) {

        public Sheet {
            changes = List.copyOf(changes);
        }
    }

    /**
     * @throws InputException if there is no such case, or its procedure file is gone
     */
    public Sheet open(String code) {
        record Raw(SurgicalCase found, List<CaseChange> changes) {}
        Raw raw = workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, code);
            return new Raw(stores.cases().get(code), stores.cases().history(code));
        });
        return new Sheet(
                raw.found(), new Vocabularies(workspace).procedure(raw.found().procedure()), raw.changes());
    }

    /**
     * Changes all of it or nothing. A case whose consent is withdrawn is not to be seen from then on; a director deletes it
     * or takes the withdrawal back ({@link org.sideport.workflow.consent.CaseKeeping}).
     *
     * @return what was changed; empty if all was so already
     * @throws InputException if a value is not allowed, the consent does not say enough, or marks hold the trainee fast
     */
    public List<CaseChange> edit(String code, CaseEdit edit, Instant now) {
        String by = Codes.require("the person who changes it", edit.by());
        Access.requireOwn(workspace.caller(), by);
        Vocabularies vocabularies = new Vocabularies(workspace);
        return workspace.write(stores -> {
            Access.require(stores, Permission.EDIT_CASE, code);
            SurgicalCase before = stores.cases().get(code);
            if (edit.consent() != null) {
                Access.require(stores, Permission.RECORD_CONSENT, code);
            }
            SurgicalCase after = changed(before, edit, vocabularies.procedure(before.procedure()));
            requireTraineeFree(stores, before, after);
            if (!before.consent().equals(after.consent())) {
                Access.require(stores, Permission.RECORD_CONSENT, code);
            }
            List<CaseChange> changes = changes(before, after, by, now);
            if (!changes.isEmpty()) {
                stores.cases().update(after, changes);
                noteConsent(stores, before, after);
                if (after.consent().state() != ConsentState.WITHDRAWN) {
                    // nobody gives a case to another trainee whose case they may not edit
                    Access.require(stores, Permission.EDIT_CASE, code);
                }
            }
            return changes;
        });
    }

    private static void noteConsent(Stores stores, SurgicalCase before, SurgicalCase after) {
        if (!before.consent().equals(after.consent())) {
            stores.audit()
                    .add(
                            "case.consent",
                            before.code(),
                            before.consent().text(),
                            after.consent().text());
        }
    }

    private static SurgicalCase changed(SurgicalCase before, CaseEdit edit, Procedure procedure) {
        Map<String, String> descriptors = new LinkedHashMap<>(before.descriptors());
        Map<String, String> differing = new LinkedHashMap<>(edit.descriptors());
        // what another version of the procedure file allowed may stay as it is
        differing
                .entrySet()
                .removeIf(e -> e.getValue().strip().equals(before.descriptors().get(e.getKey())));
        Map<String, String> checked = Descriptors.check(procedure, differing);
        descriptors.keySet().removeAll(differing.keySet());
        descriptors.putAll(checked);
        String trainee = edit.trainee();
        LocalDate date = edit.date();
        LocalDate reviewBy = edit.reviewBy();
        return new SurgicalCase(
                before.code(),
                trainee == null ? before.trainee() : Codes.require("a trainee", trainee),
                date == null ? before.date() : date,
                before.procedure(),
                descriptors,
                before.recording(),
                consent(before, edit.consent()),
                edit.dropsReview() ? null : reviewBy == null ? before.reviewBy() : reviewBy);
    }

    private static Consent consent(SurgicalCase before, @Nullable Consent wanted) {
        if (wanted == null) {
            return before.consent();
        }
        if (!wanted.recordedBy().isEmpty()) {
            Codes.require("the person who recorded the consent", wanted.recordedBy());
        }
        return wanted;
    }

    private static void requireTraineeFree(Stores stores, SurgicalCase before, SurgicalCase after) {
        if (!before.trainee().equals(after.trainee())
                && !stores.ratings().ofCase(before.code()).isEmpty()) {
            throw new InputException(
                    "the trainee of " + before.code() + " cannot change: there are marks already",
                    null,
                    "add the case anew with the right trainee");
        }
    }

    private static List<CaseChange> changes(SurgicalCase before, SurgicalCase after, String by, Instant now) {
        List<CaseChange> changes = new ArrayList<>();
        Map<String, String[]> fields = new LinkedHashMap<>();
        fields.put("trainee", new String[] {before.trainee(), after.trainee()});
        fields.put("date", new String[] {before.date().toString(), after.date().toString()});
        fields.put(
                "consent",
                new String[] {before.consent().text(), after.consent().text()});
        fields.put(
                "review_by",
                new String[] {Objects.toString(before.reviewBy(), ""), Objects.toString(after.reviewBy(), "")});
        TreeSet<String> ids = new TreeSet<>(before.descriptors().keySet());
        ids.addAll(after.descriptors().keySet());
        for (String id : ids) {
            fields.put(id, new String[] {
                before.descriptors().getOrDefault(id, ""), after.descriptors().getOrDefault(id, "")
            });
        }
        fields.forEach((field, values) -> {
            if (!values[0].equals(values[1])) {
                changes.add(new CaseChange(now, by, field, values[0], values[1]));
            }
        });
        return changes;
    }
}
