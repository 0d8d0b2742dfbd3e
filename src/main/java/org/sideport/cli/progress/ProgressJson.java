package org.sideport.cli.progress;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.workflow.DecisionFigures;
import org.sideport.workflow.FollowProgress;
import org.sideport.workflow.ProgressView;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.Marks;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.ProgressView.TermTimes;
import org.sideport.workflow.assign.SelfAndAssessor.OverTime;
import org.sideport.workflow.progress.ProgressSentences;
import org.sideport.workflow.progress.ProgressWords;

/** Progress for machines. */
final class ProgressJson {

    private ProgressJson() {}

    static Map<String, @Nullable Object> of(ProgressView view, ProgressWords words) {
        ProgressSentences sentences = new ProgressSentences(words);
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("trainee", view.trainee());
        json.put("procedure", view.procedure().id());
        json.put("cases", view.cases().stream().map(ProgressJson::oneCase).toList());
        json.put("cases_not_shown", view.hidden());
        json.put("left_out", LeftOutCases.json(view.leftOut()));
        json.put("cases_not_tagged", view.untagged());
        json.put("recent", view.recent());
        json.put("fewest_each", FollowProgress.FEWEST_EACH);
        json.put("fewest_peers", view.fewestPeers());
        json.put(
                "times",
                view.times().stream().map(t -> term(view, t, sentences)).toList());
        json.put("marks", view.marks() == null ? null : marks(view.marks()));
        json.put("gap", view.gap() == null ? null : gap(view.gap()));
        json.put(
                "comments",
                view.comments().stream()
                        .map(c -> Json.object(
                                "case", c.of().code(),
                                "at_us", c.at().micros(),
                                "author", c.author(),
                                "tone", c.tone().id(),
                                "text", c.text(),
                                "answered", c.answered()))
                        .toList());
        json.put("monitoring", outcome(view.monitoring(), ProgressJson::monitoring));
        json.put("monitoring_says", sentences.monitoring(view));
        return json;
    }

    private static Map<String, @Nullable Object> oneCase(OneCase one) {
        return Json.object(
                "number",
                one.number(),
                "case",
                one.code(),
                "date",
                one.date().toString(),
                "mix",
                one.mix().kind().name().toLowerCase(Locale.ROOT),
                "harder_by",
                one.mix().why());
    }

    private static Map<String, @Nullable Object> term(ProgressView view, TermTimes term, ProgressSentences sentences) {
        return Json.object(
                "phase", term.id(),
                "step", term.step(),
                "own",
                        term.own().stream()
                                .map(t -> Json.object("number", t.of().number(), "case", t.of().code(), "us", t.us()))
                                .toList(),
                "lower_limits_left_out", term.unsure(),
                "curve", outcome(term.curve(), ProgressJson::curve),
                "change", outcome(term.change(), ProgressJson::change),
                "peers",
                        Json.object(
                                "persons",
                                term.peers().peers(),
                                "blocks_masked",
                                term.peers().masked(),
                                "blocks",
                                term.peers().blocks().stream()
                                        .map(b -> Json.object(
                                                "from", b.from(),
                                                "to", b.to(),
                                                "persons", b.peers(),
                                                "q1_us", b.lowUs(),
                                                "median_us", b.middleUs(),
                                                "q3_us", b.highUs()))
                                        .toList()),
                "references",
                        term.references().stream()
                                .map(h -> Json.object(
                                        "id", h.id(),
                                        "n", h.usual().n(),
                                        "low_us", h.usual().lowUs(),
                                        "median_us", h.usual().middleUs(),
                                        "high_us", h.usual().highUs(),
                                        "quartiles", h.usual().quartiles(),
                                        "source", h.source(),
                                        "caveat", h.caveat()))
                                .toList(),
                "says", sentences.of(view, term));
    }

    private static Map<String, @Nullable Object> curve(Curve curve) {
        return Json.object(
                "model", curve.model().name().toLowerCase(Locale.ROOT),
                "supported",
                        curve.supported().stream()
                                .map(m -> m.name().toLowerCase(Locale.ROOT))
                                .toList(),
                "shows_change", curve.showsChange(),
                "factor_per_doubling", curve.doubling() == null ? null : estimate(curve.doubling()),
                "places",
                        curve.places().stream()
                                .map(p -> Json.object(
                                        "number", p.caseNumber(),
                                        "us", p.us(),
                                        "lower_us", p.lowUs(),
                                        "upper_us", p.highUs()))
                                .toList());
    }

    private static Map<String, @Nullable Object> change(Change change) {
        return Json.object(
                "recent", change.recent(),
                "earlier", change.earlier(),
                "recent_geometric_mean_us", change.recentUs(),
                "earlier_geometric_mean_us", change.earlierUs(),
                "ratio", estimate(change.ratio()));
    }

    private static Map<String, @Nullable Object> marks(Marks marks) {
        return Json.object(
                "rubric", marks.rubric().id(),
                "rubric_version", marks.rubric().version(),
                "other_versions_left_out", marks.otherVersions(),
                "shares",
                        marks.shares().stream()
                                .map(s -> Json.object(
                                        "number",
                                        s.of().number(),
                                        "case",
                                        s.of().code(),
                                        "share",
                                        s.share(),
                                        "assessors",
                                        s.assessors()))
                                .toList(),
                "items",
                        marks.items().stream()
                                .map(i -> Json.object(
                                        "item",
                                        i.item(),
                                        "most",
                                        i.most(),
                                        "points",
                                        i.points().stream()
                                                .map(p -> Json.object(
                                                        "number",
                                                        p.of().number(),
                                                        "points",
                                                        p.points(),
                                                        "assessors",
                                                        p.assessors()))
                                                .toList()))
                                .toList());
    }

    private static Map<String, @Nullable Object> gap(OverTime gap) {
        return Json.object(
                "cases",
                gap.cases().stream()
                        .map(c -> Json.object(
                                "case", c.caseCode(),
                                "self", c.self(),
                                "assessor", c.assessor(),
                                "gap", c.gap(),
                                "assessors", c.assessors()))
                        .toList(),
                "mean",
                gap.agreement() == null ? null : estimate(gap.agreement().bias()),
                "lower_limit_of_agreement",
                gap.agreement() == null ? null : gap.agreement().lower().value(),
                "upper_limit_of_agreement",
                gap.agreement() == null ? null : gap.agreement().upper().value(),
                "why_none",
                gap.why(),
                "warnings",
                gap.warnings());
    }

    private static Map<String, @Nullable Object> monitoring(Monitoring monitoring) {
        List<Map<String, @Nullable Object>> points = monitoring.chart().points().stream()
                .map(p -> Json.object(
                        "number", p.caseNumber(),
                        "failure", p.observed() > 0,
                        "sum", p.statistic(),
                        "limit", p.upper(),
                        "signal", p.signal() == null ? null : p.signal().name().toLowerCase(Locale.ROOT),
                        "part", p.note()))
                .toList();
        return Json.object(
                "chart", "lc",
                "adequate_rate", monitoring.design().pa(),
                "inadequate_rate", monitoring.design().pi(),
                "limit", monitoring.design().h(),
                "watch_limit", monitoring.watchLimit(),
                "fewest_cases", monitoring.design().fewestCases(),
                "counted", monitoring.kinds(),
                "cases", monitoring.cases(),
                "failures", monitoring.failures(),
                "within", monitoring.within(),
                "signal_within_at_adequate", monitoring.adequate(),
                "signal_within_at_inadequate", monitoring.inadequate(),
                "points", points);
    }

    private static Map<String, @Nullable Object> estimate(Estimate estimate) {
        return Json.object(
                "value", estimate.value(),
                "lower", limit(estimate, true),
                "upper", limit(estimate, false),
                "n", estimate.n(),
                "method", estimate.method());
    }

    private static @Nullable Double limit(Estimate estimate, boolean lower) {
        if (estimate.limits() == null) {
            return null;
        }
        double limit = lower ? estimate.limits().lower() : estimate.limits().upper();
        return Double.isFinite(limit) ? (Double) limit : null;
    }

    private static <T> Map<String, @Nullable Object> outcome(
            Outcome<T> outcome, java.util.function.Function<T, Map<String, @Nullable Object>> found) {
        if (outcome instanceof Outcome.Refused<T> refused) {
            Refusal refusal = refused.refusal();
            return Json.object("refused", DecisionFigures.refusal(refusal));
        }
        return found.apply(outcome.orElseThrow());
    }
}
