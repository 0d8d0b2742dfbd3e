package org.sideport.report.exchange;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;

/**
 * A media fragment (W3C Media Fragments URI 1.0, sections 4.2.1 and 4.2.2): its stretch in normal play time and its region of
 * the picture.
 *
 * @param from where it starts
 * @param to where it ends; {@code null} for "to the end"
 * @param region corners of the region, top left and bottom right, as shares of the picture; empty for the whole
 */
record FragmentTime(MediaTime from, @Nullable MediaTime to, List<PicturePoint> region) {

    private static final Pattern CLOCK = Pattern.compile("(?:(\\d+):)?([0-5]\\d):([0-5]\\d(?:\\.\\d*)?)");
    private static final Pattern SECONDS = Pattern.compile("\\d+(?:\\.\\d*)?");
    private static final Pattern REGION = Pattern.compile(
            "(?:(pixel|percent):)?(\\d+(?:\\.\\d+)?),(\\d+(?:\\.\\d+)?),(\\d+(?:\\.\\d+)?),(\\d+(?:\\.\\d+)?)");

    FragmentTime {
        region = List.copyOf(region);
    }

    /** {@code t=12.5,13.25}: exact, since any number of decimals is allowed. */
    static String stretch(MediaTime from, MediaTime to) {
        return "t=" + from.toSecondsText() + "," + to.toSecondsText();
    }

    /**
     * The smallest box of whole percents that holds all of it; section 4.2.2 knows whole numbers only.
     *
     * @param left shares of the picture
     */
    static String box(double left, double top, double right, double bottom) {
        int x = percent(Math.floor(left * 100), 99);
        int y = percent(Math.floor(top * 100), 99);
        int width = Math.max(1, percent(Math.ceil(right * 100), 100) - x);
        int height = Math.max(1, percent(Math.ceil(bottom * 100), 100) - y);
        return "xywh=percent:" + x + "," + y + "," + width + "," + height;
    }

    private static int percent(double value, int most) {
        return (int) Math.max(0, Math.min(most, value));
    }

    /**
     * @param text what stands behind the {@code #}, or in a FragmentSelector
     * @param width of the picture in pixels, for regions in pixels; 0 where it is not known
     * @return {@code null} if it says no time
     * @throws InputException at the place if the time or region does not fit
     */
    static @Nullable FragmentTime parse(String text, String place, int width, int height) {
        MediaTime from = null;
        MediaTime to = null;
        List<PicturePoint> region = List.of();
        for (String pair : text.split("&")) {
            int equals = pair.indexOf('=');
            String name = equals < 0 ? pair : pair.substring(0, equals);
            String value = equals < 0 ? "" : decoded(pair.substring(equals + 1), place);
            if (name.equals("t")) {
                String times = value.startsWith("npt:") ? value.substring(4) : value;
                int comma = times.indexOf(',');
                String first = comma < 0 ? times : times.substring(0, comma);
                if (times.isEmpty() || times.endsWith(",")) {
                    throw no(value, place);
                }
                from = first.isEmpty() ? MediaTime.ZERO : time(first, value, place);
                to = comma < 0 ? null : time(times.substring(comma + 1), value, place);
                if (to != null && !to.isAfter(from)) {
                    throw no(value, place);
                }
            } else if (name.equals("xywh")) {
                region = region(value, place, width, height);
            }
        }
        return from == null ? null : new FragmentTime(from, to, region);
    }

    private static String decoded(String text, String place) {
        try {
            return URLDecoder.decode(text.replace("+", "%2B"), StandardCharsets.UTF_8);
        } catch (IllegalArgumentException e) {
            throw new InputException("\"" + text + "\" has a broken % in it", place, "mend it", e);
        }
    }

    private static MediaTime time(String text, String whole, String place) {
        Matcher clock = CLOCK.matcher(text);
        try {
            if (SECONDS.matcher(text).matches()) {
                return MediaTime.parse(text.endsWith(".") ? text + "0" : text);
            }
            if (clock.matches()) {
                return MediaTime.parse(text.endsWith(".") ? text + "0" : text);
            }
        } catch (InputException e) {
            throw e.at(place);
        }
        throw no(whole, place);
    }

    private static InputException no(String value, String place) {
        return new InputException(
                "\"" + value + "\" is no stretch in normal play time",
                place,
                "write t=START,END in seconds or h:mm:ss, the end after the start");
    }

    private static List<PicturePoint> region(String value, String place, int width, int height) {
        Matcher matcher = REGION.matcher(value);
        if (!matcher.matches()) {
            throw new InputException("\"" + value + "\" is no region", place, "write xywh=percent:X,Y,WIDTH,HEIGHT");
        }
        boolean percent = "percent".equals(matcher.group(1));
        if (!percent && (width <= 0 || height <= 0)) {
            // pixels of a picture that is not there tell nothing
            return List.of();
        }
        double across = percent ? 100 : width;
        double down = percent ? 100 : height;
        double x = Double.parseDouble(matcher.group(2));
        double y = Double.parseDouble(matcher.group(3));
        double right = x + Double.parseDouble(matcher.group(4));
        double bottom = y + Double.parseDouble(matcher.group(5));
        List<PicturePoint> corners = new ArrayList<>();
        corners.add(PicturePoint.within(x / across, y / down));
        corners.add(PicturePoint.within(right / across, bottom / down));
        return corners;
    }
}
