package org.sideport.cli.standard;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Standard;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.workflow.CutProposal;

/** Cuts and standards as people and machines read them. */
final class StandardViews {

    static final String CAUTION =
            "No pass mark is official, and a standard is as good as the judgements behind it: whether"
                    + " anyone passes is for the local credentialing body to decide, by its own regulations.";

    private StandardViews() {}

    static Map<String, @Nullable Object> json(CutProposal cut) {
        return Json.object(
                "rubric", cut.rubric(),
                "rubric_version", cut.rubricVersion(),
                "method", cut.basis().method().id(),
                "share", cut.share(),
                "se", cut.standardError(),
                "lower", cut.lower(),
                "upper", cut.upper(),
                "level", cut.level(),
                "n", cut.n(),
                "basis", cut.described(),
                "data_digest", cut.dataDigest().isEmpty() ? null : cut.dataDigest(),
                "detail", detail(cut.detail()),
                "warnings", cut.warnings(),
                "caution", CAUTION);
    }

    private static @Nullable Object detail(CutProposal.Detail detail) {
        if (detail instanceof CutProposal.Judges judges) {
            return Json.object(
                    "maximum", judges.maximum(),
                    "totals",
                            judges.totals().stream()
                                    .map(t -> Json.object("judge", t.judge(), "points", t.points(), "share", t.share()))
                                    .toList(),
                    "se_items_sampled", judges.overItems(),
                    "panels",
                            judges.panels().stream()
                                    .map(p -> Json.object("judges", p.judges(), "se", p.standardError()))
                                    .toList());
        }
        if (detail instanceof CutProposal.Line line) {
            return Json.object(
                    "intercept", line.intercept(),
                    "slope", line.slope(),
                    "r2", line.r2(),
                    "residual_sd", line.residualSd(),
                    "performances", performances(line.performances()));
        }
        if (detail instanceof CutProposal.Borderline group) {
            return Json.object(
                    "graded", group.graded(),
                    "median", estimate(group.median()),
                    "sd", group.sd(),
                    "performances", performances(group.performances()));
        }
        if (detail instanceof CutProposal.Groups groups) {
            return Json.object(
                    "weaker", group(groups.weaker()),
                    "stronger", group(groups.stronger()),
                    "false_pass", groups.falsePass(),
                    "false_fail", groups.falseFail(),
                    "observed_false_pass", estimate(groups.observedFalsePass()),
                    "observed_false_fail", estimate(groups.observedFalseFail()),
                    "observed_cut", groups.observedCut());
        }
        return null;
    }

    private static Map<String, @Nullable Object> group(CutProposal.Group group) {
        return Json.object(
                "n", group.n(),
                "mean", group.mean(),
                "sd", group.sd(),
                "performances", performances(group.performances()));
    }

    private static Map<String, @Nullable Object> estimate(Estimate estimate) {
        Interval limits = estimate.limits();
        return Json.object(
                "estimate",
                estimate.value(),
                "lower",
                limits == null ? null : limits.lower(),
                "upper",
                limits == null ? null : limits.upper(),
                "n",
                estimate.n());
    }

    private static List<Map<String, @Nullable Object>> performances(List<CutProposal.Performance> performances) {
        List<Map<String, @Nullable Object>> rows = new ArrayList<>();
        for (CutProposal.Performance p : performances) {
            rows.add(Json.object(
                    "case", p.caseCode(),
                    "trainee", p.trainee(),
                    "assessor", p.assessor(),
                    "grade", p.grade(),
                    "share", p.share()));
        }
        return rows;
    }

    static void print(CutProposal cut, Console console) {
        console.say("Rubric " + cut.rubric() + " " + cut.rubricVersion() + ", "
                + cut.basis().method().id().replace('_', ' ') + ": cut at " + Words.percent(cut.share())
                + " of the applicable maximum"
                + error(cut.standardError(), cut.lower(), cut.upper(), cut.level(), cut.n()) + ".");
        printDetail(cut.detail(), console);
        cut.described().forEach((name, value) -> console.say("  " + name.replace('_', ' ') + ": " + value));
        cut.warnings().forEach(warning -> console.say("Warning: " + warning));
    }

    private static String error(
            @Nullable Double se,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double level,
            @Nullable Integer n) {
        List<String> parts = new ArrayList<>();
        if (se != null) {
            parts.add("SE " + Words.number(100 * se, 1));
        }
        if (lower != null) {
            parts.add(Words.limits(lower, upper, level));
        }
        if (n != null) {
            parts.add("n = " + n);
        }
        return parts.isEmpty() ? "" : " (" + String.join("; ", parts) + ")";
    }

    private static void printDetail(CutProposal.Detail detail, Console console) {
        if (detail instanceof CutProposal.Judges judges) {
            TextTable table = new TextTable("judge", ">points", ">share");
            judges.totals().forEach(t -> table.row(t.judge(), Words.number(t.points(), 2), Words.percent(t.share())));
            table.print(console::say);
            for (CutProposal.Panel panel : judges.panels()) {
                console.say("With " + panel.judges() + " judges the standard error would be about "
                        + Words.number(100 * panel.standardError(), 1) + " points of per cent.");
            }
        } else if (detail instanceof CutProposal.Line line) {
            console.say("share = " + Words.number(line.intercept(), 4) + " + " + Words.number(line.slope(), 4)
                    + " × grade; r² " + Words.number(line.r2(), 3) + ", residual SD "
                    + Words.number(100 * line.residualSd(), 1) + " points of per cent.");
        } else if (detail instanceof CutProposal.Borderline group) {
            console.say("Median " + Words.percent(group.median().value()) + "; "
                    + group.performances().size() + " of " + group.graded() + " graded performances are borderline.");
        } else if (detail instanceof CutProposal.Groups groups) {
            TextTable table = new TextTable("group", ">cases", ">mean", ">SD");
            row(table, "weaker", groups.weaker());
            row(table, "stronger", groups.stronger());
            table.print(console::say);
            console.say("By the curves " + Words.percent(groups.falsePass()) + " of the weaker group would pass and "
                    + Words.percent(groups.falseFail()) + " of the stronger fail; observed "
                    + Words.percent(groups.observedFalsePass().value()) + " and "
                    + Words.percent(groups.observedFalseFail().value()) + ". Fewest are misjudged at "
                    + Words.percent(groups.observedCut()) + ".");
        }
    }

    private static void row(TextTable table, String name, CutProposal.Group group) {
        table.row(name, String.valueOf(group.n()), Words.percent(group.mean()), Words.percent(group.sd()));
    }

    static void print(Standard standard, Console console) {
        console.say("Standard " + standard.number() + " of rubric " + standard.rubric() + " "
                + standard.rubricVersion() + (standard.inForce() ? ", in force" : ", superseded") + ": "
                + Words.percent(standard.share()) + " of the applicable maximum by "
                + standard.method().id().replace('_', ' ')
                + error(standard.standardError(), standard.lower(), standard.upper(), standard.level(), standard.n())
                + ".");
        console.say("  Agreed on " + standard.agreedOn() + " by " + String.join(", ", standard.agreedBy()) + ". Id: "
                + standard.id());
        standard.basis().forEach((name, value) -> console.say("  " + name.replace('_', ' ') + ": " + value));
        if (!standard.note().isEmpty()) {
            console.say("  " + standard.note());
        }
        standard.warnings().forEach(warning -> console.say("  Warning: " + warning));
    }
}
