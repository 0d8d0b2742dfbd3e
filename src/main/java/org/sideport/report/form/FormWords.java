package org.sideport.report.form;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;
import org.sideport.model.NotApplicable;

/** The words of a form in one language; English where there are none. */
final class FormWords {

    private final ResourceBundle bundle;
    private final Locale locale;

    FormWords(String language) {
        locale = Locale.forLanguageTag(language);
        bundle = ResourceBundle.getBundle(
                "org.sideport.report.form",
                locale,
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    String get(String key, Object... values) {
        String text = bundle.getString(key);
        return values.length == 0 ? text : new MessageFormat(text, locale).format(values);
    }

    String reason(NotApplicable reason) {
        return get("reason." + reason.id());
    }
}
