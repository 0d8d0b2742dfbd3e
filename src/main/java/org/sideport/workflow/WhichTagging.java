package org.sideport.workflow;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Tagging;
import org.sideport.store.Stores;

/**
 * Whose tags of a case count when it is compared: those of the person asked for; else those of the person preferred, if
 * there are any; else of whoever tagged most, by code where several did.
 */
public final class WhichTagging {

    private WhichTagging() {}

    /**
     * @throws InputException if nobody has tagged the case, or the one asked for has not
     */
    public static String of(Stores stores, String caseCode, @Nullable String asked, @Nullable String preferred) {
        Map<String, Integer> spans = spans(stores, caseCode);
        if (asked != null) {
            if (!spans.containsKey(asked)) {
                throw new InputException(
                        asked + " has not tagged phases of case " + caseCode,
                        null,
                        spans.isEmpty()
                                ? "tag it in Review first"
                                : "name one of "
                                        + String.join(
                                                ", ",
                                                spans.keySet().stream().sorted().toList()));
            }
            return asked;
        }
        if (preferred != null && spans.containsKey(preferred)) {
            return preferred;
        }
        return most(spans, caseCode);
    }

    /** Of a case's taggings by annotator that of whoever tagged most phases, by code where several did; empty if nobody did. */
    static Optional<Tagging> most(Map<String, Tagging> byAnnotator) {
        return byAnnotator.entrySet().stream()
                .filter(e -> !e.getValue().spans().isEmpty())
                .min(Comparator.<Map.Entry<String, Tagging>>comparingInt(
                                e -> -e.getValue().spans().size())
                        .thenComparing(Map.Entry::getKey))
                .map(Map.Entry::getValue);
    }

    /** All who tagged phases of the case, by code. */
    public static List<String> all(Stores stores, String caseCode) {
        return spans(stores, caseCode).keySet().stream().sorted().toList();
    }

    /** Somebody who tagged both, if there is one: then differences are not those of two people's eyes. */
    static @Nullable String ofBoth(Stores stores, String one, String other) {
        Map<String, Integer> first = spans(stores, one);
        Map<String, Integer> second = spans(stores, other);
        Map<String, Integer> both = new HashMap<>();
        first.forEach((who, n) -> {
            Integer more = second.get(who);
            if (more != null) {
                both.put(who, n + more);
            }
        });
        return both.isEmpty() ? null : most(both, one);
    }

    private static Map<String, Integer> spans(Stores stores, String caseCode) {
        Map<String, Integer> spans = new HashMap<>();
        for (String who : stores.taggings().annotators(caseCode)) {
            int n = stores.taggings()
                    .find(caseCode, who)
                    .map(Tagging::spans)
                    .map(List::size)
                    .orElse(0);
            if (n > 0) {
                spans.put(who, n);
            }
        }
        return spans;
    }

    static String most(Map<String, Integer> spans, String caseCode) {
        return spans.entrySet().stream()
                .min(Comparator.<Map.Entry<String, Integer>>comparingInt(e -> -e.getValue())
                        .thenComparing(Map.Entry::getKey))
                .map(Map.Entry::getKey)
                .orElseThrow(() -> new InputException(
                        "nobody has tagged phases of case " + caseCode, null, "tag it in Review first"));
    }
}
