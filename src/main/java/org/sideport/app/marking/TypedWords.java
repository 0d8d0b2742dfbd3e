package org.sideport.app.marking;

import java.util.HashMap;
import java.util.Map;

/** What was typed last into each field of a rating; it may still be on its way to the store. */
final class TypedWords {

    private final Map<String, Object> last = new HashMap<>();

    /** True if it is other than what is stored, or on its way there; it is taken to be so from now on. */
    boolean isNew(String field, Object stored, Object now) {
        Object before = last.getOrDefault(field, stored);
        last.put(field, now);
        return !before.equals(now);
    }

    void forget(String field) {
        last.remove(field);
    }

    void forget() {
        last.clear();
    }
}
