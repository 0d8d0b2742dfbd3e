package org.sideport.workflow;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Hidden;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.store.CohortStore;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;

/** What a unit has still to do by one rubric, the most pressing first. */
public final class OutstandingWork {

    /** Kinds of work, the most pressing first. */
    public enum Kind {
        /** given to an assessor, and its day has passed */
        OVERDUE,
        /** marks begun and not signed */
        DRAFT,
        /** an assessor has signed, the trainee has not marked the own case */
        SELF_MARKS,
        /** no assessor has signed a mark */
        UNMARKED,
        /** nobody has tagged a phase */
        UNTAGGED;

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * @param who has to do it: an assessor or the trainee; empty for whoever is free
     * @param since the day that was due, of the last change, or of the operation
     */
    public record Item(Kind kind, String caseCode, String trainee, String who, LocalDate since) {}

    private final Workspace workspace;
    private final Clock clock;
    private final Vocabularies vocabularies;

    public OutstandingWork(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * All of it; cases of the rubric's procedure.
     *
     * @param version {@code null} for the rubric's version in use now
     * @throws org.sideport.model.InputException if there is no such rubric
     */
    public List<Item> of(String rubricId, @Nullable String version) {
        Access.require(workspace, Permission.SEE_COHORT);
        LocalDate today = LocalDate.now(clock);
        return workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            // what the caller marks blind is known here under its label only, and so left out
            Map<String, SurgicalCase> cases = new HashMap<>();
            // nobody may mark what does not count
            CountedCases.forAssessment(stores, stores.cases().bare()).cases().stream()
                    .filter(c -> c.procedure().equals(rubric.procedure()) && !c.hides(Hidden.TRAINEE))
                    .forEach(c -> cases.put(c.code(), c));
            return items(stores, rubric, cases, today);
        });
    }

    private static List<Item> items(Stores stores, Rubric rubric, Map<String, SurgicalCase> cases, LocalDate today) {
        CohortStore cohort = stores.cohort();
        List<Item> items = new ArrayList<>();
        for (CohortStore.OpenWork work : cohort.openWork()) {
            LocalDate due = work.dueOn();
            if (due != null && due.isBefore(today) && cases.containsKey(work.caseCode())) {
                items.add(new Item(Kind.OVERDUE, work.caseCode(), work.trainee(), work.assessor(), due));
            }
        }
        for (CohortStore.OpenDraft draft : cohort.drafts(rubric.id())) {
            if (cases.containsKey(draft.caseCode())) {
                items.add(new Item(Kind.DRAFT, draft.caseCode(), draft.trainee(), draft.assessor(), draft.changedOn()));
            }
        }
        add(items, Kind.SELF_MARKS, cohort.withoutOwnMarks(rubric.id()), cases);
        add(items, Kind.UNMARKED, cohort.unmarked(rubric.id()), cases);
        add(items, Kind.UNTAGGED, cohort.untagged(), cases);
        return List.copyOf(items);
    }

    private static void add(List<Item> items, Kind kind, List<String> codes, Map<String, SurgicalCase> cases) {
        for (String code : codes) {
            SurgicalCase one = cases.get(code);
            if (one != null) {
                items.add(
                        new Item(kind, code, one.trainee(), kind == Kind.SELF_MARKS ? one.trainee() : "", one.date()));
            }
        }
    }
}
