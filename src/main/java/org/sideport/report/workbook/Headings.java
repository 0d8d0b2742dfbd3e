package org.sideport.report.workbook;

import java.util.Locale;
import java.util.ResourceBundle;

/** The headers of the columns in one language, by the columns' codes; English where there are none. */
final class Headings {

    /** Between what data name, such as a competency, and what is told of it. */
    private static final String OF = ": ";

    private final ResourceBundle words;

    Headings(String language) {
        words = ResourceBundle.getBundle(
                "org.sideport.report.workbook",
                Locale.forLanguageTag(language),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    String of(Column<?> column) {
        String code = column.code();
        if (words.containsKey(code)) {
            return words.getString(code);
        }
        String header = column.header();
        int at = header.lastIndexOf(OF);
        String after = at < 0 ? "" : "after." + Column.code(header.substring(at + OF.length()));
        return words.containsKey(after) ? header.substring(0, at) + OF + words.getString(after) : header;
    }
}
