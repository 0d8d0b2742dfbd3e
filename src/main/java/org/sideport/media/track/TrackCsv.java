package org.sideport.media.track;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.media.trace.TraceCsv;
import org.sideport.model.InputException;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.Point;

/**
 * Tracks as tables. Places are pixels of the picture as it is stored, from its top left corner; lengths are pixels counted
 * down its height; what is not known is left empty.
 */
public final class TrackCsv {

    private TrackCsv() {}

    /** One moment a row. Writes the whole file or nothing; see {@link TraceCsv#write}. */
    public static void write(EyeTrack track, Path file, boolean replace) {
        StringBuilder rows =
                new StringBuilder("time_us,found,missing,limbus_x,limbus_y,limbus_diameter,limbus_axis_ratio,"
                        + "limbus_confidence,pupil_x,pupil_y,pupil_diameter,pupil_confidence,offset,sharpness\n");
        double stretch = track.scale().stretch();
        for (EyeSample sample : track.samples()) {
            EyeView view = sample.view();
            EyeView.Missing missing = view.missing();
            rows.append(sample.timeUs()).append(',').append(missing == null).append(',');
            rows.append(missing == null ? "" : missing.id()).append(',');
            EyeEdge limbus = view.limbus();
            rows.append(edge(limbus, stretch)).append(',');
            rows.append(limbus == null ? "" : number(limbus.ellipse().axisRatio()))
                    .append(',');
            rows.append(limbus == null ? "" : number(limbus.confidence())).append(',');
            EyeEdge pupil = view.pupil();
            rows.append(edge(pupil, stretch)).append(',');
            rows.append(pupil == null ? "" : number(pupil.confidence())).append(',');
            rows.append(limbus == null ? "" : number(EyeSummary.offset(track, sample)))
                    .append(',');
            rows.append(number(view.sharpness())).append('\n');
        }
        save(rows, file, replace);
    }

    /** One frame a row. */
    public static void write(TipTrack track, Path file, boolean replace) {
        StringBuilder rows = new StringBuilder("frame,time_us,x,y,quality,eye_x,eye_y\n");
        double stretch = track.scale().stretch();
        for (TipPoint point : track.points()) {
            rows.append(point.frame()).append(',').append(point.timeUs()).append(',');
            rows.append(place(point.place(), stretch)).append(',');
            rows.append(number(point.quality())).append(',');
            rows.append(place(point.eye(), stretch)).append('\n');
        }
        save(rows, file, replace);
    }

    private static String edge(@Nullable EyeEdge edge, double stretch) {
        if (edge == null) {
            return ",,";
        }
        Ellipse ellipse = edge.ellipse();
        return place(ellipse.centre(), stretch) + "," + number(edge.diameter());
    }

    private static String place(@Nullable Point place, double stretch) {
        return place == null ? "," : number(place.x() * stretch) + "," + number(place.y());
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.3f", value);
    }

    private static void save(CharSequence rows, Path file, boolean replace) {
        TraceCsv.requireFree(file, replace);
        Path target = file.toAbsolutePath();
        try {
            Path part = Files.createTempFile(target.getParent(), ".sideport-", ".csv");
            try {
                try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
                    out.append(rows);
                }
                Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the track cannot be written: " + e.getMessage(),
                    file.toString(),
                    "choose a folder that exists and may be written to",
                    e);
        }
    }
}
