package org.sideport.app;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.app.settings.Language;

/**
 * What the floors below say in English (refusals, remarks), in the language of the screen. A sentence is found by its
 * English wording, as gettext finds it; what is not known stays as it is.
 */
final class Refusals {

    private static final String BUNDLE = "org.sideport.app.refusals";
    private static final Pattern PLACE = Pattern.compile("\\{(\\d)}");
    private static final Pattern BETWEEN_SENTENCES = Pattern.compile("(?<=\\.) (?=\\p{Lu})");
    /** A refusal holds another one in it at most so often. */
    private static final int DEEPEST = 3;

    private final Map<String, String> whole = new HashMap<>();
    private final List<Open> open = new ArrayList<>();

    /** A sentence with places to fill in. */
    private record Open(Pattern english, String said, int letters) {}

    Refusals(Language language) {
        if (language.bundle().equals(Language.ENGLISH.bundle())) {
            return;
        }
        ResourceBundle english = bundle(Language.ENGLISH);
        ResourceBundle said = bundle(language);
        for (String key : english.keySet()) {
            String from = english.getString(key);
            if (PLACE.matcher(from).find()) {
                open.add(new Open(pattern(from), said.getString(key), from.length()));
            } else {
                whole.put(from, said.getString(key));
            }
        }
        // what says more is tried first
        open.sort(Comparator.comparingInt(Open::letters).reversed());
    }

    private static ResourceBundle bundle(Language language) {
        return ResourceBundle.getBundle(
                BUNDLE,
                language.bundle(),
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    private static Pattern pattern(String english) {
        StringBuilder regex = new StringBuilder();
        Matcher place = PLACE.matcher(english);
        int at = 0;
        while (place.find()) {
            regex.append(Pattern.quote(english.substring(at, place.start())))
                    .append("(?<p")
                    .append(place.group(1))
                    .append(">.+?)");
            at = place.end();
        }
        return Pattern.compile(
                regex.append(Pattern.quote(english.substring(at))).toString(), Pattern.DOTALL);
    }

    /** The sentence, or the sentences one by one, in this language. */
    String said(String english) {
        return said(english, DEEPEST);
    }

    private String said(String english, int deep) {
        String known = known(english, deep);
        if (known != null) {
            return known;
        }
        String[] sentences = BETWEEN_SENTENCES.split(english);
        if (sentences.length < 2) {
            return english;
        }
        List<String> all = new ArrayList<>();
        for (String sentence : sentences) {
            String one = known(sentence, deep);
            all.add(one == null ? sentence : one);
        }
        return String.join(" ", all);
    }

    private @Nullable String known(String english, int deep) {
        String same = whole.get(english);
        if (same != null || deep == 0) {
            return same;
        }
        for (Open one : open) {
            Matcher found = one.english().matcher(english);
            if (found.matches()) {
                return PLACE.matcher(one.said())
                        .replaceAll(
                                place -> Matcher.quoteReplacement(said(found.group("p" + place.group(1)), deep - 1)));
            }
        }
        return null;
    }
}
