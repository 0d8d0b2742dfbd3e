package org.sideport.report.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.model.CommentThread;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.timing.Boundary;

/** What was put in must come out again, to the microsecond: nothing but the input is the truth here. */
class RoundTripTest {

    private static final Instant MADE = Instant.parse("2026-01-02T03:04:05Z");
    private static final int TRIES = 40;

    private static void forMany(Recording recording, Function<Annotated, List<Note>> thereAndBack) {
        for (int seed = 0; seed < TRIES; seed++) {
            Annotated put = Written.of(seed, recording);
            if (put.tagging().isEmpty() && put.threads().isEmpty()) {
                continue;
            }
            List<Detail> got = thereAndBack.apply(put).stream()
                    .map(n -> java.util.Objects.requireNonNull(n.detail()))
                    .toList();
            List<PhaseSpan> spans = got.stream()
                    .filter(d -> d instanceof Detail.OfPhase)
                    .map(d -> ((Detail.OfPhase) d).span())
                    .toList();
            List<PointEvent> events = got.stream()
                    .filter(d -> d instanceof Detail.OfEvent)
                    .map(d -> ((Detail.OfEvent) d).event())
                    .toList();
            List<CommentThread> threads = got.stream()
                    .filter(d -> d instanceof Detail.OfComment)
                    .map(d -> ((Detail.OfComment) d).thread())
                    .toList();
            assertThat(spans).as("seed %d", seed).isEqualTo(put.tagging().spans());
            assertThat(events)
                    .as("seed %d", seed)
                    .containsExactlyInAnyOrderElementsOf(put.tagging().events());
            assertThat(threads).as("seed %d", seed).containsExactlyInAnyOrderElementsOf(put.threads());
            assertThat(confirmed(got)).as("seed %d", seed).isEqualTo(put.confirmed());
            got.stream()
                    .filter(d -> d instanceof Detail.OfPhase)
                    .forEach(d -> assertThat(((Detail.OfPhase) d).style())
                            .isEqualTo(put.tagging().style()));
        }
    }

    private static Set<Boundary> confirmed(List<Detail> got) {
        Set<Boundary> all = new HashSet<>();
        for (Detail detail : got) {
            if (detail instanceof Detail.OfPhase phase) {
                phase.confirmed().forEach(t -> all.add(new Boundary(Boundary.Kind.PHASE, t)));
            } else if (detail instanceof Detail.OfEvent event && event.confirmed()) {
                all.add(new Boundary(Boundary.Kind.EVENT, event.event().at()));
            }
        }
        return all;
    }

    @Test
    void webVttMetadataCuesGiveBackTagsAndComments() {
        forMany(null, put -> WebVtt.read(WebVtt.metadata(put), "x.vtt"));
        forMany(Written.recording(), put -> WebVtt.read(WebVtt.metadata(put), "x.vtt"));
    }

    @Test
    void openTimelineIoGivesBackTagsAndComments() {
        forMany(
                null,
                put -> OtioReader.read(OtioWriter.write(put, false), "x.otio").notes());
        forMany(
                Written.recording(),
                put -> OtioReader.read(OtioWriter.write(put, false), "x.otio").notes());
        forMany(
                Written.recording(),
                put -> OtioReader.read(OtioWriter.write(put, true), "x.otio").notes());
    }

    @Test
    void webAnnotationsGiveBackTagsAndCommentsOverFilesToo() {
        forMany(
                null,
                put -> AnnotationReader.read(AnnotationWriter.write(put, MADE), "x.jsonld", null)
                        .notes());
        Recording recording = Written.recording();
        forMany(
                recording,
                put -> AnnotationReader.read(AnnotationWriter.write(put, MADE), "x.jsonld", recording)
                        .notes());
    }

    /** What other programs see of it: the standard's own fields alone. */
    @Test
    void theStandardsOwnFieldsSayTheSameTimes() {
        for (int seed = 0; seed < TRIES; seed++) {
            Annotated put = Written.of(seed, Written.recording());
            if (put.tagging().isEmpty()) {
                continue;
            }
            String vtt = WebVtt.metadata(put).replace("{\"phase\"", "{\"other\"");
            List<Note> cues = WebVtt.read(vtt, "x.vtt").stream()
                    .filter(n -> n.detail() == null)
                    .toList();
            String otio = OtioWriter.write(put, false).replace("\"sideport\" : {", "\"another\" : {");
            List<Note> markers = OtioReader.read(otio, "x.otio").notes();
            String jsonld = AnnotationWriter.write(put, MADE).replace("\"sideport:detail\" : {", "\"another\" : {");
            List<Note> fragments =
                    AnnotationReader.read(jsonld, "x.jsonld", put.recording()).notes();
            for (int i = 0; i < put.tagging().spans().size(); i++) {
                PhaseSpan span = put.tagging().spans().get(i);
                MediaTime end = put.endOf(span);
                assertThat(cues.get(i).from().micros()).isEqualTo(span.start().micros() / 1000 * 1000);
                assertThat(markers.get(i).from()).isEqualTo(span.start());
                assertThat(markers.get(i).to()).isEqualTo(end);
                assertThat(fragments.get(i).from()).isEqualTo(span.start());
                assertThat(fragments.get(i).to()).isEqualTo(end);
                assertThat(markers.get(i).text()).isEqualTo(put.nameOf(span));
                assertThat(fragments.get(i).text()).isEqualTo(put.nameOf(span));
            }
        }
    }

    @Test
    void whatAnotherProgramMovedIsTakenWhereItWasMovedToAndTheRestStaysExact() {
        PhaseSpan span = new PhaseSpan("rhexis", MediaTime.ofMicros(10_000_500), MediaTime.ofMicros(20_000_123), null);
        Annotated put = new Annotated(
                "D-1",
                "A1",
                Written.PHACO,
                new Tagging(TaggingStyle.START_AND_END, List.of(span), List.of()),
                Set.of(),
                List.of(),
                null,
                false);
        String vtt = WebVtt.metadata(put).replace("00:00:10.000 --> ", "00:00:12.000 --> ");
        assertThat(only(WebVtt.read(vtt, "x"))).isEqualTo(span.withStart(MediaTime.ofMicros(12_000_000)));
        String otio = OtioWriter.write(put, false).replace("\"value\" : 1.00005E7", "\"value\" : 1.1000501E7");
        // the marker starts 1.000001 s later and keeps its length
        assertThat(only(OtioReader.read(otio, "x").notes()))
                .isEqualTo(
                        new PhaseSpan("rhexis", MediaTime.ofMicros(11_000_501), MediaTime.ofMicros(21_000_124), null));
        // one millisecond and one frame are enough
        String near = WebVtt.metadata(put).replace("00:00:10.000 --> ", "00:00:10.001 --> ");
        assertThat(only(WebVtt.read(near, "x")).start().micros()).isEqualTo(10_001_000);
        Annotated filmed = new Annotated(
                "D-1", "A1", Written.PHACO, put.tagging(), Set.of(), List.of(), Written.recording(), false);
        String frames = OtioWriter.write(filmed, true);
        assertThat(only(OtioReader.read(frames, "x").notes())).isEqualTo(span);
        assertThat(only(OtioReader.read(frames.replace("\"value\" : 250.0\n", "\"value\" : 251.0\n"), "x")
                                .notes())
                        .start()
                        .micros())
                .isNotEqualTo(10_000_500);
        String jsonld = AnnotationWriter.write(put, MADE).replace("t=10.0005,20.000123", "t=0:00:11,20.000123");
        assertThat(only(AnnotationReader.read(jsonld, "x", null).notes()))
                .isEqualTo(span.withStart(MediaTime.ofMicros(11_000_000)));
    }

    private static PhaseSpan only(List<Note> notes) {
        assertThat(notes).hasSize(1);
        return ((Detail.OfPhase) java.util.Objects.requireNonNull(notes.get(0).detail())).span();
    }

    /** Web Annotation Data Model, 4.2.7: the SVG alone must draw the same, within what doubles round. */
    @Test
    void drawingsComeBackFromTheirSvgAlone() {
        Random random = new Random(11);
        for (int i = 0; i < 300; i++) {
            List<DrawnMark> marks =
                    IntStream.range(0, 3).mapToObj(j -> Written.mark(random)).toList();
            List<DrawnMark> read = SvgShapes.read(SvgShapes.write(marks), "here", 0, 0);
            assertThat(read).hasSameSizeAs(marks);
            for (int j = 0; j < marks.size(); j++) {
                DrawnMark wanted = marks.get(j);
                DrawnMark got = read.get(j);
                assertThat(got.kind()).isEqualTo(wanted.kind());
                assertThat(got.colour()).isEqualTo(wanted.colour());
                assertThat(got.words()).isEqualTo(wanted.words());
                for (boolean x : new boolean[] {true, false}) {
                    double[] w = extent(wanted, x);
                    assertThat(extent(got, x)).containsExactly(w, org.assertj.core.data.Offset.offset(1e-12));
                }
            }
        }
    }

    /** Of an ellipse either pair of corners is the same ellipse. */
    private static double[] extent(DrawnMark mark, boolean x) {
        var all = mark.points().stream().mapToDouble(p -> x ? p.x() : p.y());
        return mark.kind() == DrawnMark.Kind.ELLIPSE ? all.sorted().toArray() : all.toArray();
    }
}
