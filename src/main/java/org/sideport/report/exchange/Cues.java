package org.sideport.report.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;

/**
 * The cues of WebVTT (W3C, section 4.1) and SubRip text. Notes, styles and regions are passed over; a block that is none of
 * these and no cue is refused with its line, where a player would drop it silently.
 */
final class Cues {

    private static final String TIME = "(?:(\\d{2,4}):)?([0-5]\\d):([0-5]\\d)[.,](\\d{3})";
    private static final Pattern TIMES = Pattern.compile(TIME + "[ \\t]*-->[ \\t]*" + TIME + "(?:[ \\t].*)?");

    /**
     * @param line of its times, counted from 1
     * @param id empty if it has none
     * @param payload its lines as they stand in the file
     */
    record Cue(int line, String id, MediaTime from, MediaTime to, List<String> payload) {}

    private Cues() {}

    /** True if it begins as WebVTT must. */
    static boolean isWebVtt(String text) {
        return text.matches("(?s)WEBVTT(?:[ \\t\\r\\n].*)?");
    }

    /** @throws InputException at the first line that does not fit */
    static List<Cue> read(String text, String name) {
        List<String> lines = text.lines().toList();
        boolean vtt = isWebVtt(text);
        int at = 0;
        if (vtt) {
            while (at < lines.size() && !lines.get(at).isBlank()) {
                at++;
            }
        }
        List<Cue> cues = new ArrayList<>();
        while (at < lines.size()) {
            if (lines.get(at).isEmpty() || (!vtt && lines.get(at).isBlank())) {
                at++;
                continue;
            }
            int end = at;
            // a line of blanks ends no cue in WebVTT
            while (end < lines.size()
                    && !(vtt ? lines.get(end).isEmpty() : lines.get(end).isBlank())) {
                end++;
            }
            if (!vtt || !lines.get(at).matches("(?:NOTE|STYLE|REGION)(?:[ \\t].*)?")) {
                cues.add(cue(lines, at, end, vtt, name));
            }
            at = end;
        }
        return cues;
    }

    private static Cue cue(List<String> lines, int from, int to, boolean vtt, String name) {
        int at = from;
        String id = "";
        if (!lines.get(at).contains("-->") && (vtt || lines.get(at).strip().matches("\\d+"))) {
            id = lines.get(at).strip();
            at++;
        }
        int shown = Math.min(at, to - 1);
        String place = name + ", line " + (shown + 1);
        Matcher times = TIMES.matcher(at < to ? lines.get(at).strip() : "");
        if (!times.matches()) {
            throw new InputException(
                    "these are no times of a cue: \"" + lines.get(shown) + "\"",
                    place,
                    "write them as 00:00:01.500 --> 00:00:04.000");
        }
        MediaTime start = time(times, 1);
        MediaTime end = time(times, 5);
        if (!end.isAfter(start)) {
            throw new InputException("the cue ends before it starts", place, "mend its times");
        }
        return new Cue(at + 1, id, start, end, List.copyOf(lines.subList(at + 1, to)));
    }

    private static MediaTime time(Matcher times, int group) {
        String hours = times.group(group);
        long seconds = (hours == null ? 0 : Long.parseLong(hours)) * 3600
                + Long.parseLong(times.group(group + 1)) * 60
                + Long.parseLong(times.group(group + 2));
        return MediaTime.ofMicros(seconds * 1_000_000 + Long.parseLong(times.group(group + 3)) * 1000);
    }

    /** A time as both write it, cut to milliseconds. */
    static String time(MediaTime time, char point) {
        long millis = time.micros() / 1000;
        return String.format(
                Locale.ROOT,
                "%02d:%02d:%02d%c%03d",
                millis / 3_600_000,
                millis / 60_000 % 60,
                millis / 1000 % 60,
                point,
                millis % 1000);
    }
}
