package org.sideport.model;

import java.util.List;
import java.util.Locale;

/**
 * One thing drawn on the picture.
 *
 * @param points of an arrow its tail and its tip, of a line its ends, of an ellipse two opposite corners of the box that
 *     holds it, of a freehand line the places passed, of words the left end of their ground line
 * @param words empty unless it is {@link Kind#WORDS}
 */
public record DrawnMark(Kind kind, MarkColour colour, List<PicturePoint> points, String words) {

    /** Places of a freehand line at most. */
    public static final int MOST_POINTS = 2000;

    public static final int LONGEST_WORDS = 120;

    public enum Kind {
        ARROW,
        LINE,
        ELLIPSE,
        FREEHAND,
        WORDS;

        /** As written in files: lower case. */
        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public DrawnMark {
        points = List.copyOf(points);
        int size = points.size();
        boolean fits =
                switch (kind) {
                    case ARROW, LINE, ELLIPSE -> size == 2 && !points.get(0).equals(points.get(1));
                    case FREEHAND -> size >= 2 && size <= MOST_POINTS;
                    case WORDS -> size == 1;
                };
        if (!fits) {
            throw new IllegalArgumentException(kind + " with " + Plural.of(size, "point"));
        }
        if (kind == Kind.WORDS == words.isBlank() || words.length() > LONGEST_WORDS) {
            throw new IllegalArgumentException(kind + " with the words \"" + words + '"');
        }
    }

    public static DrawnMark of(Kind kind, MarkColour colour, List<PicturePoint> points) {
        return new DrawnMark(kind, colour, points, "");
    }

    public static DrawnMark words(MarkColour colour, PicturePoint at, String words) {
        return new DrawnMark(Kind.WORDS, colour, List.of(at), words.strip());
    }
}
