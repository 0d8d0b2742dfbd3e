package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.standard.Angoff;
import org.sideport.stats.standard.BorderlineGroup;
import org.sideport.stats.standard.BorderlineRegression;
import org.sideport.stats.standard.ContrastingGroups;
import org.sideport.stats.standard.NormalCrossing;
import org.sideport.stats.standard.NormalGroup;
import org.sideport.stats.standard.ObservedCut;

/**
 * Cuts as people and machines read them.
 *
 * @param max highest possible score; {@code null} if not told
 */
record CutScoreReport(@Nullable Double max) {

    private static final String CAUTION = "No pass mark is official, and a cut is as good as the judgements behind it:"
            + " whether anyone passes is for the local credentialing body to decide, by its own regulations.";

    private static final int[] OTHER_PANELS = {5, 10, 15, 20};

    Answer angoff(Angoff found, List<String> judges) {
        Angoff.Components c = found.components();
        TextTable totals = new TextTable("judge", ">total");
        List<Object> totalsJson = new ArrayList<>();
        for (int j = 0; j < judges.size(); j++) {
            totals.row(judges.get(j), Figures.plain(found.totals().get(j), 2));
            totalsJson.add(
                    Json.object("judge", judges.get(j), "total", found.totals().get(j)));
        }
        TextTable panels = new TextTable(">judges", ">SE over judges", ">SE, items a sample too");
        List<Object> panelsJson = new ArrayList<>();
        for (int other : OTHER_PANELS) {
            panels.row(
                    Integer.toString(other),
                    Figures.plain(c.standardError(other)),
                    Figures.plain(c.standardErrorOverItems(other)));
            panelsJson.add(Json.object(
                    "judges",
                    other,
                    "se",
                    c.standardError(other),
                    "se_items_sampled",
                    c.standardErrorOverItems(other)));
        }
        List<String> lines = new ArrayList<>(Answer.lines(totals));
        lines.add("");
        lines.add(line("Cut", found.cut()) + "; by Student's t " + Figures.limits(found.tLimits()));
        lines.add("SE over judges " + Figures.plain(found.cut().se()) + "; if the items are a sample too "
                + Figures.plain(found.itemsAlsoVary()));
        lines.add("Variance of a judgement: judge " + Figures.plain(c.judge(), 4) + ", item "
                + Figures.plain(c.item(), 4) + ", judge by item and chance " + Figures.plain(c.rest(), 4));
        lines.add("");
        lines.addAll(Answer.lines(panels));
        Map<String, @Nullable Object> json = json("angoff", found.cut());
        json.put("t_lower", found.tLimits().lower());
        json.put("t_upper", found.tLimits().upper());
        json.put("se_items_sampled", found.itemsAlsoVary());
        json.put("judges", c.judges());
        json.put("items", c.items());
        json.put("totals", totalsJson);
        json.put("variance", Json.object("judge", c.judge(), "item", c.item(), "judge_by_item", c.rest()));
        json.put("other_panels", panelsJson);
        return new Answer(
                json,
                lines,
                found.cut().warnings(),
                "These " + c.judges() + " judges expect " + points(found.cut().value())
                        + " from a person who only just passes. " + CAUTION);
    }

    Answer group(BorderlineGroup found, int all, String grades, List<String> more) {
        List<String> lines = new ArrayList<>();
        lines.add(line("Cut (mean)", found.cut()) + "; SE "
                + Figures.plain(found.cut().se()));
        lines.add(line("Median", found.median()));
        lines.add(found.cut().n() + " of " + all + " performances were graded " + grades + "; SD "
                + Figures.plain(found.scores().sd()) + ", quartiles "
                + Figures.plain(found.scores().q1()) + " and "
                + Figures.plain(found.scores().q3()));
        Map<String, @Nullable Object> json = json("borderline_group", found.cut());
        json.put("median", Figures.json(found.median()));
        json.put("performances", all);
        json.put("sd", found.scores().sd());
        List<String> warnings = new ArrayList<>(found.cut().warnings());
        warnings.addAll(more);
        return new Answer(
                json,
                lines,
                warnings,
                "The performances graded borderline scored "
                        + points(found.cut().value()) + " on average. " + CAUTION);
    }

    Answer regression(BorderlineRegression fit, double[] grades, Bootstrap bootstrap, List<String> more) {
        TextTable table = new TextTable(">grade", ">cut", ">%", ">SE", ">lower", ">upper");
        List<Object> cuts = new ArrayList<>();
        List<String> warnings = new ArrayList<>();
        List<String> words = new ArrayList<>();
        for (double grade : grades) {
            Estimate cut = fit.cut(grade, bootstrap);
            @Nullable Interval limits = cut.limits();
            table.row(
                    Figures.plain(grade, grade % 1 == 0 ? 0 : 2),
                    Figures.plain(cut.value()),
                    max == null ? "–" : Figures.plain(100 * cut.value() / max, 1),
                    Figures.plain(cut.se()),
                    limits == null ? "–" : Figures.plain(limits.lower()),
                    limits == null ? "–" : Figures.plain(limits.upper()));
            cuts.add(Json.object("grade", grade, "cut", Figures.json(cut), "cut_share", share(cut)));
            warnings.addAll(cut.warnings());
            words.add(points(cut.value()) + " at grade " + Figures.plain(grade, grade % 1 == 0 ? 0 : 2));
        }
        warnings.addAll(more);
        List<String> lines = new ArrayList<>(Answer.lines(table));
        lines.add("");
        lines.add("score = " + Figures.plain(fit.intercept(), 4) + " + " + Figures.plain(fit.slope(), 4)
                + " · grade; r² " + Figures.plain(fit.r2(), 4) + ", residual SD "
                + Figures.plain(fit.residualSd(), 4) + ", n " + fit.grade().length);
        return new Answer(
                Json.object(
                        "method",
                        "borderline_regression",
                        "n",
                        fit.grade().length,
                        "intercept",
                        fit.intercept(),
                        "slope",
                        fit.slope(),
                        "r2",
                        fit.r2(),
                        "residual_sd",
                        fit.residualSd(),
                        "cuts",
                        cuts),
                lines,
                warnings.stream().distinct().toList(),
                "On the line through all performances the cut is " + String.join(", ", words) + ". " + CAUTION);
    }

    Answer contrasting(ContrastingGroups found, String[] names, List<String> more) {
        ObservedCut observed = found.observed();
        List<String> lines = groupLines(found.weaker(), found.stronger(), names[0], names[1]);
        lines.add("");
        lines.add(line("Cut (curves cross)", found.cut()));
        TextTable rates = new TextTable("", ">by the curves", ">seen", ">lower", ">upper");
        rates.row(cells("false pass", found.theory().falsePass(), found.falsePass()));
        rates.row(cells("false fail", found.theory().falseFail(), found.falseFail()));
        lines.addAll(Answer.lines(rates));
        lines.add("Fewest persons misjudged (" + observed.falsePasses() + " passed, " + observed.falseFails()
                + " failed wrongly) by a cut above " + Figures.plain(observed.from()) + " and up to "
                + Figures.plain(observed.to())
                + (observed.others() == 0 ? "" : "; " + observed.others() + " other places do as well"));
        Map<String, @Nullable Object> json = json("contrasting_groups", found.cut());
        json.putAll(groupsJson(found.weaker(), found.stronger()));
        json.putAll(theoryJson(found.theory()));
        json.put("false_pass_observed", Figures.json(found.falsePass()));
        json.put("false_fail_observed", Figures.json(found.falseFail()));
        json.put(
                "observed_cut",
                Json.object(
                        "cut",
                        observed.cut(),
                        "from",
                        observed.from(),
                        "to",
                        observed.to(),
                        "false_passes",
                        observed.falsePasses(),
                        "false_fails",
                        observed.falseFails(),
                        "others",
                        observed.others()));
        List<String> warnings = new ArrayList<>(found.cut().warnings());
        warnings.addAll(more);
        return new Answer(json, lines, warnings, crossing(found.cut().value()));
    }

    Answer published(NormalGroup weaker, NormalGroup stronger, NormalCrossing found) {
        List<String> lines = groupLines(weaker, stronger, "weaker", "stronger");
        lines.add("");
        lines.add("Cut (curves cross) " + Figures.plain(found.cut())
                + (max == null ? "" : " = " + Figures.percent(found.cut() / max)) + "; by the curves false pass "
                + Figures.plain(100 * found.falsePass(), 2) + " %, false fail "
                + Figures.plain(100 * found.falseFail(), 2) + " %");
        Map<String, @Nullable Object> json = Json.object(
                "method",
                "contrasting_groups",
                "cut",
                Json.object("estimate", found.cut(), "se", null, "lower", null, "upper", null),
                "cut_share",
                max == null ? null : (Double) (found.cut() / max));
        json.putAll(groupsJson(weaker, stronger));
        json.putAll(theoryJson(found));
        return new Answer(
                json,
                lines,
                List.of("From means and SDs alone there are no limits, and the scores are taken as normal."),
                crossing(found.cut()));
    }

    private String crossing(double cut) {
        return "Between the two groups, taken as equally large and normal, the cut lies at " + points(cut)
                + "; groups chosen by experience show what is usual, not what is safe. " + CAUTION;
    }

    private static List<String> groupLines(NormalGroup weaker, NormalGroup stronger, String first, String second) {
        TextTable table = new TextTable("group", ">n", ">mean", ">SD");
        table.row(cells(first, weaker));
        table.row(cells(second, stronger));
        return new ArrayList<>(Answer.lines(table));
    }

    private static String[] cells(String name, NormalGroup group) {
        @Nullable Integer n = group.n();
        return new String[] {
            name, n == null ? "–" : n.toString(), Figures.plain(group.mean()), Figures.plain(group.sd())
        };
    }

    private static String[] cells(String name, double theory, Estimate seen) {
        @Nullable Interval limits = seen.limits();
        return new String[] {
            name,
            Figures.percent(theory),
            Figures.percent(seen.value()),
            limits == null ? "–" : Figures.percent(limits.lower()),
            limits == null ? "–" : Figures.percent(limits.upper())
        };
    }

    private static Map<String, @Nullable Object> groupsJson(NormalGroup weaker, NormalGroup stronger) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("weaker", Json.object("n", weaker.n(), "mean", weaker.mean(), "sd", weaker.sd()));
        json.put("stronger", Json.object("n", stronger.n(), "mean", stronger.mean(), "sd", stronger.sd()));
        return json;
    }

    private static Map<String, @Nullable Object> theoryJson(NormalCrossing found) {
        return Json.object("false_pass_theoretical", found.falsePass(), "false_fail_theoretical", found.falseFail());
    }

    private Map<String, @Nullable Object> json(String method, Estimate cut) {
        return Json.object("method", method, "cut", Figures.json(cut), "cut_share", share(cut));
    }

    private @Nullable Double share(Estimate cut) {
        return max == null ? null : (Double) (cut.value() / max);
    }

    private String line(String name, Estimate cut) {
        return name + " " + Figures.of(cut) + (max == null ? "" : " = " + Figures.percent(cut.value() / max));
    }

    private String points(double cut) {
        return Figures.plain(cut, 2)
                + (max == null
                        ? " points"
                        : " of " + Figures.plain(max, max % 1 == 0 ? 0 : 2) + " points (" + Figures.percent(cut / max)
                                + ")");
    }
}
