package org.sideport.report.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;

/** Files as other programs write them, made by hand after the examples of the specifications; the section stands beside each. */
class ForeignFilesTest {

    private static MediaTime s(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    /** W3C WebVTT, sections 1.1 to 1.5 and 4: voices, notes, styles, regions, cue names, settings, hours left out. */
    @Test
    void webVttWithAllThatCuesMayHave() {
        String text = """
            \uFEFFWEBVTT - made by hand

            STYLE
            ::cue { color: lime }

            REGION
            id:fred
            width:40%

            NOTE one line

            NOTE
            several
            lines

            1 - intro
            00:11.000 --> 00:13.000 align:start position:10%
            <v A1>We start &amp; <i>go</i> <00:12.000>on

            100:00:00.000 --> 100:00:00.001
            - Two
            - lines
            """;
        List<Note> notes = WebVtt.read(text.substring(1), "x.vtt");
        assertThat(notes).hasSize(2);
        assertThat(notes.get(0).from()).isEqualTo(s(11));
        assertThat(notes.get(0).to()).isEqualTo(s(13));
        assertThat(notes.get(0).text()).isEqualTo("We start & go on");
        assertThat(notes.get(1).from()).isEqualTo(s(360_000));
        assertThat(notes.get(1).text()).isEqualTo("- Two\n- lines");
    }

    /** SubRip has no specification; comma or point, missing counters, extra blanks (common practice, no source). */
    @Test
    void subRipAsItIsFound() {
        String text = "1\r\n"
                + "00:00:01,500 --> 00:00:02,000\r\n"
                + "<i>one</i> {\\an8}\r\n\r\n\r\n"
                + "00:00:03.000 -->  00:00:04.000\r\n"
                + "two\r\n";
        List<Note> notes = WebVtt.read(text, "x.srt");
        assertThat(notes).extracting(Note::text).containsExactly("one", "two");
        assertThat(notes.get(1).from()).isEqualTo(s(3));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "WEBVTT\\n\\n00:00:03.000 --> 00:00:02.000\\nx | x.vtt, line 3",
                "WEBVTT\\n\\nid\\n00:00:3.000 --> 00:00:04.000\\nx | x.vtt, line 4",
                "WEBVTT\\n\\njust words | x.vtt, line 3",
                "1\\n00:00:01,000 --> 00:61:00,000\\nx | x.vtt, line 2",
                "WEBVTT\\n\\n00:00:01.000 --> 00:00:02.000\\n{\"phase\":{\"phase\":\"rhexis\"}} | x.vtt, line 4, phase",
                "WEBVTT\\n"
                        + "\\n"
                        + "00:00:01.000 --> 00:00:02.000\\n"
                        + "{\"event\":{\"kind\":\"x\",\"at_us\":-1,\"note\":\"\"}} | x.vtt, line 4, event, /at_us",
                "WEBVTT | x.vtt"
            })
    void badCuesAreNamedByLine(String text, String place) {
        assertThatThrownBy(() -> WebVtt.read(text.replace("\\n", "\n"), "x.vtt"))
                .isInstanceOf(InputException.class)
                .extracting(e -> ((InputException) e).where())
                .asString()
                .startsWith(place);
    }

    /** Media Fragments URI 1.0, 4.2.1 (its examples t=10,20, t=,20, t=10, t=npt:10,20, t=0:02:00,121.5) and 5.1.1. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "t=10,20 | 10 | 20",
                "t=npt:10,20 | 10 | 20",
                "t=,20 | 0 | 20",
                "t=npt:,121.5 | 0 | 121.5",
                "t=10 | 10 |",
                "t=0:02:00,121.5 | 120 | 121.5",
                "t=02:00,121.5 | 120 | 121.5",
                "t=npt%3A10%2c20 | 10 | 20",
                "t=12.345678,12.345679 | 12.345678 | 12.345679",
                "xywh=160,120,320,240&t=1,2 | 1 | 2"
            })
    void mediaFragments(String text, double from, Double to) {
        FragmentTime read = FragmentTime.parse(text, "here", 640, 480);
        assertThat(read).isNotNull();
        assertThat(read.from()).isEqualTo(s(from));
        assertThat(read.to()).isEqualTo(to == null ? null : s(to));
    }

    /** The same, 5.1.1 and W3C's test cases: an end before or at the start, and what is no number. */
    @ParameterizedTest
    @ValueSource(strings = {"t=20,10", "t=3,3", "t=10,", "t=", "t=a,b", "t=-1,2", "t=0:65:00,2", "t=smpte:0:00:10,20"})
    void badMediaFragments(String text) {
        assertThatThrownBy(() -> FragmentTime.parse(text, "here", 0, 0))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("here");
    }

    /** Media Fragments URI 1.0, 4.2.2: percent:25,25,50,50 is the inner half. */
    @Test
    void regionsOfThePicture() {
        assertThat(FragmentTime.parse("t=1,2&xywh=percent:25,25,50,50", "here", 0, 0)
                        .region())
                .containsExactly(new PicturePoint(0.25, 0.25), new PicturePoint(0.75, 0.75));
        assertThat(FragmentTime.parse("t=1,2&xywh=160,120,320,240", "here", 640, 480)
                        .region())
                .containsExactly(new PicturePoint(0.25, 0.25), new PicturePoint(0.75, 0.75));
        assertThat(FragmentTime.box(0.101, 0.2, 0.309, 0.9999)).isEqualTo("xywh=percent:10,20,21,80");
    }

    /** Web Annotation Data Model: Examples of 3.2.4 (body texts), 4.2.1 (t=30,60), 4.2.7 (SVG), 5.2 (page), 3.1 (IRI target). */
    @Test
    void webAnnotationsOfOtherPrograms() {
        String text = """
            {"@context": "http://www.w3.org/ns/anno.jsonld", "id": "http://example.org/page1", "type": "AnnotationPage",
             "items": [
              {"id": "http://example.org/anno1", "type": "Annotation", "body": "http://example.org/post1",
               "target": "http://example.org/video1#t=10,20"},
              {"id": "http://example.org/anno2", "type": "Annotation", "bodyValue": "Comment text",
               "target": {"source": "http://example.org/video1", "selector":
                 {"type": "FragmentSelector", "conformsTo": "http://www.w3.org/TR/media-frags/", "value": "t=30,60",
                  "refinedBy": {"type": "SvgSelector", "value":
                   "<svg:svg viewBox='0 0 200 100'><svg:rect x='20' y='10' width='100' height='50'/><svg:path d='M 1 1'/></svg:svg>"}}}},
              {"id": "http://example.org/anno3", "type": ["Annotation"], "body": [
                {"type": "TextualBody", "value": "Rhexis", "purpose": "classifying"}],
               "target": [{"source": {"id": "http://example.org/video1"}, "selector": [
                {"type": "FragmentSelector", "value": "t=60&xywh=percent:10,20,30,40"}]}]},
              {"id": "http://example.org/anno4", "type": "Annotation", "bodyValue": "no time",
               "target": "http://example.org/page2"}]}
            """;
        AnnotationReader.Read read = AnnotationReader.read(text, "x.jsonld", null);
        assertThat(read.leftOut()).isEqualTo(1);
        assertThat(read.notes())
                .extracting(Note::text)
                .containsExactly("http://example.org/post1", "Comment text", "Rhexis");
        assertThat(read.notes().get(0).from()).isEqualTo(s(10));
        DrawnMark box = read.notes().get(1).drawing().get(0);
        assertThat(box.kind()).isEqualTo(DrawnMark.Kind.FREEHAND);
        assertThat(box.points())
                .contains(new PicturePoint(0.1, 0.1), new PicturePoint(0.6, 0.6))
                .hasSize(5);
        assertThat(read.notes().get(2).to()).isNull();
        assertThat(read.notes().get(2).drawing()).hasSize(1);
    }

    @Test
    void badAnnotationsAreNamedByTheirPlace() {
        String text = """
            [{"type": "Annotation", "target": "http://example.org/v#t=1,2"},
             {"type": "Annotation", "target": {"source": "http://example.org/v", "selector":
               {"type": "FragmentSelector", "value": "t=2,1"}}}]
            """;
        assertThatThrownBy(() -> AnnotationReader.read(text, "x.jsonld", null))
                .hasMessageContaining("x.jsonld/1/target/selector/value");
        assertThatThrownBy(() -> AnnotationReader.read("{\"type\": \"Person\"}", "x.jsonld", null))
                .hasMessageContaining("neither an Annotation");
        assertThatThrownBy(() -> AnnotationReader.read("{\n\"type\": }", "x.jsonld", null))
                .hasMessageContaining("line 2");
        String doctype =
                "<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/passwd'>]><svg viewBox='0 0 1 1'><text>&x;</text></svg>";
        assertThatThrownBy(() -> SvgShapes.read(doctype, "here", 0, 0)).isInstanceOf(InputException.class);
    }

    /**
     * OpenTimelineIO, "File Format Specification" and its sample data: Clip.1 and Clip.2, media time on clips, other rates, a
     * gap, a nested stack, a transition that takes no time.
     */
    @Test
    void timelinesOfOtherPrograms() {
        String text = """
            {"OTIO_SCHEMA": "Timeline.1", "name": "hand", "tracks": {"OTIO_SCHEMA": "Stack.1", "markers": [%s], "children": [
             {"OTIO_SCHEMA": "Track.1", "kind": "Video", "source_range": null, "markers": [%s], "children": [
              {"OTIO_SCHEMA": "Gap.1", "source_range": %s, "markers": []},
              {"OTIO_SCHEMA": "Transition.1", "transition_type": "SMPTE_Dissolve"},
              {"OTIO_SCHEMA": "Clip.1", "source_range": %s, "media_reference": {"OTIO_SCHEMA": "MissingReference.1"},
               "markers": [%s, %s]},
              {"OTIO_SCHEMA": "Clip.2", "source_range": null, "active_media_reference_key": "M", "media_references":
                {"M": {"OTIO_SCHEMA": "ExternalReference.1", "target_url": "a.mp4", "available_range": %s}},
               "markers": [%s]}]}]}}
            """.formatted(
                        marker("on the stack", 24, 48, 24),
                        marker("on the track", 25, 25, 0),
                        range(24, 0, 48),
                        range(24, 2400, 240),
                        marker("in media time", 24, 2424, 24),
                        marker("not shown", 24, 0, 0),
                        range(30000 / 1001.0, 100, 300),
                        marker("in the second clip", 30000 / 1001.0, 130, 0));
        OtioReader.Read read = OtioReader.read(text, "x.otio");
        assertThat(read.leftOut()).isEqualTo(1);
        assertThat(read.notes())
                .extracting(Note::text)
                .containsExactly("on the stack", "on the track", "in media time", "in the second clip");
        assertThat(read.notes())
                .extracting(Note::from)
                .containsExactly(
                        // 48/24; 25/25; 2 s of gap and 24/24; 2 s, 10 s and 30 frames of 1001/30000 s
                        s(2), s(1), s(3), MediaTime.ofMicros(12_000_000 + 1_001_000));
        assertThat(read.notes().get(0).to()).isEqualTo(s(3));
        assertThat(read.notes().get(1).to()).isNull();
    }

    private static String range(double rate, double start, double length) {
        return ("{\"OTIO_SCHEMA\": \"TimeRange.1\", \"start_time\": {\"OTIO_SCHEMA\": \"RationalTime.1\", \"rate\": "
                + rate
                + ", \"value\": " + start + "}, \"duration\": {\"OTIO_SCHEMA\": \"RationalTime.1\", \"rate\": " + rate
                + ", \"value\": " + length + "}}");
    }

    private static String marker(String name, double rate, double start, double length) {
        return "{\"OTIO_SCHEMA\": \"Marker.2\", \"name\": \"" + name
                + "\", \"color\": \"RED\", \"metadata\": {\"other\": {}}," + " \"marked_range\": "
                + range(rate, start, length) + "}";
    }

    @Test
    void badTimelinesAreNamedByTheirPlace() {
        String bad = "{\"OTIO_SCHEMA\": \"Clip.2\", \"markers\": [%s]}";
        assertThatThrownBy(() -> OtioReader.read(bad.formatted(marker("x", 0, 1, 1)), "x.otio"))
                .hasMessageContaining("x.otio/markers/0/marked_range/start_time");
        assertThatThrownBy(() -> OtioReader.read(bad.formatted(marker("x", 24, 1, -1)), "x.otio"))
                .hasMessageContaining("/marked_range/duration");
        assertThatThrownBy(() -> OtioReader.read("{\"OTIO_SCHEMA\": \"Effect.1\"}", "x.otio"))
                .hasMessageContaining("Effect");
        assertThatThrownBy(() -> OtioReader.read("{}", "x.otio")).hasMessageContaining("OTIO_SCHEMA");
    }
}
