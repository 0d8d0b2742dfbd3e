package org.sideport.workflow;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Rubric;
import org.sideport.model.Standard;
import org.sideport.model.SurgicalCase;
import org.sideport.report.workbook.UnitFigures;
import org.sideport.report.workbook.UnitFigures.CaseShare;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.Group;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.describe.Moments;
import org.sideport.stats.gtheory.DStudy;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.MeanSquares;
import org.sideport.stats.rasch.Measure;

/** What of a unit's signed marks goes into the workbook, rubric by rubric, by the same rules as everywhere else. */
final class WorkbookFigures {

    /** Of the limits of severity. */
    private static final double LEVEL = 0.95;

    private static final int MOST_PLANNED = 12;
    private static final double ROUNDING = 1e-12;

    /** A version of a rubric with the unit's signed marks. */
    record Marked(Rubric rubric, List<SignedMark> marks, List<SurgicalCase> cases) {}

    private final int last;
    private final List<Standard> standards;
    private final List<CaseShare> shares = new ArrayList<>();
    private final List<Competency> competencies = new ArrayList<>();
    private final List<UnitFigures.Assessor> assessors = new ArrayList<>();
    private final List<UnitFigures.Reliability> reliability = new ArrayList<>();
    private final List<UnitFigures.Component> components = new ArrayList<>();
    private final List<UnitFigures.Planned> planned = new ArrayList<>();
    private int groups;

    WorkbookFigures(int last, List<Standard> standards) {
        this.last = last;
        this.standards = standards;
    }

    void add(Marked of) {
        competencies(of);
        assessors(of);
        Outcome<UnitPrecision> unit = UnitPrecision.of(of.marks());
        reliability(of, unit);
        if (unit instanceof Outcome.Found<UnitPrecision> found) {
            components(of.rubric(), found.value());
            planned(of.rubric(), found.value());
        }
    }

    UnitFigures with(WorkbookCourse course) {
        return new UnitFigures(
                Decisions.USUAL_MINUTES,
                Decisions.USUAL_WISH,
                shares,
                competencies,
                assessors,
                reliability,
                components,
                planned,
                course.learning(),
                course.curves(),
                course.complications(),
                standards.stream().map(this::agreed).toList());
    }

    private @Nullable Standard inForce(Rubric rubric) {
        return standards.stream()
                .filter(s -> s.inForce()
                        && s.rubric().equals(rubric.id())
                        && s.rubricVersion().equals(rubric.version()))
                .findFirst()
                .orElse(null);
    }

    private void competencies(Marked of) {
        Rubric rubric = of.rubric();
        List<CohortView.Competency> domains = FollowCohort.competencies(rubric, CohortView.By.DOMAIN);
        List<CohortView.Row> rows = FollowCohort.rows(domains, of.cases(), of.marks(), last);
        Map<String, List<SignedMark>> byTrainee =
                of.marks().stream().collect(Collectors.groupingBy(SignedMark::trainee));
        Standard standard = inForce(rubric);
        for (CohortView.Row row : rows) {
            group(of, row, UnitFigures.WHOLE, "Whole", row.whole(), SignedMark::share, byTrainee, standard);
        }
        for (int d = 0; d < domains.size(); d++) {
            CohortView.Competency domain = domains.get(d);
            for (CohortView.Row row : rows) {
                group(
                        of,
                        row,
                        domain.id(),
                        domain.title(),
                        row.competencies().get(d),
                        mark -> FollowCohort.share(mark, domain),
                        byTrainee,
                        null);
            }
        }
    }

    private void group(
            Marked of,
            CohortView.Row row,
            String competency,
            String title,
            CohortView.Cell cell,
            Function<SignedMark, @Nullable Double> share,
            Map<String, List<SignedMark>> byTrainee,
            @Nullable Standard standard) {
        Group group = new Group(++groups, of.rubric().id(), of.rubric().version(), competency, title, row.trainee());
        List<CaseMean> means = caseMeans(byTrainee.getOrDefault(row.trainee(), List.of()), share);
        for (int i = 0; i < means.size(); i++) {
            CaseMean one = means.get(i);
            shares.add(new CaseShare(
                    group, one.caseCode(), one.date(), i + 1, means.size() - i, one.share(), one.assessors()));
        }
        double[] recent = means.subList(means.size() - cell.recent(), means.size()).stream()
                .mapToDouble(CaseMean::share)
                .toArray();
        Moments moments = recent.length == 0 ? null : Moments.of(recent);
        competencies.add(new Competency(
                group,
                row.cases(),
                cell.n(),
                cell.recent(),
                cell.mean(),
                recent.length == 0 ? null : (Double) Arrays.stream(recent).min().orElseThrow(),
                recent.length == 0 ? null : (Double) Arrays.stream(recent).max().orElseThrow(),
                moments == null ? null : moments.sd(),
                cell.lower(),
                cell.upper(),
                cell.lastDate(),
                standard == null ? null : (Double) standard.share(),
                standard == null ? null : (Integer) reaching(recent, standard.share())));
    }

    /**
     * What one case says; the mean of the latest is that of {@link CohortView.Cell}.
     *
     * @param share mean over the assessors who gave one
     */
    private record CaseMean(String caseCode, LocalDate date, double share, int assessors) {}

    /** Of the cases that have a share, in their order. */
    private static List<CaseMean> caseMeans(List<SignedMark> marks, Function<SignedMark, @Nullable Double> share) {
        List<CaseMean> means = new ArrayList<>();
        for (List<SignedMark> ofCase : Decisions.byCase(marks).values()) {
            double[] shares = ofCase.stream()
                    .map(share)
                    .filter(Objects::nonNull)
                    .mapToDouble(s -> s)
                    .toArray();
            if (shares.length > 0) {
                means.add(new CaseMean(
                        ofCase.get(0).caseCode(),
                        ofCase.get(0).date(),
                        Arrays.stream(shares).average().orElseThrow(),
                        shares.length));
            }
        }
        return means;
    }

    private static int reaching(double[] shares, double limit) {
        return (int) Arrays.stream(shares).filter(s -> s >= limit - ROUNDING).count();
    }

    private void assessors(Marked of) {
        Outcome<ManyFacetRasch> severity = FollowCohort.severity(
                        of.rubric(), of.marks(), LEVEL, FollowCohort.USUAL_SEVERITY_CASES)
                .map(FollowCohort.Severity::fit);
        Map<String, Measure> measures = new HashMap<>();
        String note;
        if (severity instanceof Outcome.Found<ManyFacetRasch> found) {
            found.value().assessors().forEach(m -> measures.put(m.label(), m));
            note = String.join(" ", found.value().warnings());
        } else {
            note = why(severity);
        }
        CohortView.Agreement agreement = FollowCohort.agreement(of.marks());
        for (CohortView.Assessor one : FollowCohort.assessors(of.marks())) {
            Measure measure = measures.get(one.code());
            Estimate logits = measure == null ? null : measure.logits();
            Interval limits = logits == null ? null : logits.limits();
            MeanSquares fit = measure == null ? null : measure.fit();
            Estimate fair = measure == null ? null : measure.fairAverage();
            assessors.add(new UnitFigures.Assessor(
                    of.rubric().id(),
                    of.rubric().version(),
                    one.code(),
                    one.marks(),
                    one.trainees(),
                    one.shared(),
                    one.difference(),
                    one.lower(),
                    one.upper(),
                    logits == null ? null : (Double) logits.value(),
                    logits == null ? null : logits.se(),
                    limits == null ? null : (Double) limits.lower(),
                    limits == null ? null : (Double) limits.upper(),
                    measure == null ? null : (Integer) measure.n(),
                    fit == null ? null : (Double) fit.infit(),
                    fit == null ? null : (Double) fit.outfit(),
                    fair == null ? null : (Double) fair.value(),
                    measure == null ? null : (Double) measure.meanLevel(),
                    agreement == null ? 0 : agreement.comparisons(),
                    agreement == null ? null : (Double) agreement.exact(),
                    agreement == null ? null : agreement.withinOne(),
                    note));
        }
    }

    private static String why(Outcome<?> outcome) {
        return outcome instanceof Outcome.Refused<?> refused
                ? refused.refusal().why() + "; " + refused.refusal().remedy()
                : "";
    }

    private void reliability(Marked of, Outcome<UnitPrecision> unit) {
        Standard standard = inForce(of.rubric());
        Map<String, List<SignedMark>> byTrainee = of.marks().stream()
                .collect(Collectors.groupingBy(SignedMark::trainee, TreeMap::new, Collectors.toList()));
        byTrainee.forEach((trainee, marks) -> {
            Map<String, List<SignedMark>> byCase = Decisions.byCase(marks);
            double mean = Objects.requireNonNull(Decisions.mean(byCase));
            Outcome<Precision> precision =
                    unit.flatMap(u -> u.of(marks, mean, Decisions.USUAL_WISH, Decisions.USUAL_MINUTES));
            Precision found = precision instanceof Outcome.Found<Precision> f ? f.value() : null;
            DStudy.Coefficients c = found == null ? null : found.coefficients();
            reliability.add(new UnitFigures.Reliability(
                    of.rubric().id(),
                    of.rubric().version(),
                    trainee,
                    byCase.size(),
                    marks.size(),
                    (int) marks.stream().map(SignedMark::assessor).distinct().count(),
                    mean,
                    c == null ? null : (Double) c.universe(),
                    c == null ? null : (Double) c.relativeError(),
                    c == null ? null : (Double) c.absoluteError(),
                    c == null ? null : (Double) c.g(),
                    c == null ? null : (Double) c.phi(),
                    c == null ? null : (Double) c.semAbsolute(),
                    found == null ? null : (Double) found.lower(),
                    found == null ? null : (Double) found.upper(),
                    standard == null ? null : (Double) standard.share(),
                    standard == null ? null : (Double) (mean - standard.share()),
                    why(precision)));
        });
    }

    private void components(Rubric rubric, UnitPrecision unit) {
        Precision.Study study = unit.described();
        for (Precision.Component one : study.components()) {
            components.add(new UnitFigures.Component(
                    rubric.id(),
                    rubric.version(),
                    study.design(),
                    study.method(),
                    study.trainees(),
                    study.cases(),
                    study.assessors(),
                    study.marks(),
                    one.label(),
                    one.variance(),
                    one.standardError(),
                    one.share(),
                    String.join(" ", study.warnings())));
        }
    }

    private void planned(Rubric rubric, UnitPrecision unit) {
        UnitPrecision.Parts parts = unit.parts();
        for (int each = 1; each <= unit.mostForEach(); each++) {
            for (int cases = 1; cases <= MOST_PLANNED; cases++) {
                if (unit.planned(cases, each) instanceof Outcome.Found<DStudy.Coefficients> found) {
                    planned.add(new UnitFigures.Planned(
                            rubric.id(),
                            rubric.version(),
                            cases,
                            each,
                            unit.assessors(),
                            parts.trainees(),
                            parts.cases(),
                            parts.assessors(),
                            parts.marks(),
                            found.value().phi(),
                            found.value().semAbsolute()));
                }
            }
        }
    }

    private UnitFigures.Agreed agreed(Standard standard) {
        List<Competency> whole = competencies.stream()
                .filter(c -> c.recent() > 0
                        && c.group().competency().equals(UnitFigures.WHOLE)
                        && c.group().rubric().equals(standard.rubric())
                        && c.group().version().equals(standard.rubricVersion()))
                .toList();
        Map<Integer, Integer> recent = new HashMap<>();
        whole.forEach(c -> recent.put(c.group().number(), c.recent()));
        Set<CaseShare> latest = new HashSet<>();
        shares.stream()
                .filter(s -> s.fromEnd() <= recent.getOrDefault(s.group().number(), 0))
                .forEach(latest::add);
        return new UnitFigures.Agreed(
                standard.rubric(),
                standard.rubricVersion(),
                standard.number(),
                standard.inForce(),
                standard.method().id(),
                standard.share(),
                standard.lower(),
                standard.upper(),
                standard.n(),
                standard.agreedOn(),
                String.join(", ", standard.agreedBy()),
                standard.note(),
                whole.size(),
                (int) whole.stream()
                        .filter(c -> c.mean() != null && c.mean() >= standard.share() - ROUNDING)
                        .count(),
                latest.size(),
                reaching(latest.stream().mapToDouble(CaseShare::share).toArray(), standard.share()));
    }
}
