package org.sideport.model;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a person measured on one still. Lengths are apparent ones: what is seen through the cornea is enlarged, and nothing
 * here corrects that.
 *
 * @param id unique for ever
 * @param author code of the person
 * @param frame start of the frame
 * @param displayWidth width of the displayed picture in its square pixels
 * @param displayHeight height of the displayed picture in its square pixels
 * @param points in the order in which they were marked
 * @param scale only of a limbus: the width that it was taken to have
 * @param method how the numbers came about, for the reader of a report
 * @param warnings sentences for people
 */
public record Measurement(
        String id,
        String author,
        MediaTime frame,
        double displayWidth,
        double displayHeight,
        MeasuredShape shape,
        List<PicturePoint> points,
        @Nullable WhiteToWhite scale,
        List<MeasuredValue> values,
        String method,
        List<String> warnings) {

    public Measurement {
        points = List.copyOf(points);
        values = List.copyOf(values);
        warnings = List.copyOf(warnings);
        if (id.isBlank() || author.isBlank()) {
            throw new IllegalArgumentException("a measurement needs an id and an author");
        }
        if (!(displayWidth >= 1 && displayHeight >= 1)) {
            throw new IllegalArgumentException("a picture of " + displayWidth + " x " + displayHeight);
        }
        if (points.size() < shape.fewestPoints() || points.size() > shape.mostPoints()) {
            throw new IllegalArgumentException(shape + " with " + Plural.of(points.size(), "point"));
        }
        if (shape == MeasuredShape.LIMBUS != (scale != null)) {
            throw new IllegalArgumentException("a width for " + shape);
        }
    }

    public Optional<MeasuredValue> value(String name) {
        return values.stream().filter(v -> v.name().equals(name)).findFirst();
    }
}
