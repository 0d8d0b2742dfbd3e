package org.sideport.app;

import java.text.MessageFormat;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.MissingResourceException;
import java.util.ResourceBundle;
import org.jspecify.annotations.Nullable;
import org.sideport.app.settings.Language;

/** The words on the screens, by key, in one language. */
public final class Texts {

    private final Language language;
    private final ResourceBundle bundle;
    private @Nullable Refusals refusals;

    /** In English. */
    public Texts() {
        this(Language.ENGLISH);
    }

    public Texts(Language language) {
        this.language = language;
        // without a fall-back to the machine's language: what a file lacks comes in English
        bundle = ResourceBundle.getBundle(
                "org.sideport.app.messages",
                language.bundle(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    public Language language() {
        return language;
    }

    /**
     * The text with {@code {0}}, {@code {1}} ... replaced.
     *
     * @throws MissingResourceException if there is no such key
     */
    public String get(String key, Object... values) {
        return language.dressed(new MessageFormat(bundle.getString(key), language.locale()).format(values));
    }

    /** As {@link #get(String, Object...)} without values; {@code otherwise} where there is no such key. */
    public String find(String key, String otherwise) {
        return bundle.containsKey(key) ? get(key) : otherwise;
    }

    /** What a floor below said in English, in this language where it is known there; else as it is. */
    public String said(String english) {
        Refusals known = refusals;
        if (known == null) {
            // hundreds of patterns, which a start without any refusal need not wait for
            known = new Refusals(language);
            refusals = known;
        }
        return known.said(english);
    }

    /** With a capital, as a sentence begins. */
    public String sentence(String words) {
        return words.isEmpty() ? words : words.substring(0, 1).toUpperCase(locale()) + words.substring(1);
    }

    /** A day as this language writes it. */
    public String day(LocalDate date) {
        return DateTimeFormatter.ofPattern(language.dayPattern(), language.locale())
                .format(date);
    }

    /** Lower and upper case by the rules of this language. */
    public Locale locale() {
        return language.locale();
    }
}
