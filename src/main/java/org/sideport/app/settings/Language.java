package org.sideport.app.settings;

import java.util.List;
import java.util.Locale;

/** The languages of the screens. One more is a file of messages and a line here. */
public enum Language {
    ENGLISH("en", Locale.ROOT, Locale.UK, "d MMM yyyy", "English"),
    GERMAN("de", Locale.GERMAN, Locale.GERMANY, "d. MMM yyyy", "Deutsch"),

    /** English in marks, by which whoever looks finds words that come from no file. Not offered. */
    MARKED("marked", Locale.ROOT, Locale.UK, "d MMM yyyy", "Marked");

    public static final char MARK = '⟦';
    public static final char MARK_END = '⟧';

    private final String id;
    private final Locale bundle;
    private final Locale locale;
    private final String dayPattern;
    private final String ownName;

    Language(String id, Locale bundle, Locale locale, String dayPattern, String ownName) {
        this.id = id;
        this.bundle = bundle;
        this.locale = locale;
        this.dayPattern = dayPattern;
        this.ownName = ownName;
    }

    /** Those to choose from. */
    public static List<Language> offered() {
        return List.of(ENGLISH, GERMAN);
    }

    /** The language of an id; English for one that is not known. */
    public static Language of(String id) {
        for (Language language : values()) {
            if (language.id.equals(id)) {
                return language;
            }
        }
        return ENGLISH;
    }

    public String id() {
        return id;
    }

    /** Which file of messages. */
    public Locale bundle() {
        return bundle;
    }

    /** How numbers are written. */
    public Locale locale() {
        return locale;
    }

    public String dayPattern() {
        return dayPattern;
    }

    /** What its speakers call it. */
    public String ownName() {
        return ownName;
    }

    /** A text as it goes onto the screen. */
    public String dressed(String text) {
        return this == MARKED && !text.isEmpty() ? MARK + text + MARK_END : text;
    }
}
