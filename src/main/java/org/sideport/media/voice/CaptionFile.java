package org.sideport.media.voice;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.sideport.model.Caption;
import org.sideport.model.InputException;

/**
 * Reads captions from WebVTT (W3C, section 4) or SubRip text. Styles, regions, notes and where a caption would stand are
 * left out, and so are tags within its text; anything else that does not fit is refused with its line.
 */
public final class CaptionFile {

    private static final long LARGEST = 4L << 20;

    /** Hours may be missing in WebVTT; SubRip has a comma before the milliseconds. */
    private static final String TIME = "(?:(\\d{2,}):)?([0-5]\\d):([0-5]\\d)[.,](\\d{3})";

    private static final Pattern TIMES = Pattern.compile(TIME + "[ \\t]+-->[ \\t]+" + TIME + "(?:[ \\t].*)?");
    private static final Pattern TAG = Pattern.compile("</?[a-zA-Z][^>]*>|<\\d[^>]*>");

    private CaptionFile() {}

    /**
     * @throws InputException if the file is missing, is neither of the two, or has a line that cannot be understood
     */
    public static List<Caption> read(Path file) {
        String name = file.toString();
        try {
            if (!Files.isRegularFile(file)) {
                throw new InputException("there is no such file", name, "check the name");
            }
            if (Files.size(file) > LARGEST) {
                throw new InputException("the file is too large for captions", name, "choose a .vtt or .srt file");
            }
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
                    .toString();
            return parse(text, name);
        } catch (CharacterCodingException e) {
            throw new InputException("the text is not in UTF-8", name, "save it as UTF-8", e);
        } catch (IOException e) {
            throw new InputException("the file cannot be read: " + e.getMessage(), name, null, e);
        }
    }

    /** As {@link #read}, of a text; {@code name} is said in errors. */
    public static List<Caption> parse(String text, String name) {
        String clean = text.startsWith("\uFEFF") ? text.substring(1) : text;
        List<String> lines = clean.lines().toList();
        boolean vtt = !lines.isEmpty() && lines.get(0).matches("WEBVTT(?:[ \\t].*)?");
        List<Caption> captions = new ArrayList<>();
        int at = 0;
        if (vtt) {
            while (at < lines.size() && !lines.get(at).isBlank()) {
                at++;
            }
        }
        while (at < lines.size()) {
            if (lines.get(at).isBlank()) {
                at++;
                continue;
            }
            int end = at;
            while (end < lines.size() && !lines.get(end).isBlank()) {
                end++;
            }
            if (!vtt || !lines.get(at).matches("(?:NOTE|STYLE|REGION)(?:[ \\t].*)?")) {
                block(lines, at, end, vtt, name, captions);
            }
            at = end;
        }
        if (captions.isEmpty()) {
            throw new InputException("there are no captions in this file", name, "choose a .vtt or .srt file");
        }
        captions.sort(Comparator.comparingLong(Caption::fromUs));
        return captions;
    }

    private static void block(List<String> lines, int from, int to, boolean vtt, String name, List<Caption> captions) {
        int at = from;
        // a cue may have a name of its own before its times, in SubRip its number
        if (!lines.get(at).contains("-->") && (vtt || lines.get(at).strip().matches("\\d+"))) {
            at++;
        }
        Matcher times = at < to ? TIMES.matcher(lines.get(at).strip()) : null;
        if (times == null || !times.matches()) {
            throw new InputException(
                    "no times of a caption: \"" + lines.get(Math.min(at, to - 1)) + "\"",
                    name + ", line " + (Math.min(at, to - 1) + 1),
                    "write them as 00:00:01.500 --> 00:00:04.000");
        }
        long start = micros(times, 1);
        long end = micros(times, 5);
        if (end <= start) {
            throw new InputException(
                    "the caption ends before it starts", name + ", line " + (at + 1), "mend its times");
        }
        String said = TAG.matcher(String.join("\n", lines.subList(at + 1, to)))
                .replaceAll("")
                .strip();
        if (vtt) {
            said = said.replace("&lt;", "<")
                    .replace("&gt;", ">")
                    .replace("&nbsp;", "\u00A0")
                    .replace("&lrm;", "\u200E")
                    .replace("&rlm;", "\u200F")
                    .replace("&amp;", "&");
        }
        if (!said.isEmpty()) {
            captions.add(new Caption(start, end, said));
        }
    }

    private static long micros(Matcher times, int group) {
        String hours = times.group(group);
        if (hours != null && hours.length() > 4) {
            throw new InputException("not a time: " + times.group(), null, "write hours with two digits");
        }
        long seconds = (hours == null ? 0 : Long.parseLong(hours)) * 3600
                + Long.parseLong(times.group(group + 1)) * 60
                + Long.parseLong(times.group(group + 2));
        return seconds * 1_000_000 + Long.parseLong(times.group(group + 3)) * 1000;
    }
}
