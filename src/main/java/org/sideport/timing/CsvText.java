package org.sideport.timing;

import java.util.regex.Pattern;

/**
 * Free text in CSV files that may be opened in a spreadsheet program: what that could take for a formula gets an apostrophe
 * before it, and loses it again when the file is read here (OWASP, "CSV Injection": cells that begin with = + - @, tab,
 * carriage return or line feed, also in full width, and what follows a separator).
 */
public final class CsvText {

    private static final String SIGNS = "=+\\-@\\t\\r\\n＝＋－＠'";
    private static final Pattern OPEN = Pattern.compile("(?:^|(?<=[;\\t]))(?=[" + SIGNS + "])");
    private static final Pattern GUARDED = Pattern.compile("(?:^|(?<=[;\\t]))'(?=[" + SIGNS + "])");

    private CsvText() {}

    /** The text for a cell. */
    public static String guard(String text) {
        return OPEN.matcher(text).replaceAll("'");
    }

    /** The text that {@link #guard} was given. */
    public static String unguard(String cell) {
        return GUARDED.matcher(cell).replaceAll("");
    }
}
