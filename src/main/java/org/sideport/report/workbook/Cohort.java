package org.sideport.report.workbook;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.report.workbook.Assessments.Scored;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.WorkbookData.CaseTagging;
import org.sideport.rubric.RubricRef;
import org.sideport.stats.Quantiles;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;

/** The sheet "Cohort": a row for each trainee. Every figure has its n beside it. */
final class Cohort {

    /** One trainee. Cases by date, then code. */
    record Trainee(
            String code,
            List<SurgicalCase> cases,
            List<Scored> ratings,
            List<CaseTagging> taggings,
            Map<String, List<CaseTiming>> timings) {

        List<Scored> counted() {
            return ratings.stream().filter(Scored::counts).toList();
        }

        /** The case's mean share over its counted ratings by one rubric, for the cases that have one, in order. */
        List<Double> shares(RubricRef rubric) {
            Map<String, List<Double>> byCase = new HashMap<>();
            for (Scored one : ratings) {
                Double share = one.score().share();
                if (share != null && one.counts() && one.rubric().equals(rubric)) {
                    byCase.computeIfAbsent(one.of().caseCode(), c -> new ArrayList<>())
                            .add(share);
                }
            }
            List<Double> shares = new ArrayList<>();
            for (SurgicalCase of : cases) {
                byCase.getOrDefault(of.code(), List.of()).stream()
                        .mapToDouble(Double::doubleValue)
                        .average()
                        .ifPresent(shares::add);
            }
            return shares;
        }
    }

    private final WorkbookData data;
    private final Lookup lookup;
    private final Assessments assessments;
    /** Numbers of the groups over all items, by rubric and trainee. */
    private final Map<String, Integer> groups = new HashMap<>();

    Cohort(WorkbookData data, Lookup lookup, Assessments assessments) {
        this.data = data;
        this.lookup = lookup;
        this.assessments = assessments;
        for (UnitFigures.Competency one : data.figures().competencies()) {
            UnitFigures.Group group = one.group();
            if (group.competency().equals(UnitFigures.WHOLE)) {
                groups.put(new RubricRef(group.rubric(), group.version()) + " " + group.trainee(), group.number());
            }
        }
    }

    Table<Trainee> table() {
        Tables<Trainee> tables = new Tables<>("store: cases and ratings, over cases");
        tables.add("Trainee", Kind.TEXT, "code of the trainee", Trainee::code)
                .add(
                        "Cases (n)",
                        Kind.COUNT,
                        "all cases of the trainee",
                        t -> t.cases().size())
                .formula("SUMPRODUCT(--EXACT(case_trainee,{Trainee}))")
                .restOn(t -> t.cases().size())
                .add("First case", Kind.DATE, "day of the first case", t -> date(t, 0))
                .add(
                        "Last case",
                        Kind.DATE,
                        "day of the last case",
                        t -> date(t, t.cases().size() - 1))
                .add(
                        "Cases assessed (n)",
                        Kind.COUNT,
                        "cases with at least one rating that counts: signed, complete, by an assessor",
                        t -> distinct(t.counted().stream().map(s -> s.of().caseCode())))
                .add(
                        "Ratings that count (n)",
                        Kind.COUNT,
                        "such ratings",
                        t -> t.counted().size())
                .add(
                        "Assessors (n)",
                        Kind.WHOLE,
                        "different people who gave them",
                        t -> distinct(
                                t.counted().stream().map(s -> s.of().rating().assessor())))
                .add(
                        "Drafts (n)",
                        Kind.COUNT,
                        "ratings by assessors that are not signed yet; they do not count",
                        t -> t.ratings().stream()
                                .filter(s -> s.of().state() == RatingState.DRAFT
                                        && !s.of().rating().self())
                                .count())
                .add(
                        "Signed but incomplete (n)",
                        Kind.COUNT,
                        "signed ratings by assessors with a missing item; they do not count",
                        t -> t.ratings().stream()
                                .filter(s -> s.of().state() == RatingState.SIGNED
                                        && !s.of().rating().self()
                                        && !s.score().complete())
                                .count())
                .add(
                        "Self-ratings (n)",
                        Kind.COUNT,
                        "signed ratings of own cases; they do not count",
                        t -> t.ratings().stream()
                                .filter(s -> s.of().state() == RatingState.SIGNED
                                        && s.of().rating().self())
                                .count());
        List<RubricRef> rubrics =
                assessments.rubrics().stream().map(RubricRef::of).toList();
        for (RubricRef rubric : rubrics) {
            shares(tables, rubric, rubrics.size() == 1 ? "" : ", " + rubric);
        }
        tables.restOn(Cohort::assessed)
                .add(
                        "Critical failures",
                        Kind.COUNT,
                        "marks below a critical minimum in ratings that count; blank without such a rating",
                        t -> t.counted().isEmpty()
                                ? null
                                : t.counted().stream()
                                        .mapToInt(s ->
                                                s.score().criticalFailures().size())
                                        .sum())
                .restOn(t -> t.cases().size())
                .add(
                        "Cases tagged (n)",
                        Kind.COUNT,
                        "cases in which somebody tagged phases or events",
                        t -> distinct(t.taggings().stream().map(CaseTagging::caseCode)))
                .restOn(t -> (int) distinct(t.taggings().stream().map(CaseTagging::caseCode)))
                .add(
                        "Cases with any complication",
                        Kind.COUNT,
                        "tagged cases with at least one event that is a complication of any kind; the sheet"
                                + " Complications counts only those listed there; blank without a tagged case",
                        t -> t.taggings().isEmpty() ? null : complications(t).size())
                .add(
                        "Complications of any kind",
                        Kind.COUNT,
                        "each kind counted once in a case, whoever tagged it; not adjusted for risk",
                        t -> t.taggings().isEmpty()
                                ? null
                                : complications(t).values().stream()
                                        .mapToInt(Set::size)
                                        .sum())
                .add(
                        "Styles of tagging",
                        Kind.TEXT,
                        "times of different styles must not be compared",
                        t -> t.timings().values().stream()
                                .flatMap(List::stream)
                                .map(c -> c.style().id())
                                .distinct()
                                .sorted()
                                .collect(Collectors.joining(", ")));
        addMedian(
                tables,
                "Operating time",
                "first tag's start to last tag's end",
                t -> median(t, CaseTiming::sureOperatingUs),
                t -> values(t, CaseTiming::sureOperatingUs).size());
        for (String phase : phases()) {
            Procedure.Term term = lookup.term(phase);
            addMedian(
                    tables,
                    term == null ? phase : term.name(),
                    "active time of " + phase,
                    t -> median(t, c -> sureActiveUs(c, phase)),
                    t -> values(t, c -> sureActiveUs(c, phase)).size());
        }
        return tables.summary(
                "Cohort",
                "One row for each trainee. A case with several ratings or taggers enters with their mean. No figure is"
                        + " adjusted for difficulty, and rows are in the order of their codes: this is no ranking.",
                trainees());
    }

    private void shares(Tables<Trainee> tables, RubricRef rubric, String suffix) {
        int recent = data.recentCases();
        tables.restOn(t -> t.shares(rubric).size())
                .add(
                        "Mean share, all cases" + suffix,
                        Kind.SHARE,
                        "mean over cases of the share by " + rubric + "; a case's share is the mean of its ratings that"
                                + " count",
                        t -> mean(t.shares(rubric)))
                .formula(t -> live("IF(COUNTIFS(cs_group,#)=0,\"\",AVERAGEIFS(cs_share,cs_group,#))", rubric, t))
                .bars()
                .add(
                        "Cases in it (n)" + suffix,
                        Kind.COUNT,
                        "cases in that mean",
                        t -> t.shares(rubric).size())
                .formula(t -> live("COUNTIFS(cs_group,#)", rubric, t))
                .add(
                        "Mean share, last " + recent + suffix,
                        Kind.SHARE,
                        "the same over the latest cases, at most " + recent + " of them",
                        t -> mean(last(t.shares(rubric), recent)))
                .add(
                        "Of these (n)" + suffix,
                        Kind.COUNT,
                        "cases in the mean of the latest",
                        t -> last(t.shares(rubric), recent).size())
                .add(
                        "Mean items marked" + suffix,
                        Kind.FACTOR,
                        "mean number of applicable items in these ratings; shares over few items compare badly",
                        t -> mean(t.counted().stream()
                                .filter(s -> s.rubric().equals(rubric))
                                .map(s -> (double) s.score().marked())
                                .toList()));
    }

    private static int assessed(Trainee trainee) {
        return (int) distinct(trainee.counted().stream().map(s -> s.of().caseCode()));
    }

    /** A formula over the trainee's rows of "Case shares"; none if there are none. */
    private @Nullable String live(String formula, RubricRef rubric, Trainee trainee) {
        Integer group = groups.get(rubric + " " + trainee.code());
        return group == null ? null : formula.replace("#", group.toString());
    }

    private static void addMedian(
            Tables<Trainee> tables,
            String name,
            String what,
            java.util.function.Function<Trainee, @Nullable Object> median,
            java.util.function.Function<Trainee, @Nullable Object> n) {
        tables.restOn(t -> n.apply(t) instanceof Number cases ? cases.intValue() : 0)
                .add(name + ", median", Kind.CLOCK, "median over cases, type 7, of: " + what + "; h:mm:ss", median)
                .add(name + " (n)", Kind.COUNT, "cases in that median", n);
    }

    List<Trainee> trainees() {
        Map<String, List<SurgicalCase>> byTrainee = data.cases().stream()
                .collect(Collectors.groupingBy(SurgicalCase::trainee, TreeMap::new, Collectors.toList()));
        Map<String, List<Scored>> ratings =
                assessments.scored().stream().collect(Collectors.groupingBy(s -> s.of().caseCode()));
        Map<String, List<CaseTagging>> taggings =
                data.taggings().stream().collect(Collectors.groupingBy(CaseTagging::caseCode));
        Map<String, List<CaseTiming>> timings =
                data.timings().stream().collect(Collectors.groupingBy(CaseTiming::caseCode));
        List<Trainee> trainees = new ArrayList<>();
        byTrainee.forEach((code, unsorted) -> {
            List<SurgicalCase> cases = unsorted.stream()
                    .sorted(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code))
                    .toList();
            Map<String, List<CaseTiming>> own = new HashMap<>();
            List<Scored> ownRatings = new ArrayList<>();
            List<CaseTagging> ownTaggings = new ArrayList<>();
            for (SurgicalCase of : cases) {
                ownRatings.addAll(ratings.getOrDefault(of.code(), List.of()));
                ownTaggings.addAll(taggings.getOrDefault(of.code(), List.of()));
                if (timings.containsKey(of.code())) {
                    own.put(of.code(), timings.getOrDefault(of.code(), List.of()));
                }
            }
            trainees.add(new Trainee(code, cases, ownRatings, ownTaggings, own));
        });
        return trainees;
    }

    /** Phases that have times, in the order of the procedures, steps left out; unknown ids last. */
    private List<String> phases() {
        Set<String> timed = new LinkedHashSet<>();
        data.timings().forEach(t -> t.phases().forEach(p -> timed.add(p.phase())));
        Set<String> phases = new LinkedHashSet<>();
        for (Procedure procedure : data.procedures()) {
            procedure.phases().stream()
                    .map(Procedure.Phase::id)
                    .filter(timed::contains)
                    .forEach(phases::add);
        }
        timed.stream().filter(p -> lookup.term(p) == null).forEach(phases::add);
        return List.copyOf(phases);
    }

    Map<String, Set<String>> complications(Trainee trainee) {
        Map<String, Set<String>> kinds = new HashMap<>();
        for (CaseTagging of : trainee.taggings()) {
            for (PointEvent event : of.tagging().events()) {
                Procedure.EventKind kind = lookup.event(of.caseCode(), event.kind());
                if (kind != null && kind.complication()) {
                    kinds.computeIfAbsent(of.caseCode(), c -> new TreeSet<>()).add(kind.id());
                }
            }
        }
        return kinds;
    }

    /** Reads microseconds from a timing; {@code null} if it has none. */
    @FunctionalInterface
    interface Micros {
        @Nullable
        Long of(CaseTiming timing);
    }

    private static @Nullable Long sureActiveUs(CaseTiming timing, String phase) {
        for (PhaseTiming of : timing.phases()) {
            if (of.phase().equals(phase)) {
                return of.sureActiveUs();
            }
        }
        return null;
    }

    /** One value for each case: the mean over its annotators whose time is known and sure. */
    private static List<Double> values(Trainee trainee, Micros micros) {
        List<Double> values = new ArrayList<>();
        for (List<CaseTiming> ofCase : trainee.timings().values()) {
            OptionalDouble mean = ofCase.stream()
                    .map(micros::of)
                    .filter(us -> us != null)
                    .mapToLong(Long::longValue)
                    .average();
            mean.ifPresent(values::add);
        }
        return values;
    }

    static @Nullable Double median(Trainee trainee, Micros micros) {
        double[] values = values(trainee, micros).stream()
                .mapToDouble(Double::doubleValue)
                .toArray();
        return values.length == 0 ? null : (Double) Quantiles.type7(values, 0.5);
    }

    static @Nullable Double mean(List<Double> values) {
        return values.isEmpty()
                ? null
                : (Double) values.stream()
                        .mapToDouble(Double::doubleValue)
                        .average()
                        .orElseThrow();
    }

    static <T> List<T> last(List<T> list, int count) {
        return list.subList(Math.max(0, list.size() - count), list.size());
    }

    private static @Nullable LocalDate date(Trainee trainee, int index) {
        return trainee.cases().isEmpty() ? null : trainee.cases().get(index).date();
    }

    private static long distinct(java.util.stream.Stream<String> values) {
        return values.distinct().count();
    }
}
