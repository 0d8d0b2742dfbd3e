package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.Exemplar;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Quantiles;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.describe.PercentileRank;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.PublishedDurations;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;

/**
 * What the times of a case can be held against while it is reviewed: the unit's exemplars, the trainee's own earlier cases,
 * and published figures. For orientation, never a verdict; a reference says how many cases it rests on.
 */
public final class ReferenceTimes {

    private static final double LEVEL = 0.95;

    /** From how many cases on quartiles are told; below, the range (a choice of ours: they are between neighbours then). */
    private static final int FEW = 5;

    /** The newest earlier cases count: older ones say little of the present. */
    private static final int MOST_EARLIER = 30;

    private final Workspace workspace;
    private final Vocabularies vocabularies;
    private final LatePublished published = new LatePublished();

    public ReferenceTimes(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /** Where the cases of a reference come from. */
    public enum Kind {
        EXEMPLARS,
        EARLIER
    }

    /** Something to hold times against. Names are ids of phases, with their steps added up, and of steps as tagged. */
    public sealed interface Reference {

        /** Stable, to be remembered. */
        String id();

        /** Cases or operations behind it. */
        int n();

        /** What is usual for a phase or step; {@code null} if the reference has no spread of it. */
        @Nullable
        Usual usual(String term);

        /**
         * @param us active time, microseconds
         * @return {@code null} if the reference does not have this phase or step, or no spread of it
         */
        @Nullable
        Standing standing(String term, long us);
    }

    /**
     * Microseconds, in order.
     *
     * @param quartiles true if low and high are the quartiles, false if they are the least and the greatest of few
     */
    public record Usual(long lowUs, long middleUs, long highUs, boolean quartiles, int n) {}

    /**
     * @param n with how many it is compared
     * @param shorter how many of them took less long; -1 where only percentiles were published
     * @param share of them that took less long, with limits; {@code null} where only percentiles were published
     * @param place between which published percentiles; {@code null} where the cases themselves are known
     */
    public record Standing(int n, int shorter, @Nullable Estimate share, PublishedDurations.@Nullable Place place) {}

    /** Cases of this workspace; {@code times} holds sure active times in microseconds, each case once. */
    public record Own(Kind kind, int n, Map<String, List<Long>> times) implements Reference {

        public Own {
            times = Map.copyOf(times);
        }

        @Override
        public String id() {
            return kind.name();
        }

        private double[] sorted(String term) {
            return times.getOrDefault(term, List.of()).stream()
                    .mapToDouble(Long::doubleValue)
                    .sorted()
                    .toArray();
        }

        @Override
        public @Nullable Usual usual(String term) {
            double[] all = sorted(term);
            if (all.length == 0) {
                return null;
            }
            boolean quartiles = all.length >= FEW;
            return new Usual(
                    Math.round(Quantiles.type7Sorted(all, quartiles ? 0.25 : 0)),
                    Math.round(Quantiles.type7Sorted(all, 0.5)),
                    Math.round(Quantiles.type7Sorted(all, quartiles ? 0.75 : 1)),
                    quartiles,
                    all.length);
        }

        @Override
        public @Nullable Standing standing(String term, long us) {
            double[] all = sorted(term);
            if (!(PercentileRank.of((double) us, all, BinomialLimits.WILSON, LEVEL)
                    instanceof Outcome.Found<Estimate> rank)) {
                return null;
            }
            int shorter = 0;
            for (double other : all) {
                shorter += other < us ? 1 : 0;
            }
            return new Standing(all.length, shorter, rank.value(), null);
        }
    }

    /**
     * Published figures.
     *
     * @param note what holds for all published ones
     */
    public record Published(PublishedDurations.Group group, String note) implements Reference {

        @Override
        public String id() {
            return group.id();
        }

        @Override
        public int n() {
            return group.n();
        }

        private PublishedDurations.@Nullable Spread spread(String term) {
            return group.row(term).map(PublishedDurations.Row::spread).orElse(null);
        }

        @Override
        public @Nullable Usual usual(String term) {
            PublishedDurations.Spread spread = spread(term);
            return spread == null
                    ? null
                    : new Usual(us(spread.q1()), us(spread.median()), us(spread.q3()), true, group.n());
        }

        private static long us(double seconds) {
            return Math.round(seconds * 1e6);
        }

        @Override
        public @Nullable Standing standing(String term, long us) {
            PublishedDurations.Spread spread = spread(term);
            return spread == null ? null : new Standing(group.n(), -1, null, spread.placeOf(us / 1e6));
        }
    }

    /**
     * What there is for a case: exemplars and earlier cases only where they are tagged, this case never among them.
     *
     * @param preferred whose tags of an earlier case are taken where there are some; {@code null} for nobody's
     * @throws org.sideport.model.InputException if there is no such case or it may not be seen
     */
    public List<Reference> of(String caseCode, @Nullable String preferred) {
        Access.require(workspace, Permission.SEE_CASE, caseCode);
        record Raw(SurgicalCase surgicalCase, Tagging tagging, List<Cut> cuts) {}
        record Found(SurgicalCase of, List<Raw> exemplars, List<Raw> earlier) {}
        Found found = workspace.read(stores -> {
            SurgicalCase of = stores.cases().get(caseCode);
            List<Raw> exemplars = new ArrayList<>();
            for (Exemplar one : ProgressReading.exemplarsThatCount(stores, of.procedure())) {
                if (!one.caseCode().equals(of.code())) {
                    tagging(stores, one.caseCode(), one.annotator())
                            .ifPresent(tagging -> exemplars.add(new Raw(
                                    stores.cases().get(one.caseCode()),
                                    tagging,
                                    stores.cuts().of(one.caseCode()))));
                }
            }
            List<Raw> earlier = new ArrayList<>();
            for (SurgicalCase one : earlier(stores, of)) {
                if (earlier.size() == MOST_EARLIER) {
                    break;
                }
                List<String> annotators = WhichTagging.all(stores, one.code());
                if (!annotators.isEmpty()) {
                    String who = WhichTagging.of(stores, one.code(), null, preferred);
                    tagging(stores, one.code(), who)
                            .ifPresent(tagging -> earlier.add(
                                    new Raw(one, tagging, stores.cuts().of(one.code()))));
                }
            }
            return new Found(of, exemplars, earlier);
        });
        Procedure procedure = vocabularies.procedure(found.of().procedure());
        List<Reference> all = new ArrayList<>();
        for (Kind kind : Kind.values()) {
            List<Raw> cases = kind == Kind.EXEMPLARS ? found.exemplars() : found.earlier();
            Map<String, List<Long>> times = new LinkedHashMap<>();
            for (Raw one : cases) {
                Recording recording = one.surgicalCase().recording();
                times(procedure, one.tagging(), recording == null ? null : recording.duration(), one.cuts())
                        .forEach((term, timing) -> {
                            Long us = timing.sureActiveUs();
                            if (us != null) {
                                times.computeIfAbsent(term, t -> new ArrayList<>())
                                        .add(us);
                            }
                        });
            }
            if (!times.isEmpty()) {
                all.add(new Own(kind, cases.size(), times));
            }
        }
        published.get().groups().stream()
                .filter(group -> group.procedure().equals(procedure.id()))
                .forEach(group -> all.add(new Published(group, published.get().note())));
        return all;
    }

    private static Optional<Tagging> tagging(Stores stores, String caseCode, String annotator) {
        return stores.taggings().find(caseCode, annotator);
    }

    /** The same trainee's cases of the procedure before this one, newest first. */
    private static List<SurgicalCase> earlier(Stores stores, SurgicalCase of) {
        Comparator<SurgicalCase> order =
                Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code);
        return CountedCases.forAssessment(stores, stores.cases().all()).cases().stream()
                .filter(one -> one.trainee().equals(of.trainee())
                        && one.procedure().equals(of.procedure())
                        && order.compare(one, of) < 0)
                .sorted(order.reversed())
                .toList();
    }

    /**
     * The times of every phase, its steps added up, and of every step, by id, in the order of tagging.
     *
     * @param end where an open last span ends; {@code null} if unknown
     */
    public static Map<String, PhaseTiming> times(
            Procedure procedure, Tagging tagging, @Nullable MediaTime end, List<Cut> cuts) {
        Map<String, PhaseTiming> times = new LinkedHashMap<>();
        for (Level level : Level.values()) {
            ComputeTimings.timer(procedure, level)
                    .time("", "", tagging, end, cuts)
                    .phases()
                    .forEach(timing -> times.putIfAbsent(timing.phase(), timing));
        }
        return times;
    }
}
