package org.sideport.app.timeline;

/** Hears what the user wants of a timeline. Times are microseconds within the recording. */
public interface TimelineHandler {

    /** Go to a time. */
    void seek(long us);

    /** Stand at a time: the mouse drags along, or a boundary is under way to it. */
    void scrub(long us);

    void edit(TimelineEdit edit);
}
