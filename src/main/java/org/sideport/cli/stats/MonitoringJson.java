package org.sideport.cli.stats;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.TabularDesign;

/** Parameters of charts of failures, for machines. */
final class MonitoringJson {

    private MonitoringJson() {}

    static Map<String, @Nullable Object> parameters(BinaryDesign design, @Nullable LlrDesign watching) {
        Map<String, @Nullable Object> json = new java.util.LinkedHashMap<>(
                Json.object("acceptable", design.acceptableRate(), "unacceptable", design.otherRate()));
        if (design instanceof SprtDesign sprt) {
            json.put("alpha", sprt.alpha());
            json.put("beta", sprt.beta());
            json.put("odds_ratio", sprt.oddsRatio());
            json.put("s", sprt.s());
            json.put("h0", sprt.h0());
            json.put("h1", sprt.h1());
            json.put("fewest_cases_to_accept", sprt.fewestCasesToAccept());
        } else if (design instanceof TabularDesign tabular) {
            json.put("k", tabular.k());
        } else if (design instanceof LlrDesign llr) {
            json.put("odds_multiplier", llr.oddsMultiplier());
        } else if (design instanceof LearningCurveDesign learning) {
            json.put("fewest_cases", learning.fewestCases());
            json.put("watch_limit", watching == null ? null : (Double) watching.h());
        }
        json.put("weight_success", design.weight(false, design.acceptableRate()));
        json.put("weight_failure", design.weight(true, design.acceptableRate()));
        return json;
    }
}
