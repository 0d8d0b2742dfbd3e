package org.sideport.report.page;

import java.io.OutputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.chart.Chart;

/** The feedback of a case as one page for browsers, or on paper. */
public final class FeedbackPage {

    private FeedbackPage() {}

    /** The page as HTML. It asks for nothing but the files of {@link Feedback.Film} and the voices beside it. */
    public static String html(Feedback feedback, PageWords words) {
        String style = PageTemplate.resource("page.css");
        String script = PageTemplate.resource("page.js");
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("paper", false);
        values.put("page", new FeedbackViews(feedback, words, false).made());
        values.put("policy", ContentPolicy.of(script, style));
        values.put("style", style);
        values.put("script", script);
        values.put("data", PageData.of(feedback, words));
        return filled("feedback", values, words);
    }

    /** The same on paper, as PDF; a recording is left out. */
    public static void pdf(Feedback feedback, PageWords words, OutputStream out) {
        String html = paper("feedback", new FeedbackViews(feedback, words, true).made(), words);
        List<Chart> charts =
                feedback.times() == null ? List.of() : feedback.times().charts();
        Paper.write(html, charts, feedback.program(), words, out);
    }

    /** @param page its record of views, by whose names the template knows it */
    static String paper(String template, Object page, PageWords words) {
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("paper", true);
        values.put("page", page);
        values.put("style", PageTemplate.resource("paper.css"));
        return filled(template, values, words);
    }

    private static String filled(String template, Map<String, Object> values, PageWords words) {
        values.put("lang", words.language());
        values.put("w", words.all());
        return new PageTemplate().fill(template, values, words.locale());
    }
}
