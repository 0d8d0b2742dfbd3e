package org.sideport.app.timeline;

/**
 * Something that an item can be called.
 *
 * @param id handed back in {@link TimelineEdit.Relabel}
 * @param step true if it belongs under the choice before it
 */
public record LabelChoice(String id, String name, boolean step) {}
