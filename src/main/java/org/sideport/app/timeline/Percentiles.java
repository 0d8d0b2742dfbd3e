package org.sideport.app.timeline;

import java.util.OptionalDouble;

/** Where a span's length stands among those it is compared with. */
@FunctionalInterface
public interface Percentiles {

    /** Share of the compared lengths that are shorter, 0 to 1; empty where there is nothing to compare with. */
    OptionalDouble shareBelow(Lane.Span span);
}
