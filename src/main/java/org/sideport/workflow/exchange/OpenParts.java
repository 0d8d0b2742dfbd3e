package org.sideport.workflow.exchange;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.report.exchange.Annotated;
import org.sideport.store.Stores;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/** What goes out to other programs, after permission and consent were asked. */
final class OpenParts {

    private OpenParts() {}

    /**
     * The case, if it may go out for a purpose.
     *
     * @param warnings gets what must be said with it
     * @throws InputException if the caller may not, part of it is hidden from the caller, or consent and the unit's rules
     *     refuse it
     */
    static SurgicalCase require(Stores stores, String code, ConsentPurpose purpose, List<String> warnings) {
        Access.require(stores, Permission.EXPORT_CASE, code);
        SurgicalCase one = stores.cases().get(code);
        ExportCase.refuseWhatIsHidden(stores, one.code());
        String warning = ConsentGate.require(stores, one, purpose);
        if (warning != null) {
            warnings.add(warning);
        }
        return one;
    }

    /**
     * Tags and comments of the case.
     *
     * @param annotator whose tags; {@code null} where one or nobody has tagged
     * @throws InputException if several tagged and none is named, or the one named has not
     */
    static Annotated annotated(Stores stores, SurgicalCase one, Procedure procedure, @Nullable String annotator) {
        String code = one.code();
        List<String> annotators = stores.taggings().annotators(code);
        if (annotator == null && annotators.size() > 1) {
            throw new InputException(
                    "several have tagged case " + code,
                    null,
                    "name one with --annotator: " + String.join(", ", annotators));
        }
        if (annotator != null && !annotators.contains(annotator)) {
            throw new InputException(
                    annotator + " has not tagged case " + code,
                    null,
                    annotators.isEmpty() ? "tag it first" : "tagged by: " + String.join(", ", annotators));
        }
        String who = annotator != null ? annotator : annotators.isEmpty() ? "" : annotators.get(0);
        return new Annotated(
                code,
                who,
                procedure,
                who.isEmpty()
                        ? Tagging.EMPTY
                        : stores.taggings().find(code, who).orElse(Tagging.EMPTY),
                who.isEmpty() ? Set.of() : stores.taggings().confirmed(code, who),
                stores.comments().threads(code, ""),
                one.recording(),
                one.hides(Hidden.FILE_NAMES));
    }
}
