package org.sideport.report.page;

import java.util.LinkedHashMap;
import java.util.Map;

/** The feedback of a case as one page for browsers. */
public final class FeedbackPage {

    private FeedbackPage() {}

    /** The page as HTML. It asks for nothing but the files of {@link Feedback.Film} and the voices beside it. */
    public static String html(Feedback feedback, PageWords words) {
        String style = PageTemplate.resource("page.css");
        String script = PageTemplate.resource("page.js");
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("paper", false);
        values.put("lang", words.language());
        values.put("w", words.all());
        values.put("page", new FeedbackViews(feedback, words, false).made());
        values.put("policy", ContentPolicy.of(script, style));
        values.put("style", style);
        values.put("script", script);
        values.put("data", PageData.of(feedback, words));
        return new PageTemplate().fill("feedback", values, words.locale());
    }
}
