package org.sideport.app.frame;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Shortcut;

/** The places of the bar at the top, in its order. */
enum Destination {
    CASES("nav.cases", Feather.LIST, Shortcut.TO_CASES),
    REVIEW("nav.review", Feather.FILM, Shortcut.TO_REVIEW),
    MARKING("nav.marking", Feather.CLIPBOARD, Shortcut.TO_MARKING),
    COMPARE("nav.compare", Feather.COLUMNS, Shortcut.TO_COMPARE),
    PROGRESS("nav.progress", Feather.TRENDING_UP, Shortcut.TO_PROGRESS),
    PROGRAMME("nav.programme", Feather.USERS, Shortcut.TO_PROGRAMME);

    private final String text;
    private final Feather icon;
    private final Shortcut key;

    Destination(String text, Feather icon, Shortcut key) {
        this.text = text;
        this.icon = icon;
        this.key = key;
    }

    /** The name under which the place is remembered. */
    String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    Feather icon() {
        return icon;
    }

    Shortcut key() {
        return key;
    }

    /** The key of its name in the texts. */
    String text() {
        return text;
    }

    static Optional<Destination> of(String id) {
        return Stream.of(values()).filter(place -> place.id().equals(id)).findFirst();
    }
}
