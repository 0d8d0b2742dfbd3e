package org.sideport.app.standard;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.model.InputException;
import org.sideport.model.Standard;

/** Figures as this screen writes them, and what is typed into it. */
public final class Figure {

    private Figure() {}

    /** {@code 69.0 %}; unknown is a dash. */
    public static String percent(@Nullable Double share) {
        return share == null ? Formats.UNKNOWN : number(100 * share, 1) + " %";
    }

    public static String number(@Nullable Double value, int decimals) {
        return value == null
                ? Formats.UNKNOWN
                : String.format(Locale.ROOT, "%." + decimals + "f", value).replace('-', '−');
    }

    /** What is known of how sure a cut is, in brackets; never empty. */
    static String sureness(
            Texts texts,
            @Nullable Double se,
            @Nullable Double lower,
            @Nullable Double upper,
            @Nullable Double level,
            @Nullable Integer n) {
        if (se == null && lower == null && n == null) {
            return texts.get("standard.unsure");
        }
        String limits = lower == null || upper == null || level == null
                ? texts.get("standard.noLimits")
                : texts.get("standard.limits", number(100 * level, 0), number(100 * lower, 1), percent(upper));
        return texts.get(
                "standard.sureness",
                se == null ? Formats.UNKNOWN : number(100 * se, 1),
                limits,
                n == null ? Formats.UNKNOWN : n.toString());
    }

    static String standard(Texts texts, Standard standard) {
        return texts.get(
                standard.inForce() ? "standard.line.inForce" : "standard.line.superseded",
                standard.number(),
                percent(standard.share()),
                texts.get("standard.method." + standard.method().name()),
                texts.day(standard.agreedOn()),
                String.join(", ", standard.agreedBy()),
                sureness(
                        texts,
                        standard.standardError(),
                        standard.lower(),
                        standard.upper(),
                        standard.level(),
                        standard.n()));
    }

    /**
     * A number with a point or a comma.
     *
     * @throws InputException if it is none
     */
    static double parse(String typed) {
        try {
            return Double.parseDouble(typed.strip().replace(',', '.'));
        } catch (NumberFormatException e) {
            throw new InputException("\"" + typed + "\" is no number", null, "write for instance 2.5", e);
        }
    }
}
