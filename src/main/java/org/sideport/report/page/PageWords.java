package org.sideport.report.page;

import java.math.RoundingMode;
import java.text.MessageFormat;
import java.text.NumberFormat;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.stream.IntStream;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;

/** Words, numbers and times of pages in one language. */
public final class PageWords {

    private static final int CAUTIONS = 5;

    private final Locale locale;
    private final ResourceBundle bundle;

    private PageWords(Locale locale) {
        this.locale = locale;
        bundle = ResourceBundle.getBundle(
                "org.sideport.report.page.words",
                locale,
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    /**
     * @param language {@code en} or {@code de}
     * @throws InputException for another
     */
    public static PageWords of(String language) {
        return switch (language) {
            case "en" -> new PageWords(Locale.UK);
            case "de" -> new PageWords(Locale.GERMANY);
            default -> throw new InputException("no words in \"" + language + "\"", "--language", "write en or de");
        };
    }

    public Locale locale() {
        return locale;
    }

    /** {@code en} or {@code de}. */
    public String language() {
        return locale.getLanguage();
    }

    public String get(String key, Object... values) {
        String text = bundle.getString(key);
        return values.length == 0 ? text : new MessageFormat(text, locale).format(values);
    }

    /** All words by key; those with values in them as they are written. */
    Map<String, String> all() {
        Map<String, String> all = new LinkedHashMap<>();
        bundle.keySet().forEach(key -> all.put(key, bundle.getString(key)));
        return all;
    }

    List<String> cautions() {
        return IntStream.rangeClosed(1, CAUTIONS)
                .mapToObj(i -> get("caution." + i))
                .toList();
    }

    /** {@code 1:23.2}: cut, not rounded, to tenths of a second. */
    public static String clock(long us) {
        String text = MediaTime.ofMicros(us).toClockText();
        return text.substring(0, text.length() - 2);
    }

    /** A share as the app writes it: whole per cent, halves up. */
    public String percent(double share) {
        return number(100 * share, 0) + "\u00a0%";
    }

    /** With one decimal, as the Programme screen writes means. */
    String exactPercent(double share) {
        return fixed(100 * share, 1) + "\u00a0%";
    }

    /** With all its decimals. */
    String fixed(double value, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(decimals);
        format.setMaximumFractionDigits(decimals);
        format.setRoundingMode(RoundingMode.HALF_UP);
        String text = format.format(value);
        return text.startsWith("-") ? "−" + text.substring(1) : text;
    }

    public String number(double value, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(decimals);
        format.setRoundingMode(RoundingMode.HALF_UP);
        String text = format.format(value);
        return text.startsWith("-") ? "−" + text.substring(1) : text;
    }

    public String date(LocalDate day) {
        return day.format(DateTimeFormatter.ofLocalizedDate(FormatStyle.LONG).withLocale(locale));
    }

    public String moment(OffsetDateTime at) {
        return at.format(DateTimeFormatter.ofPattern("d MMMM yyyy, HH:mm xxx", locale));
    }
}
