package org.sideport.app.timeline;

/** Something that follows the mouse until it is let go. */
interface Drag {

    /** How far the mouse goes before it drags, pixels. */
    double SLACK = 3;

    /** @param free true: let it lie anywhere, drawn to nothing but frames */
    void to(double x, double y, boolean free);

    void drop();

    /** Everything is as it was. */
    default void cancel() {}
}
