package org.sideport.workflow;

import org.jspecify.annotations.Nullable;
import org.sideport.timing.PublishedDurations;

/** The published durations, read when they are first asked for: the window must not wait for them. */
final class LatePublished {

    private @Nullable PublishedDurations known;

    synchronized PublishedDurations get() {
        PublishedDurations read = known;
        if (read == null) {
            read = PublishedDurations.shipped();
            known = read;
        }
        return read;
    }
}
