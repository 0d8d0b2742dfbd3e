package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AngoffRound;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.model.Sha256;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.standard.Angoff;
import org.sideport.stats.standard.BorderlineGroup;
import org.sideport.stats.standard.BorderlineRegression;
import org.sideport.stats.standard.ContrastingGroups;
import org.sideport.stats.standard.NormalGroup;
import org.sideport.store.Stores;

/** Computes cuts from what the store holds. The same data give the same limits on every machine. */
final class CutComputing {

    private static final Bootstrap BOOTSTRAP = new Bootstrap(2000, 1, 0.95);
    private static final int[] OTHER_PANELS = {5, 10, 15, 20};
    private static final double HALF = 0.5 + 1e-9;

    private final Stores stores;
    private final Rubric rubric;
    private final Vocabularies vocabularies;

    CutComputing(Stores stores, Rubric rubric, Vocabularies vocabularies) {
        this.stores = stores;
        this.rubric = rubric;
        this.vocabularies = vocabularies;
    }

    Outcome<CutProposal> of(CutBasis basis) {
        if (basis instanceof CutBasis.Judged judged) {
            return judged(judged);
        }
        if (basis instanceof CutBasis.Line line) {
            return line(line);
        }
        if (basis instanceof CutBasis.Borderline borderline) {
            return borderline(borderline);
        }
        if (basis instanceof CutBasis.Groups groups) {
            return groups(groups);
        }
        return given((CutBasis.Given) basis);
    }

    private Outcome<CutProposal> given(CutBasis.Given given) {
        if (!(given.share() >= 0 && given.share() <= 1)) {
            throw new InputException(
                    "a standard of " + given.share() + " is no share",
                    null,
                    "write a number from 0 to 1, such as 0.65");
        }
        return Outcome.of(new CutProposal(
                rubric.id(),
                rubric.version(),
                given,
                given.share(),
                null,
                null,
                null,
                null,
                null,
                Map.of(),
                List.of("This standard was agreed without a computation: nothing says how sure it is."),
                "",
                new CutProposal.None()));
    }

    private Outcome<CutProposal> judged(CutBasis.Judged basis) {
        AngoffRound round = stores.rounds()
                .find(basis.roundId())
                .orElseThrow(() -> new InputException("there is no such round", basis.roundId(), null));
        if (round.isOpen()) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "round " + round.number() + " is still open", "close it first");
        }
        Map<String, Map<String, Double>> values = stores.rounds().values(round.id());
        List<String> judges = round.counted();
        double[][] points = new double[judges.size()][rubric.items().size()];
        double maximum = 0;
        StringBuilder data = new StringBuilder();
        for (int i = 0; i < rubric.items().size(); i++) {
            Rubric.Item item = rubric.items().get(i);
            maximum += item.weight() * rubric.maximumOf(item);
            for (int j = 0; j < judges.size(); j++) {
                Double value = values.getOrDefault(judges.get(j), Map.of()).get(item.id());
                if (value == null) {
                    throw new IllegalStateException("a closed round lacks " + item.id() + " of " + judges.get(j));
                }
                points[j][i] = item.weight() * value;
                data.append(judges.get(j))
                        .append(' ')
                        .append(item.id())
                        .append(' ')
                        .append(value)
                        .append('\n');
            }
        }
        double most = maximum;
        return Angoff.of(points, BOOTSTRAP).flatMap(found -> {
            List<CutProposal.JudgeTotal> totals = new ArrayList<>();
            for (int j = 0; j < judges.size(); j++) {
                double total = found.totals().get(j);
                totals.add(new CutProposal.JudgeTotal(judges.get(j), total, total / most));
            }
            List<CutProposal.Panel> panels = new ArrayList<>();
            for (int other : OTHER_PANELS) {
                panels.add(new CutProposal.Panel(other, found.components().standardError(other) / most));
            }
            Map<String, String> described = new LinkedHashMap<>();
            described.put("round", String.valueOf(round.number()));
            described.put("round_id", round.id());
            described.put("judges", String.join(" ", judges));
            if (!round.leftOut().isEmpty()) {
                described.put("left_out", String.join(" ", round.leftOut()));
            }
            described.put("items", String.valueOf(rubric.items().size()));
            Interval t = found.tLimits();
            Estimate cut = found.cut();
            Estimate share = new Estimate(
                    cut.value() / most,
                    scaled(cut.se(), most),
                    // over few judges Student's limits are the honest ones
                    new Interval(t.lower() / most, t.upper() / most, t.level()),
                    cut.n(),
                    cut.method(),
                    cut.warnings().stream()
                            .filter(w -> !w.startsWith("There are no limits"))
                            .toList());
            return proposal(
                    basis,
                    share,
                    described,
                    List.of(),
                    data.toString(),
                    new CutProposal.Judges(totals, most, found.itemsAlsoVary() / most, panels));
        });
    }

    private static @Nullable Double scaled(@Nullable Double value, double most) {
        return value == null ? null : (Double) (value / most);
    }

    private Outcome<CutProposal> line(CutBasis.Line basis) {
        List<CutProposal.Performance> graded = graded(basis.grades());
        double[] grades = graded.stream().mapToDouble(CutComputing::grade).toArray();
        double[] shares =
                graded.stream().mapToDouble(CutProposal.Performance::share).toArray();
        return BorderlineRegression.of(grades, shares)
                .flatMap(found -> proposal(
                        basis,
                        found.cut(basis.borderline(), BOOTSTRAP),
                        described(basis.grades(), basis.borderline(), graded),
                        gradeWarnings(basis.grades(), graded),
                        data(graded),
                        new CutProposal.Line(
                                found.intercept(), found.slope(), found.r2(), found.residualSd(), graded)));
    }

    private Outcome<CutProposal> borderline(CutBasis.Borderline basis) {
        List<CutProposal.Performance> graded = graded(basis.grades());
        List<CutProposal.Performance> near = graded.stream()
                .filter(p -> Math.abs(grade(p) - basis.borderline()) <= HALF)
                .toList();
        double[] shares =
                near.stream().mapToDouble(CutProposal.Performance::share).toArray();
        return BorderlineGroup.of(shares, BOOTSTRAP)
                .flatMap(found -> proposal(
                        basis,
                        found.cut(),
                        described(basis.grades(), basis.borderline(), near),
                        gradeWarnings(basis.grades(), near),
                        data(near),
                        new CutProposal.Borderline(
                                found.median(), found.scores().sd(), graded.size(), near)));
    }

    private static double grade(CutProposal.Performance performance) {
        Double grade = performance.grade();
        return grade == null ? Double.NaN : grade;
    }

    /** The signed marks that have a grade beside them. */
    private List<CutProposal.Performance> graded(CutBasis.Grades source) {
        boolean same = source.rubric().equals(rubric.id());
        Rubric gradeRubric =
                same ? rubric : vocabularies.rubric(source.rubric()).rubric();
        String itemId = source.item();
        if (same && itemId == null) {
            throw new InputException(
                    "which item of rubric " + rubric.id() + " is the global grade is not said",
                    null,
                    "name an item, or another rubric that the same assessors marked the same cases with");
        }
        if (itemId != null && gradeRubric.item(itemId).isEmpty()) {
            throw new InputException(
                    "rubric " + gradeRubric.id() + " has no item \"" + itemId + "\"",
                    null,
                    "write one of "
                            + gradeRubric.items().stream().map(Rubric.Item::id).collect(Collectors.joining(", ")));
        }
        SignedMarks scores = SignedMarks.of(stores, rubric);
        SignedMarks grades = same ? scores : SignedMarks.of(stores, gradeRubric);
        Map<String, Double> byWork = new HashMap<>();
        for (SignedMark mark : grades.all()) {
            Double grade = grade(mark, itemId);
            if (grade != null) {
                byWork.put(mark.caseCode() + " " + mark.assessor(), grade);
            }
        }
        return scores.all().stream()
                .filter(mark -> byWork.containsKey(mark.caseCode() + " " + mark.assessor()))
                .map(mark -> new CutProposal.Performance(
                        mark.caseCode(),
                        mark.trainee(),
                        mark.assessor(),
                        byWork.get(mark.caseCode() + " " + mark.assessor()),
                        mark.share()))
                .toList();
    }

    private static @Nullable Double grade(SignedMark mark, @Nullable String item) {
        List<Integer> points = mark.rating().scores().stream()
                .filter(s -> item == null || s.item().equals(item))
                .filter(ItemScore.Marked.class::isInstance)
                .map(s -> ((ItemScore.Marked) s).points())
                .toList();
        return points.isEmpty()
                ? null
                : (Double) points.stream().mapToInt(p -> p).average().orElseThrow();
    }

    private static Map<String, String> described(
            CutBasis.Grades grades, double borderline, List<CutProposal.Performance> used) {
        Map<String, String> described = new LinkedHashMap<>();
        described.put("grade_rubric", grades.rubric());
        if (grades.item() != null) {
            described.put("grade_item", grades.item());
        }
        described.put("borderline", String.valueOf(borderline));
        described.put("performances", String.valueOf(used.size()));
        described.put("trainees", String.valueOf(trainees(used)));
        return described;
    }

    private static long trainees(List<CutProposal.Performance> used) {
        return used.stream().map(CutProposal.Performance::trainee).distinct().count();
    }

    private List<String> gradeWarnings(CutBasis.Grades grades, List<CutProposal.Performance> used) {
        List<String> warnings = new ArrayList<>(repeats(used));
        if (grades.rubric().equals(rubric.id())) {
            warnings.add("The grade is one of the " + Plural.of(rubric.items().size(), "item")
                    + " of the score itself: the line fits better than it would with a grade given apart.");
        }
        return warnings;
    }

    /** The limits take performances as independent. */
    private static List<String> repeats(List<CutProposal.Performance> used) {
        long persons = trainees(used);
        return persons == used.size()
                ? List.of()
                : List.of(Plural.of(used.size(), "performance") + " come from " + Plural.of(persons, "trainee")
                        + "; the limits take them as independent and are too narrow.");
    }

    private Outcome<CutProposal> groups(CutBasis.Groups basis) {
        List<CutProposal.Performance> cases =
                cases(SignedMarks.of(stores, rubric).all());
        List<CutProposal.Performance> weaker = of(cases, basis.members(), basis.weaker());
        List<CutProposal.Performance> stronger = of(cases, basis.members(), basis.stronger());
        Set<String> both = new LinkedHashSet<>(basis.weaker());
        both.retainAll(basis.stronger());
        if (!both.isEmpty()) {
            throw new InputException(
                    String.join(", ", both) + " cannot be in both groups", null, "take each into one group only");
        }
        List<CutProposal.Performance> used = new ArrayList<>(weaker);
        used.addAll(stronger);
        Map<String, String> described = new LinkedHashMap<>();
        described.put("groups_of", basis.members() == CutBasis.Members.TRAINEES ? "trainees" : "cases");
        described.put("weaker", String.join(" ", basis.weaker()));
        described.put("stronger", String.join(" ", basis.stronger()));
        described.put("weaker_cases", String.valueOf(weaker.size()));
        described.put("stronger_cases", String.valueOf(stronger.size()));
        return ContrastingGroups.of(shares(weaker), shares(stronger), BOOTSTRAP)
                .flatMap(found -> proposal(
                        basis,
                        found.cut(),
                        described,
                        repeats(used),
                        data(weaker) + "--\n" + data(stronger),
                        new CutProposal.Groups(
                                group(found.weaker(), weaker),
                                group(found.stronger(), stronger),
                                found.theory().falsePass(),
                                found.theory().falseFail(),
                                found.falsePass(),
                                found.falseFail(),
                                found.observed().cut())));
    }

    private static CutProposal.Group group(NormalGroup normal, List<CutProposal.Performance> cases) {
        return new CutProposal.Group(cases.size(), normal.mean(), normal.sd(), cases);
    }

    private static double[] shares(List<CutProposal.Performance> cases) {
        return cases.stream().mapToDouble(CutProposal.Performance::share).toArray();
    }

    /** One score for each case, the mean over its assessors. */
    private static List<CutProposal.Performance> cases(List<SignedMark> marks) {
        Map<String, List<SignedMark>> byCase = new LinkedHashMap<>();
        marks.forEach(m ->
                byCase.computeIfAbsent(m.caseCode(), c -> new ArrayList<>()).add(m));
        return byCase.values().stream()
                .map(of -> new CutProposal.Performance(
                        of.get(0).caseCode(),
                        of.get(0).trainee(),
                        of.stream().map(SignedMark::assessor).collect(Collectors.joining(" ")),
                        null,
                        of.stream().mapToDouble(SignedMark::share).average().orElseThrow()))
                .toList();
    }

    private static List<CutProposal.Performance> of(
            List<CutProposal.Performance> cases, CutBasis.Members members, List<String> codes) {
        List<CutProposal.Performance> found = new ArrayList<>();
        for (String code : new LinkedHashSet<>(codes)) {
            List<CutProposal.Performance> one = cases.stream()
                    .filter(p ->
                            code.equalsIgnoreCase(members == CutBasis.Members.TRAINEES ? p.trainee() : p.caseCode()))
                    .toList();
            if (one.isEmpty()) {
                throw new InputException(
                        (members == CutBasis.Members.TRAINEES ? "trainee " : "case ") + code
                                + " has no signed mark with this rubric",
                        null,
                        "leave the code out, or have the case marked and signed first");
            }
            found.addAll(one);
        }
        return found;
    }

    private static String data(List<CutProposal.Performance> used) {
        return used.stream()
                .sorted(Comparator.comparing(CutProposal.Performance::caseCode)
                        .thenComparing(CutProposal.Performance::assessor))
                .map(p -> p.caseCode() + " " + p.assessor() + " " + p.grade() + " " + p.share() + "\n")
                .collect(Collectors.joining());
    }

    private Outcome<CutProposal> proposal(
            CutBasis basis,
            Estimate cut,
            Map<String, String> described,
            List<String> more,
            String data,
            CutProposal.Detail detail) {
        if (!(cut.value() >= 0 && cut.value() <= 1)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    String.format(
                            java.util.Locale.ROOT,
                            "the cut would lie at %.1f %% of the maximum, beyond the scale",
                            100 * cut.value()),
                    "check which grade is borderline, or take another method");
        }
        List<String> warnings = new ArrayList<>(cut.warnings());
        warnings.addAll(more);
        Interval limits = cut.limits();
        return Outcome.of(new CutProposal(
                rubric.id(),
                rubric.version(),
                basis,
                cut.value(),
                cut.se(),
                limits == null ? null : (Double) limits.lower(),
                limits == null ? null : (Double) limits.upper(),
                limits == null ? null : (Double) limits.level(),
                cut.n(),
                described,
                warnings,
                Sha256.of(data),
                detail));
    }
}
