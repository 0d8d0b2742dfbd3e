package org.sideport.timing;

import java.util.ArrayList;
import java.util.List;

/**
 * Which of a phase's or a case's times an accepted cut of the recording lies in. Such a time is a lower limit: what the
 * recording does not show is missing from it.
 *
 * @param active the time in which it was being done
 * @param span from first start to last end; for a case the operating time
 * @param idle the idle time inside it
 */
public record Unsure(boolean active, boolean span, boolean idle) {

    public static final Unsure NONE = new Unsure(false, false, false);

    public boolean any() {
        return active || span || idle;
    }

    /** The times concerned: {@code active}, {@code idle}, and the span by the name given. */
    public List<String> names(String spanName) {
        List<String> names = new ArrayList<>();
        if (active) {
            names.add("active");
        }
        if (span) {
            names.add(spanName);
        }
        if (idle) {
            names.add("idle");
        }
        return names;
    }
}
