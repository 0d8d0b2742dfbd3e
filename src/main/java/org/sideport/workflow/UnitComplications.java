package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.stats.Interval;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.monitoring.FunnelLimits;
import org.sideport.store.CaseReach;
import org.sideport.store.Workspace;
import org.sideport.workflow.ComplicationsView.OfTrainee;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/**
 * Complications of a unit by trainee: shares in a funnel, and case by case where a log is stated to be complete. What counts
 * is fixed beforehand ({@link ProgressWatch}). A case nobody tagged has no known outcome and does not count.
 */
public final class UnitComplications {

    /** Counts below are hidden in what is shared; common practice, no source. */
    public static final int USUAL_FEWEST = 5;

    private final Workspace workspace;
    private final Vocabularies vocabularies;

    public UnitComplications(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * @param complete trainees of whom whoever asks states that every operation is here, in turn
     * @param fewest counts below are hidden; 0 to hide none
     */
    public record Question(String procedure, Set<String> complete, int fewest) {
        public Question {
            complete = Set.copyOf(complete);
            if (fewest < 0) {
                throw new InputException("counts below " + fewest, null, "write 0 to hide none, or such as 5");
            }
        }
    }

    /**
     * @throws InputException if there is no such procedure
     */
    public ComplicationsView show(Question asked) {
        Access.require(workspace, Permission.SEE_COHORT);
        Procedure procedure = vocabularies.procedure(asked.procedure());
        record Read(
                Map<String, List<SurgicalCase>> byTrainee,
                Map<String, Map<String, Tagging>> tags,
                CountedCases counted) {}
        Read read = workspace.read(stores -> {
            CountedCases counted =
                    CountedCases.forAssessment(stores, stores.cases().bare());
            Map<String, List<SurgicalCase>> byTrainee = new TreeMap<>();
            counted.cases().stream()
                    .filter(c ->
                            c.procedure().equals(procedure.id()) && !c.hides(Hidden.TRAINEE) && !c.hides(Hidden.DATE))
                    .sorted(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code))
                    .forEach(c -> byTrainee
                            .computeIfAbsent(c.trainee(), t -> new ArrayList<>())
                            .add(c));
            return new Read(byTrainee, stores.taggings().byCase(CaseReach.ALL), counted);
        });
        List<String> kinds = ProgressWatch.kinds(procedure);
        List<OfTrainee> rows = new ArrayList<>();
        for (Map.Entry<String, List<SurgicalCase>> of : read.byTrainee().entrySet()) {
            List<OneCase> numbered = new ArrayList<>();
            Map<String, Collection<Tagging>> taggings = new HashMap<>();
            for (SurgicalCase one : of.getValue()) {
                numbered.add(new OneCase(numbered.size() + 1, one.code(), one.date(), CaseMix.of(Map.of())));
                taggings.put(
                        one.code(),
                        read.tags().getOrDefault(one.code(), Map.of()).values());
            }
            boolean complete = asked.complete().contains(of.getKey());
            int without = ofTrainee(read.counted(), procedure, of.getKey()).cases();
            rows.add(row(procedure, kinds, of.getKey(), numbered, taggings, complete, without));
        }
        return limited(procedure, kinds, rows, asked.fewest(), read.counted().leftOut(procedure.id()));
    }

    /** How many cases of one trainee do not count. */
    static LeftOut ofTrainee(CountedCases counted, Procedure procedure, String trainee) {
        return counted.leftOut(
                c -> c.procedure().equals(procedure.id()) && c.trainee().equals(trainee));
    }

    /**
     * What is counted of one trainee, without the unit's limits.
     *
     * @param kinds of events that count
     * @param taggings everybody's, by case code
     * @param complete whether somebody states that every operation is here
     * @param leftOut how many of the trainee's cases do not count
     */
    static OfTrainee row(
            Procedure procedure,
            List<String> kinds,
            String trainee,
            List<OneCase> numbered,
            Map<String, Collection<Tagging>> taggings,
            boolean complete,
            int leftOut) {
        int known = 0;
        int failures = 0;
        for (OneCase one : numbered) {
            Collection<Tagging> of = taggings.getOrDefault(one.code(), List.of());
            known += of.isEmpty() ? 0 : 1;
            failures += ProgressWatch.failed(of, kinds) ? 1 : 0;
        }
        return new OfTrainee(
                trainee,
                numbered.size(),
                known,
                failures,
                null,
                null,
                false,
                numbered,
                ProgressWatch.of(procedure, numbered, taggings, complete, false, leftOut));
    }

    /**
     * The rows of a whole unit within its limits.
     *
     * @param fewest counts below are hidden; 0 to hide none
     */
    static ComplicationsView limited(
            Procedure procedure, List<String> kinds, List<OfTrainee> rows, int fewest, LeftOut leftOut) {
        int known = rows.stream().mapToInt(OfTrainee::known).sum();
        int failures = rows.stream().mapToInt(OfTrainee::failures).sum();
        boolean hidden = failures > 0 && failures < fewest;
        Double rate = known == 0 || hidden ? null : (Double) ((double) failures / known);
        boolean inside = rate != null && rate > 0 && rate < 1;
        Set<String> masked = masked(rows, fewest);
        List<OfTrainee> all = new ArrayList<>();
        for (OfTrainee row : rows) {
            OfTrainee with = inside && rate != null && row.known() > 0
                    ? row.within(
                            FunnelLimits.at(rate, row.known(), ComplicationsView.INNER),
                            FunnelLimits.at(rate, row.known(), ComplicationsView.OUTER))
                    : row;
            all.add(hidden || masked.contains(row.trainee()) ? with.hidden() : with);
        }
        return new ComplicationsView(
                procedure,
                kinds,
                rows.stream().mapToInt(OfTrainee::cases).sum(),
                known,
                hidden ? 0 : failures,
                rate,
                known == 0 || hidden
                        ? null
                        : new Interval(
                                BinomialLimits.CLOPPER_PEARSON.lower(failures, known, ComplicationsView.INNER),
                                BinomialLimits.CLOPPER_PEARSON.upper(failures, known, ComplicationsView.INNER),
                                ComplicationsView.INNER),
                fewest,
                hidden,
                all,
                leftOut);
    }

    /** Where one alone is hidden the total would give it away, so the next smallest is hidden with it. */
    private static Set<String> masked(List<OfTrainee> rows, int fewest) {
        Set<String> masked = new java.util.TreeSet<>();
        rows.stream()
                .filter(r -> (r.failures() > 0 && r.failures() < fewest) || (r.known() > 0 && r.known() < fewest))
                .forEach(r -> masked.add(r.trainee()));
        if (masked.size() == 1) {
            rows.stream()
                    .filter(r -> r.known() > 0 && !masked.contains(r.trainee()))
                    .min(Comparator.comparingInt(OfTrainee::failures).thenComparing(OfTrainee::trainee))
                    .ifPresent(r -> masked.add(r.trainee()));
        }
        return masked;
    }
}
