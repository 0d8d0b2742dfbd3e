package org.sideport.report.workbook;

import java.util.regex.Pattern;

/** Column widths and row heights from the number of characters, so that no font of the machine is asked. */
final class Widths {

    static final int NARROWEST = 7;
    static final int WIDEST = 80;
    /** Points of one line of 11-point text. */
    static final float LINE = 15;

    private static final Pattern SPACE = Pattern.compile("\\s+");

    private Widths() {}

    /** Width in characters for a header that may wrap at spaces, with room for bold letters and the filter's arrow. */
    static int header(String text) {
        int longest = 0;
        for (String word : SPACE.split(text)) {
            longest = Math.max(longest, word.length());
        }
        // A header that stands on three lines at most reads better than a tower of words.
        return Math.max((int) Math.ceil(longest * 1.15) + 3, (int) Math.ceil(text.length() / 3.0) + 3);
    }

    /** The longest line of a text, in characters. */
    static int text(String text) {
        if (text.indexOf('\n') < 0) {
            return text.length();
        }
        int longest = 0;
        for (String line : text.split("\n", -1)) {
            longest = Math.max(longest, line.length());
        }
        return longest;
    }

    /** In the unit of the format, 1/256 of a character. */
    static int units(int characters) {
        return Math.max(NARROWEST, Math.min(WIDEST, characters)) * 256;
    }

    /** Lines that a text takes when it is wrapped at spaces to a width in characters. */
    static int lines(String text, int width) {
        int lines = 0;
        for (String paragraph : text.split("\n", -1)) {
            int used = 0;
            lines++;
            for (String word : SPACE.split(paragraph)) {
                if (used > 0 && used + 1 + word.length() > width) {
                    lines++;
                    used = word.length();
                } else {
                    used += (used == 0 ? 0 : 1) + word.length();
                }
                lines += Math.max(0, (used - 1) / width);
                used = used > width ? (used - 1) % width + 1 : used;
            }
        }
        return lines;
    }
}
