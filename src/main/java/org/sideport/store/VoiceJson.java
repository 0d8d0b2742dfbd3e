package org.sideport.store;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.sideport.model.Caption;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * What was seen while somebody spoke, and what was said, as JSON.
 *
 * <p>Seen, a list by {@code at_us}, microseconds from the start of the voice: {@code {"at_us": 0, "event": "stand",
 * "time_us": 28440000}}; {@code {"at_us": …, "event": "run", "time_us": …, "rate": 0.5}}; {@code {"at_us": …, "event":
 * "drawn", "mark": {"kind", "colour", "points": [[x, y], …], "words"}}}; {@code "removed"} as {@code "drawn"}.
 *
 * <p>Captions, a list: {@code {"from_us", "to_us", "text"}}.
 */
public final class VoiceJson {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private VoiceJson() {}

    public static List<Map<String, Object>> listOf(SeenTrack track) {
        List<Map<String, Object>> list = new ArrayList<>();
        for (SeenEvent event : track.events()) {
            Map<String, Object> entry = new LinkedHashMap<>();
            entry.put("at_us", event.atUs());
            if (event instanceof SeenEvent.Stand stand) {
                entry.put("event", "stand");
                entry.put("time_us", stand.time().micros());
            } else if (event instanceof SeenEvent.Run run) {
                entry.put("event", "run");
                entry.put("time_us", run.from().micros());
                entry.put("rate", run.rate());
            } else if (event instanceof SeenEvent.Drawn drawn) {
                entry.put("event", "drawn");
                entry.put("mark", mapOf(drawn.mark()));
            } else if (event instanceof SeenEvent.Removed removed) {
                entry.put("event", "removed");
                entry.put("mark", mapOf(removed.mark()));
            }
            list.add(entry);
        }
        return list;
    }

    private static Map<String, Object> mapOf(DrawnMark mark) {
        Map<String, Object> entry = new LinkedHashMap<>();
        entry.put("kind", mark.kind().id());
        entry.put("colour", mark.colour().id());
        entry.put(
                "points", mark.points().stream().map(p -> List.of(p.x(), p.y())).toList());
        entry.put("words", mark.words());
        return entry;
    }

    public static List<Map<String, Object>> listOf(List<Caption> captions) {
        return captions.stream()
                .map(caption -> {
                    Map<String, Object> entry = new LinkedHashMap<>();
                    entry.put("from_us", caption.fromUs());
                    entry.put("to_us", caption.toUs());
                    entry.put("text", caption.text());
                    return entry;
                })
                .toList();
    }

    public static String write(SeenTrack track) {
        return MAPPER.writeValueAsString(listOf(track));
    }

    public static String write(List<Caption> captions) {
        return MAPPER.writeValueAsString(listOf(captions));
    }

    /**
     * @throws RuntimeException if the text is not what {@link #write(SeenTrack)} writes
     */
    public static SeenTrack readSeen(String json) {
        List<SeenEvent> events = new ArrayList<>();
        for (JsonNode entry : MAPPER.readTree(json)) {
            long at = entry.required("at_us").asLong();
            String kind = entry.required("event").asString();
            events.add(
                    switch (kind) {
                        case "stand" -> new SeenEvent.Stand(at, time(entry));
                        case "run" ->
                            new SeenEvent.Run(
                                    at, time(entry), entry.required("rate").asDouble());
                        case "drawn" -> new SeenEvent.Drawn(at, mark(entry.required("mark")));
                        case "removed" -> new SeenEvent.Removed(at, mark(entry.required("mark")));
                        default -> throw new IllegalArgumentException("unknown event " + kind);
                    });
        }
        return new SeenTrack(events);
    }

    private static MediaTime time(JsonNode entry) {
        return MediaTime.ofMicros(entry.required("time_us").asLong());
    }

    private static DrawnMark mark(JsonNode entry) {
        List<PicturePoint> points = new ArrayList<>();
        for (JsonNode point : entry.required("points")) {
            points.add(new PicturePoint(point.get(0).asDouble(), point.get(1).asDouble()));
        }
        return new DrawnMark(
                DrawnMark.Kind.valueOf(entry.required("kind").asString().toUpperCase(Locale.ROOT)),
                MarkColour.parse(entry.required("colour").asString()),
                points,
                entry.required("words").asString());
    }

    /**
     * @throws RuntimeException if the text is not what {@link #write(List)} writes
     */
    public static List<Caption> readCaptions(String json) {
        List<Caption> captions = new ArrayList<>();
        for (JsonNode entry : MAPPER.readTree(json)) {
            captions.add(new Caption(
                    entry.required("from_us").asLong(),
                    entry.required("to_us").asLong(),
                    entry.required("text").asString()));
        }
        return captions;
    }
}
