package org.sideport.app;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** The words on the screens, by key. */
public final class Texts {

    private final ResourceBundle bundle;

    public Texts() {
        bundle = ResourceBundle.getBundle("org.sideport.app.messages", Locale.ROOT);
    }

    /** The text with {@code {0}}, {@code {1}} ... replaced. */
    public String get(String key, Object... values) {
        return new MessageFormat(bundle.getString(key), Locale.UK).format(values);
    }
}
