package org.sideport.report.exchange;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * An OpenTimelineIO timeline (its serialised schema): one clip for each file of the recording, and markers on their track for
 * phases, events and comments. Files go by the case's code and number; who has neutral copies of these names can link them.
 */
public final class OtioWriter {

    /** Ticks in a second at which every time of this program is whole. */
    static final double MICROSECONDS = 1_000_000;

    static final String OWN = "sideport";

    private final Annotated from;
    private final double rate;
    private final boolean frames;

    private OtioWriter(Annotated from, double rate, boolean frames) {
        this.from = from;
        this.rate = rate;
        this.frames = frames;
    }

    /**
     * @param atFrameRate true for times in whole frames of the recording, which editing programs like and which are rounded;
     *     false for exact ones in microseconds
     * @throws InputException if frames are wanted of a recording that has no one rate
     */
    public static String write(Annotated from, boolean atFrameRate) {
        double rate = atFrameRate ? frameRate(from) : MICROSECONDS;
        return StandardJson.pretty(new OtioWriter(from, rate, atFrameRate).timeline());
    }

    private static double frameRate(Annotated from) {
        Recording recording = from.recording();
        if (recording == null) {
            throw new InputException("case " + from.code() + " has no recording", null, "leave out the frame rate");
        }
        Segment first = recording.segments().get(0);
        boolean one = recording.segments().stream()
                .allMatch(s -> !s.variableRate()
                        && s.fpsNum() > 0
                        && s.fpsDen() > 0
                        && s.fpsNum() * first.fpsDen() == first.fpsNum() * s.fpsDen());
        if (!one) {
            throw new InputException(
                    "the recording of case " + from.code() + " has no one frame rate",
                    null,
                    "leave the times in microseconds");
        }
        return (double) first.fpsNum() / first.fpsDen();
    }

    private ObjectNode timeline() {
        ObjectNode timeline = item("Timeline.1", from.code());
        timeline.putNull("global_start_time");
        ObjectNode stack = container("Stack.1", "tracks");
        ObjectNode track = container("Track.1", "recording");
        track.put("kind", "Video");
        Recording recording = from.recording();
        ArrayNode clips = track.putArray("children");
        if (recording == null) {
            clips.add(gap());
        } else {
            for (int i = 0; i < recording.segments().size(); i++) {
                clips.add(clip(recording.segments().get(i), i));
            }
        }
        ArrayNode markers = (ArrayNode) track.get("markers");
        from.tagging().spans().forEach(span -> markers.add(marker(span)));
        from.tagging().events().forEach(event -> markers.add(marker(event)));
        from.threads().stream()
                .filter(t -> Threads.saysWithoutVoice(t.comment()))
                .forEach(thread -> markers.add(marker(thread)));
        stack.putArray("children").add(track);
        timeline.set("tracks", stack);
        ObjectNode about = timeline.withObject("metadata").putObject(OWN);
        about.put("case", from.code());
        about.put("annotator", from.annotator());
        about.put("procedure", from.procedure().id());
        return timeline;
    }

    private ObjectNode clip(Segment segment, int index) {
        ObjectNode clip = container("Clip.2", from.code() + "_part-" + two(index + 1));
        ObjectNode range = range(MediaTime.ZERO, MediaTime.ofMicros(segment.durationUs()));
        clip.set("source_range", range);
        ObjectNode media = item("ExternalReference.1", "");
        media.put("target_url", from.code() + "_part-" + two(index + 1) + ending(segment));
        media.set("available_range", range.deepCopy());
        media.putNull("available_image_bounds");
        media.withObject("metadata").putObject(OWN).put("source", Digests.source(from, index));
        clip.putObject("media_references").set("DEFAULT_MEDIA", media);
        clip.put("active_media_reference_key", "DEFAULT_MEDIA");
        return clip;
    }

    private static String ending(Segment segment) {
        String name = String.valueOf(segment.file().getFileName()).toLowerCase(Locale.ROOT);
        String ending = name.substring(name.lastIndexOf('.') + 1);
        return ending.matches("[a-z0-9]{1,5}") && !ending.equals(name) ? "." + ending : "";
    }

    private static String two(int number) {
        return String.format(Locale.ROOT, "%02d", number);
    }

    /** As long as anything is known of the operation. */
    private ObjectNode gap() {
        long last = 0;
        for (PhaseSpan span : from.tagging().spans()) {
            MediaTime end = span.end();
            last = Math.max(last, (end == null ? span.start() : end).micros());
        }
        for (PointEvent event : from.tagging().events()) {
            last = Math.max(last, event.at().micros());
        }
        for (CommentThread thread : from.threads()) {
            last = Math.max(last, Threads.shownUntil(thread.comment()).micros());
        }
        ObjectNode gap = container("Gap.1", "");
        gap.set("source_range", range(MediaTime.ZERO, MediaTime.ofMicros(last)));
        return gap;
    }

    private ObjectNode marker(PhaseSpan span) {
        MediaTime end = from.endOf(span);
        ObjectNode marker = marker(from.nameOf(span), "CYAN", span.start(), end, "");
        marker.withObject("metadata").set(OWN, DetailJson.of(span, from));
        return marker;
    }

    private ObjectNode marker(PointEvent event) {
        ObjectNode marker = marker(from.nameOfEvent(event.kind()), "ORANGE", event.at(), null, event.note());
        marker.withObject("metadata").set(OWN, DetailJson.of(event, from));
        return marker;
    }

    private ObjectNode marker(CommentThread thread) {
        Comment comment = thread.comment();
        List<String> lines = Threads.lines(thread);
        String name = lines.isEmpty() ? comment.author() : comment.author() + ": " + lines.get(0);
        ObjectNode marker = marker(name, "YELLOW", comment.from(), comment.to(), String.join("\n", lines));
        marker.withObject("metadata").set(OWN, DetailJson.of(thread));
        return marker;
    }

    private ObjectNode marker(String name, String colour, MediaTime at, @Nullable MediaTime to, String comment) {
        ObjectNode marker = item("Marker.2", name);
        marker.put("color", colour);
        marker.put("comment", comment);
        marker.set("marked_range", range(at, to == null || !to.isAfter(at) ? at : to));
        return marker;
    }

    private ObjectNode range(MediaTime start, MediaTime end) {
        ObjectNode range = StandardJson.object().put("OTIO_SCHEMA", "TimeRange.1");
        double from0 = value(start.micros());
        range.set("start_time", time(from0));
        range.set("duration", time(value(end.micros()) - from0));
        return range;
    }

    private double value(long micros) {
        double value = micros * rate / 1e6;
        return frames ? Math.rint(value) : micros;
    }

    private ObjectNode time(double value) {
        return StandardJson.object()
                .put("OTIO_SCHEMA", "RationalTime.1")
                .put("rate", rate)
                .put("value", value);
    }

    private static ObjectNode item(String schema, String name) {
        ObjectNode item = StandardJson.object().put("OTIO_SCHEMA", schema).put("name", name);
        item.putObject("metadata");
        return item;
    }

    private static ObjectNode container(String schema, String name) {
        ObjectNode item = item(schema, name);
        item.putNull("source_range");
        item.putArray("effects");
        item.putArray("markers");
        item.put("enabled", true);
        return item;
    }
}
