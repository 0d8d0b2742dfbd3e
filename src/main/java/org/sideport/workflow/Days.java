package org.sideport.workflow;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.sideport.model.InputException;

/** Reads days as people write them in sheets. */
final class Days {

    private static final Pattern ISO = Pattern.compile("(\\d{4})[-/.](\\d{1,2})[-/.](\\d{1,2})(?:T00:00.*)?");
    private static final Pattern SHORT = Pattern.compile("(\\d{1,2})([-/.])(\\d{1,2})\\2(\\d{4})");

    private Days() {}

    /**
     * Year-month-day, day.month.year, or with strokes where only one of the two numbers can be the month.
     *
     * @throws InputException if it is no day, or could be either of two
     */
    static LocalDate parse(String text) {
        String trimmed = text.strip();
        try {
            Matcher iso = ISO.matcher(trimmed);
            if (iso.matches()) {
                return day(iso.group(1), iso.group(2), iso.group(3));
            }
            Matcher other = SHORT.matcher(trimmed);
            if (other.matches()) {
                return either(trimmed, other);
            }
        } catch (DateTimeException e) {
            throw noDay(trimmed);
        }
        throw noDay(trimmed);
    }

    private static LocalDate either(String text, Matcher found) {
        int first = Integer.parseInt(found.group(1));
        int second = Integer.parseInt(found.group(3));
        boolean dots = found.group(2).equals(".");
        if (dots || first > 12 || first == second) {
            return day(found.group(4), found.group(3), found.group(1));
        }
        if (second > 12) {
            return day(found.group(4), found.group(1), found.group(3));
        }
        throw new InputException(
                "\"" + text + "\" could be either of two days", null, "write year-month-day, such as 2026-03-09");
    }

    private static LocalDate day(String year, String month, String day) {
        return LocalDate.of(Integer.parseInt(year), Integer.parseInt(month), Integer.parseInt(day));
    }

    private static InputException noDay(String text) {
        return new InputException(
                "\"" + text + "\" is no date",
                null,
                "write year-month-day, such as 2026-03-09, or format it as a date");
    }
}
