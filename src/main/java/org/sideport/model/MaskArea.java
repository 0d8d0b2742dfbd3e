package org.sideport.model;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A rectangle to hide, for some of the time. It is given in display pixels: those of the upright picture, widened to
 * square pixels at its height where the file's pixels are not square.
 *
 * @param x of its left edge, from the left
 * @param y of its top edge, from the top
 * @param width at least 1
 * @param height at least 1
 * @param from first time that is hidden, on the recording's timeline
 * @param to first time that is not hidden any more; {@code null} for the recording's end
 */
public record MaskArea(
        int x,
        int y,
        int width,
        int height,
        MediaTime from,
        @Nullable MediaTime to) {

    private static final Pattern FORM =
            Pattern.compile("(\\d{1,5}),(\\d{1,5}),(\\d{1,5}),(\\d{1,5})(?:@([^-]*)-([^-]*))?");

    public MaskArea {
        if (x < 0 || y < 0 || width < 1 || height < 1) {
            throw new IllegalArgumentException("an area needs a place in the picture and a size of at least 1 x 1");
        }
        if (to != null && !to.isAfter(from)) {
            throw new IllegalArgumentException("an area's time must end after its start");
        }
    }

    /** For the whole recording. */
    public MaskArea(int x, int y, int width, int height) {
        this(x, y, width, height, MediaTime.ZERO, null);
    }

    /**
     * Reads {@code X,Y,WIDTH,HEIGHT}, with {@code @FROM-TO} behind it for a part of the time; either time may be left
     * out.
     *
     * @throws InputException if the text is not of this form
     */
    public static MaskArea parse(String text) {
        Matcher parts = FORM.matcher(text.trim());
        if (!parts.matches()) {
            throw notAnArea(text);
        }
        int width = Integer.parseInt(parts.group(3));
        int height = Integer.parseInt(parts.group(4));
        String from = parts.group(5) == null ? "" : parts.group(5).trim();
        String to = parts.group(6) == null ? "" : parts.group(6).trim();
        MediaTime start = from.isEmpty() ? MediaTime.ZERO : MediaTime.parse(from);
        MediaTime end = to.isEmpty() ? null : MediaTime.parse(to);
        if (width < 1 || height < 1 || end != null && !end.isAfter(start)) {
            throw notAnArea(text);
        }
        return new MaskArea(
                Integer.parseInt(parts.group(1)), Integer.parseInt(parts.group(2)), width, height, start, end);
    }

    /** As {@link #parse} reads it. */
    public String text() {
        String place = x + "," + y + "," + width + "," + height;
        if (from.equals(MediaTime.ZERO) && to == null) {
            return place;
        }
        return place + "@" + from.toClockText() + "-" + (to == null ? "" : to.toClockText());
    }

    private static InputException notAnArea(String text) {
        return new InputException(
                "\"" + text + "\" is not an area",
                null,
                "write X,Y,WIDTH,HEIGHT in pixels (0,0,320,40), with @FROM-TO behind it for a part of the time"
                        + " (0,0,320,40@0:05-0:12)");
    }

    /** True if it hides the picture at some time between these, µs, both included. */
    public boolean touches(long first, long last) {
        return last >= from.micros() && (to == null || first < to.micros());
    }

    /** True while it hides the picture at this time of the recording, µs. */
    public boolean covers(long us) {
        return touches(us, us);
    }
}
