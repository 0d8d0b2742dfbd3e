package org.sideport.workflow.consent;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;

/**
 * The one place that says which cases count in figures over several cases: on screens, in sheets and papers and on the
 * command line, those whose consent allows the purpose by the unit's rules ({@link ConsentGate}).
 */
public final class CountedCases {

    private final ConsentPurpose purpose;
    private final List<SurgicalCase> cases;
    private final List<SurgicalCase> others;
    private final Set<String> codes = new HashSet<>();

    private CountedCases(ConsentPurpose purpose, List<SurgicalCase> cases, List<SurgicalCase> others) {
        this.purpose = purpose;
        this.cases = List.copyOf(cases);
        this.others = List.copyOf(others);
        cases.forEach(c -> codes.add(c.code()));
    }

    /**
     * @param all as the caller may know them. Of those that are masked for marking blind the caller does not know the
     *     consent either; whoever gave them out has seen to it, so they count
     */
    public static CountedCases of(Stores stores, List<SurgicalCase> all, ConsentPurpose purpose) {
        Map<ConsentSituation, ConsentRuling> rules = stores.consents().rules();
        List<SurgicalCase> cases = new ArrayList<>();
        List<SurgicalCase> others = new ArrayList<>();
        for (SurgicalCase one : all) {
            boolean counts = !one.hidden().isEmpty() || ConsentGate.allows(rules, one, purpose);
            (counts ? cases : others).add(one);
        }
        return new CountedCases(purpose, cases, others);
    }

    /** For figures about trainees and assessors. */
    public static CountedCases forAssessment(Stores stores, List<SurgicalCase> all) {
        return of(stores, all, ConsentPurpose.ASSESSMENT);
    }

    /** Those that count, in the order they came in. */
    public List<SurgicalCase> cases() {
        return cases;
    }

    public boolean has(String caseCode) {
        return codes.contains(caseCode);
    }

    /** Those that do not. */
    public List<SurgicalCase> others() {
        return others;
    }

    /** How many of those that a figure would be about do not count. */
    public LeftOut leftOut(Predicate<SurgicalCase> about) {
        return new LeftOut((int) others.stream().filter(about).count(), purpose);
    }

    /** Of a procedure. */
    public LeftOut leftOut(String procedure) {
        return leftOut(c -> c.procedure().equals(procedure));
    }
}
