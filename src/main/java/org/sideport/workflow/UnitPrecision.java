package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sideport.model.Plural;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.gtheory.AchievedPrecision;
import org.sideport.stats.gtheory.DStudy;
import org.sideport.stats.gtheory.EffectVariance;
import org.sideport.stats.gtheory.GStudy;

/** What a unit's signed marks with one rubric say about how many marks a trainee needs. */
final class UnitPrecision {

    private static final int MOST_ASSESSORS = 3;
    private static final int FEW_TRAINEES = 10;
    private static final double NORMAL_95 = 1.959963984540054;
    private static final double ROUNDING = 1e-12;

    private final GStudy study;
    private final List<SignedMark> unit;
    private final List<String> assessors;

    private UnitPrecision(GStudy study, List<SignedMark> unit) {
        this.study = study;
        this.unit = unit;
        this.assessors =
                unit.stream().map(SignedMark::assessor).distinct().sorted().toList();
    }

    /** One marking: of a case, by an assessor. */
    private record Marking(String caseCode, String assessor) {}

    static Outcome<UnitPrecision> of(List<SignedMark> unit) {
        if (unit.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there is no signed mark with this rubric",
                    "have cases of several trainees marked and signed");
        }
        LongData data = new LongData(
                List.of(
                        Factor.of(
                                "subject",
                                unit.stream().map(SignedMark::trainee).toList()),
                        Factor.of(
                                "case", unit.stream().map(SignedMark::caseCode).toList()),
                        Factor.of(
                                "rater", unit.stream().map(SignedMark::assessor).toList())),
                unit.stream().mapToDouble(SignedMark::share).toArray());
        return GStudy.of(data, "subject", Map.of(), GStudy.Method.AUTOMATIC)
                .map(study -> new UnitPrecision(study, unit));
    }

    /** For the marks of one trainee, at least one. */
    Outcome<Precision> of(List<SignedMark> marks, double mean, double wish, double minutes) {
        List<Marking> given =
                marks.stream().map(m -> new Marking(m.caseCode(), m.assessor())).toList();
        return achieved(given).flatMap(c -> {
            boolean enough = c.phi() >= wish - ROUNDING;
            Outcome<List<Precision.More>> more = enough ? Outcome.of(List.of()) : more(given, wish, minutes);
            double half = NORMAL_95 * c.semAbsolute();
            return more.map(plans -> new Precision(
                    c, Math.max(mean - half, 0), Math.min(mean + half, 1), wish, enough, plans, described()));
        });
    }

    private Outcome<DStudy.Coefficients> achieved(List<Marking> markings) {
        Map<String, Integer> ofCase = new HashMap<>();
        markings.forEach(m -> ofCase.merge(m.caseCode(), 1, Integer::sum));
        return AchievedPrecision.of(
                study,
                new LongData(
                        List.of(
                                Factor.of(
                                        "case",
                                        markings.stream().map(Marking::caseCode).toList()),
                                Factor.of(
                                        "rater",
                                        markings.stream().map(Marking::assessor).toList())),
                        // a case counts once, however many marked it
                        markings.stream()
                                .mapToDouble(m -> 1.0 / ofCase.getOrDefault(m.caseCode(), 1))
                                .toArray()));
    }

    /** The fewest further cases for each number of assessors; those that cost more cases and more markings are left out. */
    Outcome<List<Precision.More>> more(List<Marking> given, double wish, double minutes) {
        List<Precision.More> found = new ArrayList<>();
        for (int each = 1; each <= mostEach(); each++) {
            for (int cases = 1; cases <= Precision.MOST_CASES; cases++) {
                Outcome<DStudy.Coefficients> then = achieved(with(given, cases, each));
                if (then instanceof Outcome.Refused<DStudy.Coefficients> refused) {
                    return new Outcome.Refused<>(refused.refusal());
                }
                double phi = then.orElseThrow().phi();
                if (phi >= wish - ROUNDING) {
                    int all = cases;
                    if (found.stream().noneMatch(m -> m.cases() <= all)) {
                        found.add(new Precision.More(cases, each, phi, minutes * cases * each));
                    }
                    break;
                }
            }
        }
        found.sort(Comparator.comparingDouble(Precision.More::minutes));
        return Outcome.of(List.copyOf(found));
    }

    /** From nothing: what a trainee without a mark would need. */
    Outcome<List<Precision.More>> fromNothing(double wish, double minutes) {
        return more(List.of(), wish, minutes);
    }

    /** What so many cases would reach, for each number of assessors that can be told of, fewest cases first. */
    Outcome<List<MarkingPlan.Place>> curve(int mostCases, double minutes) {
        List<MarkingPlan.Place> places = new ArrayList<>();
        for (int each = 1; each <= mostEach(); each++) {
            for (int cases = 1; cases <= mostCases; cases++) {
                Outcome<DStudy.Coefficients> then = achieved(with(List.of(), cases, each));
                if (then instanceof Outcome.Refused<DStudy.Coefficients> refused) {
                    return new Outcome.Refused<>(refused.refusal());
                }
                DStudy.Coefficients c = then.orElseThrow();
                places.add(new MarkingPlan.Place(cases, each, c.phi(), c.g(), minutes * cases * each));
            }
        }
        return Outcome.of(List.copyOf(places));
    }

    /** Where no case was marked twice, what a second assessor adds cannot be told from what another case adds. */
    private int mostEach() {
        boolean confounded = !study.design().names().contains("rater")
                || (study.design().names().contains("case")
                        && study.design().facet("case").within().contains("rater"));
        return confounded ? 1 : Math.min(MOST_ASSESSORS, assessors.size());
    }

    private List<Marking> with(List<Marking> given, int cases, int each) {
        Map<String, Integer> busy = new HashMap<>();
        given.forEach(m -> busy.merge(m.assessor(), 1, Integer::sum));
        List<String> turns = assessors.stream()
                .sorted(Comparator.comparing((String a) -> busy.getOrDefault(a, 0))
                        .thenComparing(Comparator.naturalOrder()))
                .toList();
        List<Marking> all = new ArrayList<>(given);
        for (int i = 0; i < cases * each; i++) {
            // a blank keeps it apart from any code
            all.add(new Marking("more " + i / each, turns.get(i % turns.size())));
        }
        return all;
    }

    Precision.Study described() {
        double total = study.total();
        List<String> warnings = new ArrayList<>(study.warnings());
        long trainees = unit.stream().map(SignedMark::trainee).distinct().count();
        if (trainees < FEW_TRAINEES) {
            warnings.add("The figures come from " + Plural.of(trainees, "trainee")
                    + " only and are uncertain; take the number of cases as a minimum.");
        }
        if (mostEach() == 1) {
            warnings.add("No case was marked by two assessors, so that nothing can be said of several assessors for one"
                    + " case.");
        }
        return new Precision.Study(
                study.design().describe(),
                study.method(),
                (int) trainees,
                (int) unit.stream().map(SignedMark::caseCode).distinct().count(),
                assessors.size(),
                unit.size(),
                study.lines().stream()
                        .map(line -> new Precision.Component(
                                line.effect().label(), line.variance(), line.se(), total > 0 ? line.used() / total : 0))
                        .toList(),
                warnings);
    }

    /** What so many cases, each by so many assessors who take turns, would reach. */
    Outcome<DStudy.Coefficients> planned(int cases, int each) {
        return achieved(with(List.of(), cases, each));
    }

    /**
     * The variances by what averages them, negative ones as 0.
     *
     * @param marks what only more marks average: cases by assessors
     */
    record Parts(double trainees, double cases, double assessors, double marks) {}

    Parts parts() {
        double[] sums = new double[4];
        for (EffectVariance line : study.lines()) {
            Set<String> touched = study.design().closure(line.effect().facets());
            sums[(touched.contains("case") ? 1 : 0) + (touched.contains("rater") ? 2 : 0)] += line.used();
        }
        return new Parts(sums[0], sums[1], sums[2], sums[3]);
    }

    int assessors() {
        return assessors.size();
    }

    /** More assessors than these for each case cannot be planned for. */
    int mostForEach() {
        return mostEach();
    }
}
