package org.sideport.report.workbook;

import java.util.List;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.UnitFigures.Agreed;
import org.sideport.report.workbook.UnitFigures.Complications;
import org.sideport.report.workbook.UnitFigures.CurvePlace;
import org.sideport.report.workbook.UnitFigures.Learning;

/** The sheets "Learning", "Learning curves", "Complications" and "Standards". */
final class FollowTables {

    private static final String PROGRESS = "as on the Progress screen and in: sideport report progress";
    private static final String TAGS = "store: events in the tags of the cases";

    /** Events of a unit; ids of procedures are compared as they are. */
    private static final String UNIT = "SUMPRODUCT((cp_procedure={Procedure})*";

    private final UnitFigures figures;
    private final WorkbookOptions options;

    FollowTables(UnitFigures figures, WorkbookOptions options) {
        this.figures = figures;
        this.options = options;
    }

    private static Function<Learning, @Nullable Object> at(
            Function<Learning, @Nullable CurvePlace> place, Function<CurvePlace, Object> figure) {
        return row -> {
            CurvePlace found = place.apply(row);
            return found == null ? null : figure.apply(found);
        };
    }

    private static Object seconds(double us) {
        return us / 1e6;
    }

    Table<Learning> learning() {
        Tables<Learning> tables = new Tables<>(PROGRESS);
        tables.add("Trainee", Kind.TEXT, "code of the trainee", Learning::trainee)
                .add("Procedure", Kind.TEXT, "id of the procedure", Learning::procedure)
                .add("Phase", Kind.TEXT, "id of the phase; total for the whole, first tag to last", Learning::phase)
                .add("Phase name", Kind.TEXT, "its name", Learning::name)
                .add("Cases with a time (n)", Kind.COUNT, "cases in which it took a sure time", Learning::n)
                .add("Unsure (n)", Kind.COUNT, "cases left out: their time is a lower limit only", Learning::unsure)
                .restOn(Learning::n)
                .add(
                        "Curve",
                        Kind.TEXT,
                        "curve of time against number of cases that describes the times best by AICc; blank below ten"
                                + " cases",
                        Learning::model)
                .add("Change shown", Kind.TEXT, "yes if the data tell a change from none", Learning::change);
        place(tables, "first", Learning::first);
        place(tables, "last", Learning::last);
        tables.add(
                        "Per doubling",
                        Kind.FACTOR,
                        "what each doubling of the number of cases multiplies the time by",
                        Learning::doubling)
                .add("Per doubling, lower", Kind.FACTOR, "lower 95 % limit", Learning::doublingLower)
                .add("Per doubling, upper", Kind.FACTOR, "upper 95 % limit", Learning::doublingUpper)
                .add("Latest (n)", Kind.COUNT, "cases compared with those before", Learning::latest)
                .add("Before (n)", Kind.COUNT, "those before", Learning::earlier)
                .add("Latest (s)", Kind.SECONDS, "geometric mean of the latest", l -> Tables.seconds(l.latestUs()))
                .add("Before (s)", Kind.SECONDS, "geometric mean of those before", l -> Tables.seconds(l.earlierUs()))
                .add("Latest over before", Kind.FACTOR, "below 1 the latest took less long", Learning::ratio)
                .formula("IF(OR({Latest (s)}=\"\",{Before (s)}=\"\"),\"\",{Latest (s)}/{Before (s)})")
                .add("Ratio, lower", Kind.FACTOR, "lower 95 % limit", Learning::ratioLower)
                .add("Ratio, upper", Kind.FACTOR, "upper 95 % limit", Learning::ratioUpper)
                .restOn(null)
                .add("Note", Kind.PROSE, "why there is no curve or no comparison", Learning::note);
        return tables.summary(
                "Learning",
                "One row for each trainee and phase. Speed is not competence, and the mix of cases is not allowed for.",
                figures.learning());
    }

    private static void place(Tables<Learning> tables, String which, Function<Learning, @Nullable CurvePlace> place) {
        tables.add(
                        "At case, " + which,
                        Kind.WHOLE,
                        which + " case with a time, by its number",
                        at(place, CurvePlace::caseNumber))
                .add(
                        "Fitted, " + which + " (s)",
                        Kind.SECONDS,
                        "time on the curve there",
                        at(place, p -> seconds(p.us())))
                .add(
                        "Lower, " + which + " (s)",
                        Kind.SECONDS,
                        "lower 95 % limit of the curve",
                        at(place, p -> seconds(p.lowerUs())))
                .add(
                        "Upper, " + which + " (s)",
                        Kind.SECONDS,
                        "upper 95 % limit of the curve",
                        at(place, p -> seconds(p.upperUs())));
    }

    Table<CurvePlace> curves() {
        Tables<CurvePlace> tables = new Tables<>(PROGRESS);
        tables.add("Trainee", Kind.TEXT, "code of the trainee", CurvePlace::trainee)
                .add("Procedure", Kind.TEXT, "id of the procedure", CurvePlace::procedure)
                .add("Case number", Kind.FACTOR, "place along the curve, in cases", CurvePlace::caseNumber)
                .add("Fitted (s)", Kind.SECONDS, "time of the whole operation on the curve", p -> seconds(p.us()))
                .add("Lower (s)", Kind.SECONDS, "lower 95 % limit of the curve", p -> seconds(p.lowerUs()))
                .add("Upper (s)", Kind.SECONDS, "upper 95 % limit of the curve", p -> seconds(p.upperUs()));
        return tables.table(
                "Learning curves",
                "Points along the fitted curve of the whole operation, for the charts.",
                figures.curves());
    }

    Table<Complications> complications() {
        ToIntFunction<Complications> few = c -> isUnitMasked(c) ? 1 : few(c.known(), c.events());
        Tables<Complications> tables = new Tables<>(TAGS);
        tables.add("Trainee", Kind.TEXT, "code of the trainee", Complications::trainee)
                .add("Procedure", Kind.TEXT, "id of the procedure", Complications::procedure)
                .named("cp_procedure")
                .add("Cases (n)", Kind.COUNT, "all cases of the trainee", Complications::cases)
                .add(
                        "Known (n)",
                        Kind.COUNT,
                        "cases that somebody tagged, so that the outcome is known",
                        Complications::known)
                .named("cp_known")
                .restOn(c -> isUnitMasked(c) ? 1 : c.known())
                .add(
                        "Events (n)",
                        Kind.COUNT,
                        "cases with at least one event that counts, whoever tagged it",
                        Complications::events)
                .named("cp_events")
                .restOn(few)
                .add("Rate", Kind.SHARE, "share of the known cases; not adjusted for risk", Complications::share)
                .formula("IF({Known (n)}=0,\"\",{Events (n)}/{Known (n)})")
                .add(
                        "Lower limit",
                        Kind.SHARE,
                        "exact binomial 95 % limit (Clopper & Pearson 1934)",
                        Complications::lower)
                .formula("IF({Known (n)}=0,\"\",IF({Events (n)}=0,0,BETAINV(0.025,{Events (n)},{Known (n)}-{Events"
                        + " (n)}+1)))")
                .add("Upper limit", Kind.SHARE, "likewise", Complications::upper)
                .formula("IF({Known (n)}=0,\"\",IF({Events (n)}={Known (n)},1,BETAINV(0.975,{Events (n)}+1,{Known"
                        + " (n)}-{Events (n)})))")
                .restOn(c -> givesAway(c) ? 1 : few(c.known(), c.events()))
                .add("Unit rate", Kind.SHARE, "share over all trainees of the procedure", Complications::unit)
                .formula("IF(" + UNIT + "cp_known)=0,\"\"," + UNIT + "cp_events)/" + UNIT + "cp_known))")
                .add(
                        "Funnel 95 %, lower",
                        Kind.SHARE,
                        "where chance alone puts 95 of 100 with so many cases at the unit rate, exact binomial",
                        Complications::funnelLower)
                .add("Funnel 95 %, upper", Kind.SHARE, "likewise", Complications::funnelUpper)
                .add("Funnel 99.8 %, lower", Kind.SHARE, "the same for 998 of 1000", Complications::farLower)
                .add("Funnel 99.8 %, upper", Kind.SHARE, "likewise", Complications::farUpper)
                .source(PROGRESS)
                .restOn(few)
                .add(
                        "CUSUM",
                        Kind.FACTOR,
                        "sum of the chart after the last case; blank without a chart",
                        Complications::statistic)
                .add("CUSUM limit", Kind.FACTOR, "at which it signals", Complications::limit)
                .add("CUSUM state", Kind.PROSE, "what the chart says, or why there is none", Complications::state)
                .source("procedure file")
                .restOn(null)
                .add("What counts", Kind.PROSE, "ids of the events that count", Complications::kinds);
        return tables.summary(
                "Complications",
                "One row for each trainee: how many, how sure, and where chance alone would put it. No figure is"
                        + " adjusted for difficulty; a CUSUM needs every operation in turn.",
                figures.complications());
    }

    /** True where the unit's rate would give a masked count away: only one is masked, or few events are all there are. */
    private boolean givesAway(Complications one) {
        List<Complications> own = figures.complications().stream()
                .filter(c -> c.procedure().equals(one.procedure()))
                .toList();
        long masked = own.stream()
                .filter(c -> options.masks(few(c.known(), c.events())))
                .count();
        return masked == 1 || isUnitMasked(one);
    }

    /** True where so few events are all there are: then a 0 beside a masked count would tell who had them. */
    private boolean isUnitMasked(Complications one) {
        return options.masks(figures.complications().stream()
                .filter(c -> c.procedure().equals(one.procedure()))
                .mapToInt(Complications::events)
                .sum());
    }

    Table<Agreed> standards() {
        Tables<Agreed> tables = new Tables<>("store: agreed standards");
        String rows = "SUMPRODUCT((cm_rubric={Rubric})*(cm_version={Version})*(cm_competency=\"" + UnitFigures.WHOLE
                + "\")*(cm_recent>0)";
        tables.add("Rubric", Kind.TEXT, "id of the rubric", Agreed::rubric)
                .add("Version", Kind.TEXT, "version of the rubric", Agreed::version)
                .add("Number", Kind.WHOLE, "1 for the first standard of this version", Agreed::number)
                .add("In force", Kind.TEXT, "no if a later one took its place", Agreed::inForce)
                .add("Standard", Kind.SHARE, "least share of the applicable maximum", Agreed::share)
                .add("Lower limit", Kind.SHARE, "limit of the method; blank where it gives none", Agreed::lower)
                .add("Upper limit", Kind.SHARE, "likewise", Agreed::upper)
                .add("Method", Kind.TEXT, "how it was found", Agreed::method)
                .add("Rests on (n)", Kind.WHOLE, "judges or performances, as the method counts", Agreed::n)
                .add("Agreed on", Kind.DATE, "day", Agreed::agreedOn)
                .add("Agreed by", Kind.TEXT, "codes of those who agreed", Agreed::agreedBy)
                .source("Competencies")
                .add("Trainees (n)", Kind.COUNT, "with a mean of the last k cases", Agreed::trainees)
                .formula(rows + ")")
                .restOn(Agreed::trainees)
                .add(
                        "Means reaching it (n)",
                        Kind.COUNT,
                        "trainees whose mean of the last k reaches it",
                        Agreed::reaching)
                .formula(rows + "*(cm_mean>={Standard}-0.000000000001))")
                .restOn(a -> few(a.trainees(), a.reaching()))
                .add(
                        "Means reaching it",
                        Kind.SHARE,
                        "share of these trainees; no verdict on anybody",
                        a -> part(a.reaching(), a.trainees()))
                .formula("IF({Trainees (n)}=0,\"\",{Means reaching it (n)}/{Trainees (n)})")
                .restOn(null)
                .add("Cases (n)", Kind.COUNT, "last k cases of all trainees together", Agreed::cases)
                .formula("SUMPRODUCT((cm_rubric={Rubric})*(cm_version={Version})*(cm_competency=\"" + UnitFigures.WHOLE
                        + "\")*cm_recent)")
                .restOn(Agreed::cases)
                .add("Cases reaching it (n)", Kind.COUNT, "of them with a share that reaches it", Agreed::casesReaching)
                .restOn(a -> few(a.cases(), a.casesReaching()))
                .add("Cases reaching it", Kind.SHARE, "share of these cases", a -> part(a.casesReaching(), a.cases()))
                .formula("IF({Cases (n)}=0,\"\",{Cases reaching it (n)}/{Cases (n)})")
                .restOn(null)
                .source("store: agreed standards")
                .add("Note", Kind.PROSE, "why, in the words of those who agreed", Agreed::note);
        return tables.summary(
                "Standards", "One row for each standard that people agreed, superseded ones too.", figures.standards());
    }

    private static int few(int of, int reaching) {
        return reaching == 0 ? of : Math.min(of, reaching);
    }

    private static @Nullable Object part(int count, int of) {
        return of == 0 ? null : (Object) ((double) count / of);
    }
}
