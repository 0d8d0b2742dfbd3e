package org.sideport.app.timeline;

/** What is said of a span's length beside those it is compared with: with how many, and what they are. */
@FunctionalInterface
public interface LengthNote {

    /** One line or more; empty where there is nothing to compare with. */
    String of(Lane.Span span);
}
