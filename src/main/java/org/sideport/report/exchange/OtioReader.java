package org.sideport.report.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import tools.jackson.databind.JsonNode;

/**
 * Reads the markers of an OpenTimelineIO timeline, whichever item they stand on, and puts them on one timeline. A marker's time
 * is that of the item it is on: media time on a clip, the track's or the stack's own elsewhere.
 */
public final class OtioReader {

    private static final List<String> KINDS = List.of("Stack", "Track", "Clip", "Gap");

    private final DetailJson details = new DetailJson();
    private final List<Note> notes = new ArrayList<>();
    private int left;

    private OtioReader() {}

    /**
     * @param notes what was understood
     * @param leftOut markers on what a clip does not show and that lie before the timeline's start
     */
    public record Read(List<Note> notes, int leftOut) {
        public Read {
            notes = List.copyOf(notes);
        }
    }

    /** @throws InputException naming the place of the first thing that does not fit */
    public static Read read(Path file) {
        return read(StandardJson.text(file), String.valueOf(file.getFileName()));
    }

    /** As {@link #read(Path)}, of a text. */
    public static Read read(String text, String name) {
        JsonNode root = StandardJson.parse(text, name);
        OtioReader reader = new OtioReader();
        String schema = schema(root, name);
        if (schema.equals("Timeline")) {
            reader.item(root.path("tracks"), name + ", /tracks", 0);
        } else {
            reader.item(root, name, 0);
        }
        if (reader.notes.isEmpty()) {
            throw new InputException("the timeline has no markers", name, "add markers in the other program");
        }
        return new Read(reader.notes, reader.left);
    }

    private static String schema(JsonNode node, String place) {
        String schema = StandardJson.text(node, "OTIO_SCHEMA", place);
        int dot = schema.indexOf('.');
        return dot < 0 ? schema : schema.substring(0, dot);
    }

    /**
     * Takes the markers of an item and of what it holds.
     *
     * @param at microseconds on the timeline at which the item starts
     * @return its length in microseconds, 0 where it does not say
     */
    private long item(JsonNode item, String place, long at) {
        String kind = schema(item, place);
        if (kind.equals("Transition")) {
            // lies over its neighbours and takes no time of its own
            return 0;
        }
        if (!KINDS.contains(kind)) {
            throw new InputException(
                    "cannot be read here: " + kind, place, "write a timeline of stacks, tracks, clips and gaps");
        }
        JsonNode range = item.path("source_range");
        long start = range.isObject() ? micros(range.path("start_time"), place + "/source_range/start_time") : 0;
        long own = kind.equals("Clip") && !range.isObject() ? available(item, place) : start;
        long offset = at - own;
        JsonNode markers = item.path("markers");
        for (int i = 0; i < markers.size(); i++) {
            marker(markers.get(i), place + "/markers/" + i, offset);
        }
        long inside = 0;
        JsonNode children = item.path("children");
        for (int i = 0; i < children.size(); i++) {
            boolean inTurn = kind.equals("Track");
            long length = item(children.get(i), place + "/children/" + i, offset + (inTurn ? inside : 0));
            inside = inTurn ? inside + length : Math.max(inside, length);
        }
        if (range.isObject()) {
            return micros(range.path("duration"), place + "/source_range/duration");
        }
        return kind.equals("Clip") ? availableLength(item, place) : inside;
    }

    private static JsonNode media(JsonNode clip) {
        JsonNode many = clip.path("media_references");
        return many.isObject()
                ? many.path(clip.path("active_media_reference_key").asString("DEFAULT_MEDIA"))
                : clip.path("media_reference");
    }

    private static long available(JsonNode clip, String place) {
        JsonNode range = media(clip).path("available_range");
        return range.isObject() ? micros(range.path("start_time"), place + "/available_range/start_time") : 0;
    }

    private static long availableLength(JsonNode clip, String place) {
        JsonNode range = media(clip).path("available_range");
        return range.isObject() ? micros(range.path("duration"), place + "/available_range/duration") : 0;
    }

    private void marker(JsonNode marker, String place, long offset) {
        if (!schema(marker, place).equals("Marker")) {
            throw new InputException("this is no marker", place, "write Marker.2 there");
        }
        JsonNode range = marker.path("marked_range");
        long from = offset + micros(range.path("start_time"), place + "/marked_range/start_time");
        long length = micros(range.path("duration"), place + "/marked_range/duration");
        if (from < 0) {
            left++;
            return;
        }
        if (length < 0) {
            throw new InputException("has a negative length", place + "/marked_range/duration", "write 0 or more");
        }
        MediaTime start = MediaTime.ofMicros(from);
        MediaTime end = length == 0 ? null : MediaTime.ofMicros(from + length);
        Detail detail = detail(marker, place, start, end);
        String name = marker.path("name").asString("").strip();
        String comment = marker.path("comment").asString("").strip();
        // the name alone may be a phase's; a longer text goes with it where it is a comment
        String text =
                comment.isEmpty() || comment.equals(name) ? name : name.isEmpty() ? comment : name + "\n" + comment;
        notes.add(new Note(place, start, end, text, List.of(), detail));
    }

    private @Nullable Detail detail(JsonNode marker, String place, MediaTime start, @Nullable MediaTime end) {
        JsonNode own = marker.path("metadata").path(OtioWriter.OWN);
        if (!DetailJson.isOne(own)) {
            return null;
        }
        double rate = marker.at("/marked_range/start_time/rate").asDouble(0);
        Rounding rounding = rate == OtioWriter.MICROSECONDS || !(rate > 0) ? Rounding.EXACT : Rounding.frames(rate);
        return details.read(own, place + "/metadata/" + OtioWriter.OWN).at(start, end, rounding);
    }

    private static long micros(JsonNode time, String place) {
        JsonNode value = time.path("value");
        JsonNode rate = time.path("rate");
        if (!value.isNumber() || !rate.isNumber() || !(rate.doubleValue() > 0)) {
            throw new InputException(
                    "is no RationalTime with a number as its value and a rate above 0", place, "mend it there");
        }
        double micros = value.doubleValue() / rate.doubleValue() * 1e6;
        if (!(Math.abs(micros) < 1e15)) {
            throw new InputException("lies too far away", place, "mend it there");
        }
        return rate.doubleValue() == OtioWriter.MICROSECONDS ? Math.round(value.doubleValue()) : Math.round(micros);
    }
}
