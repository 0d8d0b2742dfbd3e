package org.sideport.report.exchange;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.timing.Boundary;

/** Made-up tags and comments with everything that can be awkward in them, from a seed. */
final class Written {

    static final Procedure PHACO = ShippedRubrics.phacoProcedure();

    /** Microseconds that formats in milliseconds, frames or seconds get wrong most easily. */
    private static final long[] EDGES = {
        0,
        1,
        499,
        500,
        999,
        1000,
        1001,
        33_366,
        33_367,
        39_999,
        40_000,
        999_999,
        1_000_000,
        59_999_999,
        60_000_001,
        3_599_999_999L,
        3_600_000_000L,
        3_600_000_001L,
        9_007_199_254L
    };

    private static final String[] TEXTS = {
        "plain",
        "an arrow --> and <b>tags</b> & more",
        "two\nlines\n\nand an empty one",
        "{\"phase\": \"not ours\"}",
        "{ a brace",
        "WEBVTT",
        "NOTE this",
        "Ümläut, 手術, \uD83D\uDE00, \"quotes\" and \\ back",
        "1\n00:00:01,000 --> 00:00:02,000",
        "=1+1"
    };

    private Written() {}

    /** Two files of 1000.000001 s and 10 000 s. */
    static Recording recording() {
        return new Recording(List.of(segment("a", 1_000_000_001L), segment("b", 10_000_000_000L)));
    }

    private static Segment segment(String digit, long us) {
        return new Segment(
                Path.of("/x/" + digit + ".mp4"),
                digit.repeat(64),
                10,
                us,
                us / 40_000,
                0,
                25,
                1,
                false,
                "h264",
                640,
                480,
                "1:1",
                0,
                false,
                false,
                List.of());
    }

    static Annotated of(long seed, @Nullable Recording recording) {
        Random random = new Random(seed);
        List<PhaseSpan> spans = new ArrayList<>();
        List<Procedure.Term> terms =
                PHACO.terms().stream().filter(t -> !t.phase().idle()).toList();
        long at = EDGES[random.nextInt(6)];
        int n = random.nextInt(8);
        for (int i = 0; i < n; i++) {
            long end = at + 1 + (random.nextBoolean() ? random.nextInt(3) : random.nextInt(200_000_000));
            boolean open = i == n - 1 && random.nextInt(3) == 0;
            Operator operator = random.nextBoolean() ? null : Operator.values()[random.nextInt(3)];
            spans.add(new PhaseSpan(
                    terms.get(random.nextInt(terms.size())).id(),
                    MediaTime.ofMicros(at),
                    open ? null : MediaTime.ofMicros(end),
                    operator));
            at = end + (random.nextBoolean() ? 0 : random.nextInt(5000));
        }
        List<PointEvent> events = new ArrayList<>();
        for (int i = random.nextInt(4); i > 0; i--) {
            events.add(new PointEvent(
                    PHACO.events().get(random.nextInt(PHACO.events().size())).id(),
                    time(random),
                    random.nextBoolean() ? null : Severity.values()[random.nextInt(3)],
                    random.nextBoolean() ? "" : TEXTS[random.nextInt(TEXTS.length)]));
        }
        TaggingStyle style = random.nextBoolean() ? TaggingStyle.STARTS_ONLY : TaggingStyle.START_AND_END;
        Tagging tagging = new Tagging(style, spans, events);
        Set<Boundary> confirmed = new HashSet<>();
        Boundary.of(tagging).stream().filter(b -> random.nextBoolean()).forEach(confirmed::add);
        List<CommentThread> threads = new ArrayList<>();
        for (int i = random.nextInt(5); i > 0; i--) {
            threads.add(thread(random, "c-" + seed + "-" + i));
        }
        return new Annotated("D-1", "A1", PHACO, tagging, confirmed, threads, recording, false);
    }

    private static MediaTime time(Random random) {
        return MediaTime.ofMicros(EDGES[random.nextInt(EDGES.length)]);
    }

    private static CommentThread thread(Random random, String id) {
        MediaTime from = time(random);
        MediaTime to = random.nextBoolean() ? null : MediaTime.ofMicros(from.micros() + 1 + random.nextInt(5_000_000));
        List<DrawnMark> drawing = new ArrayList<>();
        for (int i = random.nextInt(3); i > 0; i--) {
            drawing.add(mark(random));
        }
        String text = drawing.isEmpty() || random.nextBoolean() ? TEXTS[random.nextInt(TEXTS.length)] : "";
        Comment comment = new Comment(
                id,
                "A" + random.nextInt(3),
                CommentTone.values()[random.nextInt(3)],
                text,
                random.nextBoolean() ? null : new ItemLink("phaco-competency", "rhexis"),
                from,
                to,
                drawing);
        List<CommentReply> replies = random.nextBoolean()
                ? List.of()
                : List.of(new CommentReply(id + "-r", id, "T03", TEXTS[random.nextInt(TEXTS.length)]));
        return new CommentThread(comment, replies, false);
    }

    static DrawnMark mark(Random random) {
        DrawnMark.Kind kind = DrawnMark.Kind.values()[random.nextInt(5)];
        MarkColour colour = MarkColour.values()[random.nextInt(5)];
        int n =
                switch (kind) {
                    case WORDS -> 1;
                    case FREEHAND -> 2 + random.nextInt(30);
                    default -> 2;
                };
        List<PicturePoint> points = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            points.add(new PicturePoint(random.nextDouble(), random.nextDouble()));
        }
        return kind == DrawnMark.Kind.WORDS
                ? DrawnMark.words(colour, points.get(0), "here & <there>")
                : DrawnMark.of(kind, colour, points);
    }
}
