package org.sideport.report.workbook;

import java.util.Locale;
import java.util.ResourceBundle;

/** The headers of the columns in one language, by the columns' codes; English where there are none. */
final class Headings {

    private final ResourceBundle words;

    Headings(String language) {
        words = ResourceBundle.getBundle(
                "org.sideport.report.workbook",
                Locale.forLanguageTag(language),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    String of(Column<?> column) {
        String code = column.code();
        return words.containsKey(code) ? words.getString(code) : column.header();
    }
}
