package org.sideport.media;

/**
 * How a frame is to be made into a picture. It is the same frame in each case.
 *
 * @param maxWidth coded pixels across at most, for a smaller picture sooner; 0 for full size in exact colours
 * @param fields what to do with interlaced pictures
 */
public record Rendering(int maxWidth, Fields fields) {

    /** Full size, exact colours: for stills. */
    public static final Rendering FULL = new Rendering(0, Fields.AUTO);

    /** Half of a large picture at most: for while the user drags. */
    public static final Rendering DRAFT = new Rendering(640, Fields.AUTO);

    public Rendering {
        if (maxWidth != 0 && maxWidth < 16) {
            throw new IllegalArgumentException("a picture is at least 16 pixels wide: " + maxWidth);
        }
    }

    public Rendering with(Fields other) {
        return new Rendering(maxWidth, other);
    }

    boolean isDraft() {
        return maxWidth != 0;
    }
}
