package org.sideport.model;

import java.util.Locale;

/** What was outlined or pointed at on a still. */
public enum MeasuredShape {
    /** the border of cornea and sclera, whose known width gives the scale */
    LIMBUS(5, 200),
    PUPIL(5, 200),
    RHEXIS(5, 200),
    /** from a point to another */
    DISTANCE(2, 2),
    /** at the second of three points */
    ANGLE(3, 3);

    private final int fewest;
    private final int most;

    MeasuredShape(int fewest, int most) {
        this.fewest = fewest;
        this.most = most;
    }

    public int fewestPoints() {
        return fewest;
    }

    public int mostPoints() {
        return most;
    }

    public boolean isOutline() {
        return most > 3;
    }

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if the text names no shape
     */
    public static MeasuredShape parse(String text) {
        for (MeasuredShape shape : values()) {
            if (shape.id().equals(text.strip().toLowerCase(Locale.ROOT))) {
                return shape;
            }
        }
        throw new InputException(
                "unknown shape \"" + text + "\"", null, "write limbus, pupil, rhexis, distance or angle");
    }
}
