package org.sideport.report.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import tools.jackson.databind.JsonNode;

/**
 * Reads W3C Web Annotations on a recording: one, a list, a page or a collection. Annotations without a time, and replies of
 * other programs, are left out and counted.
 */
public final class AnnotationReader {

    private final @Nullable Recording recording;
    private final Map<String, Integer> files = new HashMap<>();
    private final DetailJson details = new DetailJson();
    private final List<Note> notes = new ArrayList<>();
    private int left;

    private AnnotationReader(@Nullable Recording recording) {
        this.recording = recording;
        if (recording != null) {
            for (int i = 0; i < recording.segments().size(); i++) {
                files.put(Digests.ni(recording.segments().get(i).sha256()), i);
            }
        }
    }

    /**
     * @param notes what was understood
     * @param leftOut annotations that say no time, or answer others
     */
    public record Read(List<Note> notes, int leftOut) {
        public Read {
            notes = List.copyOf(notes);
        }
    }

    /**
     * @param recording that of the case, to know its files; {@code null} if there is none
     * @throws InputException naming the place of the first thing that does not fit
     */
    public static Read read(Path file, @Nullable Recording recording) {
        return read(StandardJson.text(file), String.valueOf(file.getFileName()), recording);
    }

    /** As {@link #read(Path, Recording)}, of a text. */
    public static Read read(String text, String name, @Nullable Recording recording) {
        AnnotationReader reader = new AnnotationReader(recording);
        reader.any(StandardJson.parse(text, name), name);
        if (reader.notes.isEmpty()) {
            throw new InputException(
                    "there is no annotation with a time in this file", name, "choose annotations of a recording");
        }
        return new Read(reader.notes, reader.left);
    }

    private void any(JsonNode node, String place) {
        if (node.isArray()) {
            for (int i = 0; i < node.size(); i++) {
                any(node.get(i), place + "/" + i);
            }
        } else if (is(node, "AnnotationCollection")) {
            any(node.path("first"), place + "/first");
        } else if (is(node, "AnnotationPage")) {
            any(node.path("items"), place + "/items");
        } else if (is(node, "Annotation")) {
            annotation(node, place);
        } else {
            throw new InputException(
                    "this is neither an Annotation nor a page or collection of them",
                    place,
                    "give it one of these as its \"type\"; a collection must hold its first page");
        }
    }

    private static boolean is(JsonNode node, String type) {
        JsonNode said = node.path("type");
        if (said.isArray()) {
            for (JsonNode one : said) {
                if (one.asString("").equals(type)) {
                    return true;
                }
            }
            return false;
        }
        return said.asString("").equals(type);
    }

    private record Part(MediaTime from, @Nullable MediaTime to, List<DrawnMark> drawing) {}

    private void annotation(JsonNode one, String place) {
        JsonNode target = one.path("target");
        List<Part> parts = new ArrayList<>();
        if (target.isArray()) {
            for (int i = 0; i < target.size(); i++) {
                target(target.get(i), place + "/target/" + i, parts);
            }
        } else {
            target(target, place + "/target", parts);
        }
        if (parts.isEmpty()) {
            // replies of this program are inside their comment already
            left += one.path("motivation").asString("").equals("replying") ? 0 : 1;
            return;
        }
        Part first = parts.get(0);
        MediaTime end = parts.get(parts.size() - 1).to();
        JsonNode own = one.path(AnnotationWriter.OWN);
        Detail detail = DetailJson.isOne(own)
                ? details.read(own, place + "/" + AnnotationWriter.OWN).at(first.from(), end, Rounding.EXACT)
                : null;
        notes.add(new Note(place, first.from(), end, bodies(one), first.drawing(), detail));
    }

    private void target(JsonNode target, String place, List<Part> parts) {
        String source =
                target.isString() ? target.stringValue() : target.path("source").asString("");
        if (source.isEmpty()) {
            source = target.path("source").path("id").asString(target.path("id").asString(""));
        }
        int hash = source.indexOf('#');
        if (hash >= 0) {
            add(source.substring(hash + 1), source.substring(0, hash), List.of(), place, parts);
            return;
        }
        JsonNode selector = target.path("selector");
        for (JsonNode one : selector.isArray() ? selector : List.of(selector)) {
            if (one.path("type").asString("").equals("FragmentSelector")) {
                List<DrawnMark> shapes = shapes(one.path("refinedBy"), place + "/selector/refinedBy", source);
                add(
                        StandardJson.text(one, "value", place + "/selector"),
                        source,
                        shapes,
                        place + "/selector/value",
                        parts);
            }
        }
    }

    private List<DrawnMark> shapes(JsonNode selector, String place, String source) {
        if (!selector.path("type").asString("").equals("SvgSelector")
                || !selector.path("value").isString()) {
            return List.of();
        }
        Segment file = file(source);
        return SvgShapes.read(
                selector.path("value").stringValue(),
                place + "/value",
                file == null ? 0 : shown(file, true),
                file == null ? 0 : shown(file, false));
    }

    private @Nullable Segment file(String source) {
        Recording of = recording;
        return of == null ? null : of.segments().get(files.getOrDefault(source, 0));
    }

    private static int shown(Segment file, boolean width) {
        boolean turned = file.rotation() % 180 != 0;
        return width == turned ? file.height() : file.width();
    }

    private void add(String fragment, String source, List<DrawnMark> shapes, String place, List<Part> parts) {
        Segment file = file(source);
        FragmentTime time = FragmentTime.parse(
                fragment, place, file == null ? 0 : shown(file, true), file == null ? 0 : shown(file, false));
        if (time == null) {
            return;
        }
        MediaTime offset = offset(source, place);
        MediaTime end = time.to();
        List<DrawnMark> drawing = shapes;
        if (drawing.isEmpty()
                && !time.region().isEmpty()
                && !time.region().get(0).equals(time.region().get(1))) {
            drawing = List.of(SvgShapes.rectangle(
                    MarkColour.YELLOW, time.region().get(0), time.region().get(1)));
        }
        parts.add(new Part(offset.plus(time.from()), end == null ? null : offset.plus(end), drawing));
    }

    /** Where the file begins; one that is not known by its digest can only be meant where there is just one. */
    private MediaTime offset(String source, String place) {
        Recording of = recording;
        if (of == null) {
            return MediaTime.ZERO;
        }
        Integer segment = files.get(source);
        if (segment != null) {
            return of.startOf(segment);
        }
        java.util.regex.Matcher part = java.util.regex.Pattern.compile("urn:sideport:case:.*:part:(\\d{1,3})")
                .matcher(source);
        if (part.matches() && Integer.parseInt(part.group(1)) <= of.segments().size()) {
            return of.startOf(Integer.parseInt(part.group(1)) - 1);
        }
        if (of.segments().size() > 1) {
            throw new InputException(
                    "it is not known which of the recording's files is meant by \"" + source + "\"",
                    place,
                    "name the file by its digest: ni:///sha-256;…");
        }
        return MediaTime.ZERO;
    }

    private static String bodies(JsonNode one) {
        JsonNode value = one.path("bodyValue");
        if (value.isString()) {
            return value.stringValue().strip();
        }
        JsonNode body = one.path("body");
        List<String> texts = new ArrayList<>();
        for (JsonNode each : body.isArray() ? body : List.of(body)) {
            if (each.path("value").isString()) {
                texts.add(each.path("value").stringValue().strip());
            } else if (each.isString()) {
                texts.add(each.stringValue());
            } else if (each.path("id").isString()) {
                texts.add(each.path("id").stringValue());
            }
        }
        return String.join("\n", texts);
    }
}
