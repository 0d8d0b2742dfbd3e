package org.sideport.app.settings;

import java.util.regex.MatchResult;
import java.util.regex.Pattern;

/** How large everything is written. */
public enum FontSize {
    NORMAL(100),
    LARGE(125),
    LARGEST(150);

    private static final Pattern SIZE = Pattern.compile(
            "(-fx-font-size|-fx-icon-size|-sp-font-size|-sp-row-height|-sp-header-width):\\s*(\\d+(?:\\.\\d+)?)px");

    /** What the theme and the timeline bring in pixels. */
    private static final String OTHERS = """
            .ikonli-font-icon { -fx-icon-size: 18px; }
            .timeline { -sp-font-size: 12px; -sp-row-height: 22px; -sp-header-width: 80px; }
            """;

    private final int percent;

    FontSize(int percent) {
        this.percent = percent;
    }

    public int percent() {
        return percent;
    }

    public double factor() {
        return percent / 100.0;
    }

    /** The size of so many percent; {@link #NORMAL} for any other number. */
    public static FontSize of(double percent) {
        for (FontSize size : values()) {
            if (size.percent == percent) {
                return size;
            }
        }
        return NORMAL;
    }

    /** A style sheet with all its sizes of letters and icons in this size; lengths in em follow by themselves. */
    public String scaled(String css) {
        return SIZE.matcher(OTHERS + css).replaceAll(this::scaled);
    }

    private String scaled(MatchResult found) {
        return found.group(1) + ": " + Double.parseDouble(found.group(2)) * factor() + "px";
    }
}
