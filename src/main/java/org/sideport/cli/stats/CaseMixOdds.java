package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.casemix.ConcordanceStatistic;
import org.sideport.stats.casemix.OddsTable;
import org.sideport.stats.casemix.OddsTable.CompositeRisk;
import org.sideport.stats.casemix.OddsTable.OddsFactor;
import org.sideport.stats.casemix.OddsTable.OddsLevel;
import org.sideport.stats.casemix.RiskCalibration;
import org.sideport.timing.CsvTable;

/** The expected risk of each case of a table by published odds ratios. */
record CaseMixOdds(CsvTable data, OddsTable odds, String outcome, double level) {

    private static final String CAUTION = "The expected risk describes the mix of cases and is no advice for a patient;"
            + " what follows for a person from observed and expected is for the local credentialing body to decide.";

    /** A case with its risk as chosen, and with all factors counted if it tells those that are left out. */
    private record Judged(
            CsvTable.Row row, CompositeRisk risk, @Nullable CompositeRisk all) {}

    /** The table itself. */
    static Answer shown(OddsTable odds) {
        TextTable table = new TextTable("factor", "level", ">odds ratio", "left out because");
        for (OddsFactor factor : odds.factors()) {
            @Nullable String because = factor.leftOutBecause();
            for (OddsLevel level : factor.levels()) {
                table.row(
                        factor.name(),
                        level.name(),
                        Figures.plain(level.oddsRatio(), 2),
                        because == null ? "" : because);
            }
        }
        List<String> lines = new ArrayList<>(source(odds));
        lines.add("");
        lines.addAll(Answer.lines(table));
        return new Answer(
                OddsTableFile.json(odds),
                lines,
                List.of(),
                "Multiply the ratios of a case's levels by the odds of the baseline. " + CAUTION);
    }

    private static List<String> source(OddsTable odds) {
        return List.of(
                odds.title() + " (" + odds.source() + ")",
                odds.note(),
                "Baseline " + Figures.plain(100 * odds.baseline(), 2) + " %: " + odds.baselineSource() + ".");
    }

    Outcome<Answer> answer(List<String> with, List<String> without) {
        Set<String> leftOut = leftOut(with, without);
        List<OddsFactor> counted = odds.factors().stream()
                .filter(factor -> !leftOut.contains(factor.name()))
                .toList();
        if (counted.stream().noneMatch(factor -> data.has(factor.name()))) {
            throw new InputException(
                    "no column is a factor of the table",
                    data.file() + ", line 1",
                    "name columns "
                            + String.join(
                                    ", ", counted.stream().map(OddsFactor::name).toList()));
        }
        if (data.rows().isEmpty()) {
            throw new InputException("there are no cases", data.file().toString(), "add a row for each case");
        }
        List<Judged> cases = new ArrayList<>();
        for (CsvTable.Row row : data.rows()) {
            CompositeRisk risk = risk(row, leftOut);
            boolean told = !leftOut.isEmpty() && leftOut.stream().allMatch(name -> row.orNull(name) != null);
            cases.add(new Judged(row, risk, told ? risk(row, Set.of()) : null));
        }
        return Outcome.of(answer(cases, leftOut));
    }

    private Set<String> leftOut(List<String> with, List<String> without) {
        Set<String> known = new HashSet<>();
        odds.factors().forEach(factor -> known.add(factor.name()));
        List<String> named = new ArrayList<>(with);
        named.addAll(without);
        for (String name : named) {
            if (!known.contains(name)) {
                throw new InputException(
                        "the table has no factor " + name,
                        "--with, --without",
                        "its factors are " + String.join(", ", new TreeSet<>(known)));
            }
        }
        Set<String> leftOut = new TreeSet<>(odds.leftOutByDefault());
        with.forEach(leftOut::remove);
        leftOut.addAll(without);
        return leftOut;
    }

    private CompositeRisk risk(CsvTable.Row row, Set<String> leftOut) {
        Outcome<CompositeRisk> outcome = odds.risk(row.cells(), leftOut);
        if (outcome instanceof Outcome.Refused<CompositeRisk> refused) {
            Refusal refusal = refused.refusal();
            throw row.fault(refusal.why(), refusal.remedy());
        }
        return outcome.orElseThrow();
    }

    private Answer answer(List<Judged> cases, Set<String> leftOut) {
        TextTable text = new TextTable("case", ">odds ratio", ">risk", ">risk with all factors", "factors");
        List<Object> json = new ArrayList<>();
        double expected = 0;
        int assuming = 0;
        for (Judged found : cases) {
            expected += found.risk().risk();
            assuming += found.risk().assumed().isEmpty() ? 0 : 1;
            @Nullable CompositeRisk all = found.all();
            List<String> raised = new ArrayList<>();
            Map<String, @Nullable Object> levels = new LinkedHashMap<>();
            found.risk().counted().forEach(c -> {
                levels.put(c.factor(), c.level().name());
                if (c.level().oddsRatio() != 1) {
                    raised.add(c.factor() + " " + c.level().name());
                }
            });
            String code = found.row().text("case");
            text.row(
                    code.isEmpty() ? "line " + found.row().line() : code,
                    Figures.plain(found.risk().ratio()),
                    Figures.plain(100 * found.risk().risk(), 3) + " %",
                    all == null ? "–" : Figures.plain(100 * all.risk(), 3) + " %",
                    String.join(", ", raised));
            json.add(Json.object(
                    "case",
                    found.row().orNull("case"),
                    "odds_ratio",
                    found.risk().ratio(),
                    "risk",
                    found.risk().risk(),
                    "odds_ratio_all_factors",
                    all == null ? null : all.ratio(),
                    "risk_all_factors",
                    all == null ? null : all.risk(),
                    "levels",
                    levels,
                    "assumed_reference",
                    found.risk().assumed()));
        }
        List<String> warnings = new ArrayList<>();
        List<String> absent = odds.factors().stream()
                .map(OddsFactor::name)
                .filter(name -> !leftOut.contains(name) && !data.has(name))
                .toList();
        if (assuming > 0) {
            warnings.add(assuming + " of " + cases.size() + " cases do not tell every factor"
                    + (absent.isEmpty() ? "" : " (no column " + String.join(", ", absent) + ")")
                    + "; what is not told is taken at its reference level, so their risk may be too low.");
        }
        List<String> lines = new ArrayList<>(source(odds));
        lines.add("");
        lines.addAll(Answer.lines(text));
        lines.add("");
        lines.add(cases.size() + " cases, expected events " + Figures.plain(expected, 2) + "; mean risk "
                + Figures.percent(expected / cases.size()));
        Map<String, @Nullable Object> checked = check(cases, lines, warnings);
        Map<String, @Nullable Object> answer = Json.object(
                "table",
                OddsTableFile.head(odds),
                "left_out",
                List.copyOf(leftOut),
                "n",
                cases.size(),
                "expected",
                expected,
                "cases",
                json);
        answer.putAll(checked);
        return new Answer(answer, lines, warnings, choice(leftOut) + " " + CAUTION);
    }

    /** With what happened, over the cases whose outcome is known. */
    private Map<String, @Nullable Object> check(List<Judged> cases, List<String> lines, List<String> warnings) {
        List<Judged> known = cases.stream()
                .filter(found -> found.row().orNull(outcome) != null)
                .toList();
        if (known.isEmpty()) {
            return Json.object("calibration", null, "c_statistic", null);
        }
        double[] risk = known.stream().mapToDouble(found -> found.risk().risk()).toArray();
        double[] happened = known.stream()
                .mapToDouble(found -> CaseMixFit.outcome(found.row(), outcome))
                .toArray();
        if (known.size() < cases.size()) {
            warnings.add((cases.size() - known.size()) + " cases have no outcome and do not count in the comparison.");
        }
        RiskCalibration calibration = RiskCalibration.of(risk, happened, false, level);
        warnings.addAll(calibration.warnings());
        lines.add("");
        lines.addAll(CaseMixFit.calibrationLines(calibration));
        Outcome<Estimate> concordance = ConcordanceStatistic.of(risk, happened, level);
        @Nullable Map<String, @Nullable Object> c = null;
        if (concordance instanceof Outcome.Found<Estimate> found) {
            lines.add("c-statistic " + Figures.of(found.value()));
            warnings.addAll(found.value().warnings());
            c = Figures.json(found.value());
        }
        return Json.object("calibration", CaseMixFit.calibrationJson(calibration), "c_statistic", c);
    }

    /** Which choice was made about the factors that a table leaves out by itself. */
    private String choice(Set<String> leftOut) {
        List<String> parts = new ArrayList<>();
        for (OddsFactor factor : odds.factors()) {
            @Nullable String because = factor.leftOutBecause();
            if (because != null) {
                parts.add(
                        leftOut.contains(factor.name())
                                ? "The factor " + factor.name() + " is left out of the risk (" + because + ")."
                                : "The factor " + factor.name() + " is counted in the risk; mind that " + because
                                        + ".");
            } else if (leftOut.contains(factor.name())) {
                parts.add("The factor " + factor.name() + " is left out of the risk, as asked.");
            }
        }
        parts.add(
                "The baseline of " + Figures.plain(100 * odds.baseline(), 2) + " % is " + odds.baselineSource() + ".");
        return String.join(" ", parts);
    }
}
