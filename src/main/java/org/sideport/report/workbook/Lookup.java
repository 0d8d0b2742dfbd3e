package org.sideport.report.workbook;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;

/** Finds cases by code and the names of phases and events by case. */
final class Lookup {

    private final Map<String, SurgicalCase> cases = new HashMap<>();
    private final Map<String, Procedure> procedures = new HashMap<>();
    private final Map<String, Map<String, Procedure.Term>> terms = new HashMap<>();
    private final List<Procedure> inOrder;

    Lookup(WorkbookData data) {
        data.cases().forEach(c -> cases.put(c.code(), c));
        inOrder = data.procedures();
        for (Procedure procedure : inOrder) {
            procedures.put(procedure.id(), procedure);
            Map<String, Procedure.Term> byId = new HashMap<>();
            procedure.terms().forEach(t -> byId.put(t.id(), t));
            terms.put(procedure.id(), byId);
        }
    }

    @Nullable
    SurgicalCase find(String caseCode) {
        return cases.get(caseCode);
    }

    @Nullable
    String trainee(String caseCode) {
        SurgicalCase found = cases.get(caseCode);
        return found == null ? null : found.trainee();
    }

    @Nullable
    LocalDate date(String caseCode) {
        SurgicalCase found = cases.get(caseCode);
        return found == null ? null : found.date();
    }

    /** The phase or step of a case; a case that is not listed takes the first procedure that knows the id. */
    Procedure.@Nullable Term term(String caseCode, String id) {
        SurgicalCase found = cases.get(caseCode);
        return found == null
                ? term(id)
                : terms.getOrDefault(found.procedure(), Map.of()).get(id);
    }

    Procedure.@Nullable Term term(String id) {
        for (Procedure procedure : inOrder) {
            Procedure.Term term = terms.getOrDefault(procedure.id(), Map.of()).get(id);
            if (term != null) {
                return term;
            }
        }
        return null;
    }

    Procedure.@Nullable EventKind event(String caseCode, String kind) {
        SurgicalCase found = cases.get(caseCode);
        return inOrder.stream()
                .filter(p -> found == null || p.id().equals(found.procedure()))
                .flatMap(p -> p.events().stream())
                .filter(e -> e.id().equals(kind))
                .findFirst()
                .orElse(null);
    }

    Optional<Procedure> procedure(String id) {
        return Optional.ofNullable(procedures.get(id));
    }
}
