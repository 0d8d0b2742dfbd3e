package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.stats.Quantiles;
import org.sideport.store.CaseReach;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortTimesView.OfTrainee;
import org.sideport.workflow.CohortTimesView.Term;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/** What the phases of a procedure take the trainees of a cohort, each trainee counted once. */
public final class CohortTimes {

    /** From how many trainees on quartiles are told; below, the range (as for references). */
    private static final int FEW = 5;

    private final Workspace workspace;
    private final Vocabularies vocabularies;
    private final HeldTimes held = new HeldTimes();

    public CohortTimes(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * @param last how many of the latest cases of each trainee count, at least 1
     * @throws InputException if there is no such procedure
     */
    public CohortTimesView show(String procedureId, int last) {
        Access.require(workspace, Permission.SEE_COHORT);
        if (last < 1) {
            throw new InputException("the latest " + last + " cases", null, "write 1 or more");
        }
        Procedure procedure = vocabularies.procedure(procedureId);
        record Read(
                Map<String, List<Map<String, @Nullable Long>>> times,
                List<Map<String, @Nullable Long>> held,
                LeftOut leftOut) {}
        Read read = workspace.read(stores -> {
            CountedCases counted =
                    CountedCases.forAssessment(stores, stores.cases().all());
            return new Read(
                    times(stores, counted.cases(), procedure, last),
                    ProgressReading.exemplars(stores, procedure),
                    counted.leftOut(procedure.id()));
        });
        List<Term> terms = new ArrayList<>();
        terms.add(term(procedure.id(), ProgressView.WHOLE, "", false, read.times(), read.held()));
        for (Procedure.Term term : procedure.terms()) {
            if (!term.phase().idle()) {
                terms.add(term(procedure.id(), term.id(), term.name(), term.isStep(), read.times(), read.held()));
            }
        }
        return new CohortTimesView(
                procedure,
                last,
                terms.stream().filter(t -> !t.trainees().isEmpty()).toList(),
                read.leftOut());
    }

    private static Map<String, List<Map<String, @Nullable Long>>> times(
            Stores stores, List<SurgicalCase> counted, Procedure procedure, int last) {
        Map<String, Map<String, Tagging>> tags = stores.taggings().byCase(CaseReach.ALL);
        Map<String, List<Cut>> cuts = stores.cuts().all();
        Map<String, List<SurgicalCase>> byTrainee = new TreeMap<>();
        counted.stream()
                .filter(c -> c.procedure().equals(procedure.id())
                        && !c.hides(Hidden.TRAINEE)
                        && !c.hides(Hidden.DATE)
                        && tags.containsKey(c.code()))
                .sorted(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code))
                .forEach(c -> byTrainee
                        .computeIfAbsent(c.trainee(), t -> new ArrayList<>())
                        .add(c));
        Map<String, List<Map<String, @Nullable Long>>> times = new LinkedHashMap<>();
        byTrainee.forEach((trainee, own) -> {
            List<Map<String, @Nullable Long>> latest = new ArrayList<>();
            for (int i = own.size() - 1; i >= 0 && latest.size() < last; i--) {
                ProgressReading.tagged(own.get(i), i + 1, tags, cuts)
                        .ifPresent(tagged -> latest.add(ProgressTimes.of(procedure, tagged)));
            }
            times.put(trainee, latest);
        });
        return times;
    }

    private Term term(
            String procedure,
            String id,
            String name,
            boolean step,
            Map<String, List<Map<String, @Nullable Long>>> times,
            List<Map<String, @Nullable Long>> exemplars) {
        List<OfTrainee> trainees = new ArrayList<>();
        int cases = 0;
        for (Map.Entry<String, List<Map<String, @Nullable Long>>> of : times.entrySet()) {
            double[] own = sorted(of.getValue(), id);
            if (own.length > 0) {
                cases += own.length;
                trainees.add(new OfTrainee(of.getKey(), own.length, Quantiles.type7Sorted(own, 0.5)));
            }
        }
        double[] medians =
                trainees.stream().mapToDouble(OfTrainee::medianUs).sorted().toArray();
        boolean quartiles = medians.length >= FEW;
        return new Term(
                id,
                name,
                step,
                cases,
                trainees,
                medians.length == 0 ? 0 : Quantiles.type7Sorted(medians, quartiles ? 0.25 : 0),
                medians.length == 0 ? 0 : Quantiles.type7Sorted(medians, 0.5),
                medians.length == 0 ? 0 : Quantiles.type7Sorted(medians, quartiles ? 0.75 : 1),
                quartiles,
                held.of(procedure, id, exemplars));
    }

    private static double[] sorted(List<Map<String, @Nullable Long>> cases, String id) {
        DoubleStream.Builder all = DoubleStream.builder();
        for (Map<String, @Nullable Long> one : cases) {
            Long us = one.get(id);
            if (us != null && us > 0) {
                all.add(us);
            }
        }
        return all.build().sorted().toArray();
    }
}
