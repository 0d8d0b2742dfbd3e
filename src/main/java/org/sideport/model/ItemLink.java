package org.sideport.model;

/** An item of a rubric that a comment is about. */
public record ItemLink(String rubric, String item) {

    public ItemLink {
        if (rubric.isBlank() || item.isBlank()) {
            throw new IllegalArgumentException("a link needs a rubric and an item");
        }
    }
}
