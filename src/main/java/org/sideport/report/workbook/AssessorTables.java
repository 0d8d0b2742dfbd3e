package org.sideport.report.workbook;

import org.sideport.report.workbook.Column.Input;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.UnitFigures.Assessor;
import org.sideport.report.workbook.UnitFigures.Component;
import org.sideport.report.workbook.UnitFigures.Planned;
import org.sideport.report.workbook.UnitFigures.Reliability;

/** The sheets "Assessors", "Reliability", "Variance" and "D-study". */
final class AssessorTables {

    private static final String SEVERITY = "many-facet Rasch model, as: sideport cohort severity";
    private static final String COHORT = "as on the Programme screen and in: sideport cohort show";
    private static final String STUDY = "G-study of the unit's signed marks, as in: sideport decision show";

    /** Of a normal distribution, two-sided 95 %. */
    private static final String Z = "1.959963984540054";

    /** Markings of an assessment of so many cases. */
    private static final String MARKS = "({Cases}*{Assessors for each case})";

    private static final String EACH = "{Assessors of the unit}";

    private final UnitFigures figures;

    AssessorTables(UnitFigures figures) {
        this.figures = figures;
    }

    Table<Assessor> assessors() {
        Tables<Assessor> tables = new Tables<>(COHORT);
        tables.add("Assessor", Kind.TEXT, "code of the assessor", Assessor::code)
                .add("Rubric", Kind.TEXT, "id of the rubric", Assessor::rubric)
                .add("Version", Kind.TEXT, "version of the rubric", Assessor::version)
                .add(
                        "Marks (n)",
                        Kind.COUNT,
                        "signed marks of cases, without practice and self-ratings",
                        Assessor::marks)
                .formula(
                        "SUMPRODUCT(EXACT(asm_assessor,{Assessor})*EXACT(asm_rubric,{Rubric})*EXACT(asm_version,{Version})"
                                + "*(asm_counts=\"yes\"))")
                .add("Trainees (n)", Kind.COUNT, "different trainees among them", Assessor::trainees)
                .add("Shared cases (n)", Kind.COUNT, "cases that others marked too", Assessor::shared)
                .restOn(Assessor::shared)
                .add(
                        "Difference",
                        Kind.POINTS,
                        "mean over these of the own share less the mean of the others; below 0 is severe. It can lie in"
                                + " the cases that were given",
                        Assessor::difference)
                .add(
                        "Difference, lower",
                        Kind.POINTS,
                        "lower 95 % limit by Student's t over cases; blank below three",
                        Assessor::differenceLower)
                .add("Difference, upper", Kind.POINTS, "upper limit, likewise", Assessor::differenceUpper)
                .source(SEVERITY)
                .restOn(Assessor::marks)
                .add(
                        "Severity (logits)",
                        Kind.FACTOR,
                        "above 0 is severe; each case by itself, so that only cases which several marked tell of it",
                        Assessor::severity)
                .add("Severity, SE", Kind.FACTOR, "its standard error, logits", Assessor::severityError)
                .add("Severity, lower", Kind.FACTOR, "lower 95 % limit, logits", Assessor::severityLower)
                .add("Severity, upper", Kind.FACTOR, "upper 95 % limit, logits", Assessor::severityUpper)
                .add("Item marks (n)", Kind.COUNT, "marks of level items that this rests on", Assessor::markings)
                .add(
                        "Infit",
                        Kind.FACTOR,
                        "mean square of the residuals, weighted; 1 is expected, above it the marks are less"
                                + " predictable",
                        Assessor::infit)
                .add("Outfit", Kind.FACTOR, "the same unweighted: single surprising marks count more", Assessor::outfit)
                .add(
                        "Fair average",
                        Kind.FACTOR,
                        "level that the assessor would give a trainee of mean ability, counted from 0",
                        Assessor::fairAverage)
                .add("Mean level", Kind.FACTOR, "mean level given, counted from 0", Assessor::meanLevel)
                .source(COHORT)
                .restOn(Assessor::comparisons)
                .add(
                        "Unit: comparisons (n)",
                        Kind.COUNT,
                        "of the whole unit: marks of the same item of the same case by two assessors",
                        Assessor::comparisons)
                .add("Unit: equal points", Kind.SHARE, "share of these with equal points", Assessor::exact)
                .add(
                        "Unit: within one level",
                        Kind.SHARE,
                        "share with equal or neighbouring levels; blank where points are no levels",
                        Assessor::withinOne)
                .restOn(null)
                .add("Note", Kind.PROSE, "why there is no severity, or what the method warns of", Assessor::note);
        return tables.summary(
                "Assessors",
                "One row for each assessor and rubric: how severe, how alike. A difference is no fault: it says where"
                        + " to talk and calibrate.",
                figures.assessors());
    }

    Table<Reliability> reliability() {
        Tables<Reliability> tables = new Tables<>(STUDY);
        tables.add("Trainee", Kind.TEXT, "code of the trainee", Reliability::trainee)
                .add("Rubric", Kind.TEXT, "id of the rubric", Reliability::rubric)
                .add("Version", Kind.TEXT, "version of the rubric", Reliability::version)
                .add("Marked cases (n)", Kind.COUNT, "all marked cases of the trainee", Reliability::cases)
                .add("Marks (n)", Kind.COUNT, "signed marks of them", Reliability::marks)
                .add("Assessors (n)", Kind.WHOLE, "who gave them", Reliability::assessors)
                .restOn(Reliability::cases)
                .add("Mean", Kind.SHARE, "mean share over these cases", Reliability::mean)
                .bars()
                .add("Variance of trainees", Kind.COEFFICIENT, "between trainees, squared share", Reliability::universe)
                .add(
                        "Relative error",
                        Kind.COEFFICIENT,
                        "of this mean, for ranking, squared share",
                        Reliability::relativeError)
                .add(
                        "Absolute error",
                        Kind.COEFFICIENT,
                        "of this mean, against a standard, squared share",
                        Reliability::error)
                .add(
                        "Coefficient Φ",
                        Kind.COEFFICIENT,
                        "index of dependability, for decisions against a standard, 0 to 1",
                        Reliability::phi)
                .formula("IF({Variance of trainees}=\"\",\"\",{Variance of trainees}/({Variance of trainees}+{Absolute"
                        + " error}))")
                .add("Coefficient G", Kind.COEFFICIENT, "for ranking, 0 to 1; never below Φ", Reliability::g)
                .formula("IF({Variance of trainees}=\"\",\"\",{Variance of trainees}/({Variance of trainees}+{Relative"
                        + " error}))")
                .add("SEM", Kind.SHARE, "absolute standard error of measurement of the mean", Reliability::sem)
                .formula("IF({Absolute error}=\"\",\"\",SQRT({Absolute error}))")
                .add("Lower", Kind.SHARE, "the mean less 1.96 SEM, not below 0", Reliability::lower)
                .formula("IF({SEM}=\"\",\"\",MAX(0,{Mean}-" + Z + "*{SEM}))")
                .add("Upper", Kind.SHARE, "the mean and 1.96 SEM, not above 1", Reliability::upper)
                .formula("IF({SEM}=\"\",\"\",MIN(1,{Mean}+" + Z + "*{SEM}))")
                .add("Standard", Kind.SHARE, "agreed for the rubric; blank if there is none", Reliability::standard)
                .add("Mean less standard", Kind.POINTS, "how far the mean lies from it", Reliability::distance)
                .formula("IF(OR({Mean}=\"\",{Standard}=\"\"),\"\",{Mean}-{Standard})")
                .restOn(null)
                .add("Note", Kind.PROSE, "why nothing can be said", Reliability::note);
        return tables.summary(
                "Reliability",
                "One row for each trainee and rubric, over all marked cases: how sure the mean is. The program decides"
                        + " nothing; a panel does.",
                figures.reliability());
    }

    Table<Component> components() {
        Tables<Component> tables = new Tables<>(STUDY);
        tables.add(
                        "Effect",
                        Kind.TEXT,
                        "where differences between marks come from; × is an interaction",
                        Component::effect)
                .add("Rubric", Kind.TEXT, "id of the rubric", Component::rubric)
                .named("vc_rubric")
                .add("Version", Kind.TEXT, "version of the rubric", Component::version)
                .named("vc_version")
                .add("Variance", Kind.COEFFICIENT, "squared share; below 0 means none", Component::variance)
                .named("vc_variance")
                .add("SE", Kind.COEFFICIENT, "standard error of the variance", Component::standardError)
                .add("Share of variance", Kind.SHARE, "of a single mark; below 0 counts as 0", Component::share)
                .formula("IF(SUMPRODUCT((vc_rubric={Rubric})*(vc_version={Version})*(vc_variance>0)*vc_variance)=0,0,"
                        + "MAX(0,{Variance})/SUMPRODUCT((vc_rubric={Rubric})*(vc_version={Version})*(vc_variance>0)"
                        + "*vc_variance))")
                .bars()
                .add("Trainees (n)", Kind.COUNT, "in the study", Component::trainees)
                .add("Cases (n)", Kind.COUNT, "in the study", Component::cases)
                .add("Assessors (n)", Kind.WHOLE, "in the study", Component::assessors)
                .add("Marks (n)", Kind.COUNT, "in the study", Component::marks)
                .add("Design", Kind.TEXT, "what is crossed with or nested in what", Component::design)
                .add("Method", Kind.TEXT, "how the variances were estimated", Component::method)
                .add("Note", Kind.PROSE, "what the study warns of", Component::note);
        return tables.summary(
                "Variance", "One row for each source of difference between the unit's marks.", figures.components());
    }

    Table<Planned> planned() {
        Tables<Planned> tables = new Tables<>(STUDY);
        tables.add("Rubric", Kind.TEXT, "id of the rubric", Planned::rubric)
                .add("Version", Kind.TEXT, "version of the rubric", Planned::version)
                .add("Cases", Kind.WHOLE, "of a trainee; type another number to try it", Planned::cases)
                .input(new Input(true, 1, 200, "A whole number of cases, 1 to 200."))
                .add(
                        "Assessors for each case",
                        Kind.WHOLE,
                        "all of the unit's take turns; type another number to try it, at most those of the unit",
                        Planned::each)
                .input(new Input(true, 1, 20, "A whole number of assessors, at most those of the unit."))
                .add("Coefficient Φ", Kind.COEFFICIENT, "what would be reached, 0 to 1", Planned::phi)
                .formula("{Variance of trainees}/({Variance of trainees}+{SEM}^2)")
                .bars()
                .add("SEM", Kind.SHARE, "absolute standard error of measurement that would be reached", Planned::sem)
                .formula("SQRT({Over cases}/{Cases}+{Over assessors}*(MOD(" + MARKS + "," + EACH + ")*(INT(" + MARKS
                        + "/" + EACH
                        + ")+1)^2+(" + EACH + "-MOD(" + MARKS + "," + EACH + "))*INT(" + MARKS + "/" + EACH + ")^2)/"
                        + MARKS + "^2+{Over marks}/" + MARKS + ")")
                .add(
                        "Reaches the wish",
                        Kind.TEXT,
                        "yes if Φ reaches the wish on Settings",
                        p -> p.phi() >= figures.wish() - 1e-12)
                .formula("IF({Coefficient Φ}>=phi_wish-0.000000000001,\"yes\",\"no\")")
                .add(
                        "Minutes",
                        Kind.NUMBER,
                        "of marking: cases × assessors × minutes each, as on Settings",
                        p -> p.cases() * p.each() * figures.minutesEach())
                .formula(MARKS + "*minutes_each")
                .add("Assessors of the unit", Kind.WHOLE, "who take turns", Planned::assessors)
                .add("Variance of trainees", Kind.COEFFICIENT, "between trainees, squared share", Planned::ofTrainees)
                .add("Over cases", Kind.COEFFICIENT, "variance that averages over cases", Planned::ofCases)
                .add("Over assessors", Kind.COEFFICIENT, "variance that averages over assessors", Planned::ofAssessors)
                .add("Over marks", Kind.COEFFICIENT, "variance that averages over single marks", Planned::ofMarks);
        return tables.summary(
                "D-study",
                "One row for each plan: what so many cases by so many assessors would reach. Change the framed numbers"
                        + " to try others.",
                figures.planned());
    }
}
