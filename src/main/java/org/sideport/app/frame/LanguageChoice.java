package org.sideport.app.frame;

import java.util.function.Consumer;
import javafx.scene.control.ComboBox;
import javafx.util.StringConverter;
import org.sideport.app.Texts;
import org.sideport.app.settings.Language;

/** The languages, each in its own words. */
final class LanguageChoice extends ComboBox<Language> {

    LanguageChoice(String id, Texts texts, Consumer<Language> chosen) {
        setId(id);
        getItems().setAll(Language.offered());
        setConverter(new StringConverter<>() {
            @Override
            public String toString(Language language) {
                return language == null ? "" : language.ownName();
            }

            @Override
            public Language fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        setValue(texts.language());
        setAccessibleText(texts.get("settings.language"));
        setOnAction(event -> {
            if (getValue() != texts.language()) {
                chosen.accept(getValue());
            }
        });
    }
}
