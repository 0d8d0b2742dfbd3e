package org.sideport.app.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import javafx.scene.paint.Color;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.MinMaxPyramid;
import org.sideport.app.timeline.Stretch;
import org.sideport.app.timeline.TimelineModel;
import org.sideport.app.timeline.Tint;

/** An hour-long made-up recording with far more on its timeline than any operation has. */
public final class CrowdedTimeline {

    private static final long HOUR_US = 3_600_000_000L;
    private static final int FRAMES = 90_000;
    private static final int TINTS = 7;
    private static final List<Lane.Mark> MARKS = List.of(Lane.Mark.values());

    private CrowdedTimeline() {}

    /** Spans on two lanes, half of them each, points on one, and curves of five values a second. */
    public static TimelineModel model(int spans, int points, int curves) {
        Random random = new Random(20_261_125);
        List<Lane> lanes = new ArrayList<>();
        lanes.add(new Lane.Spans("phases", "Phases", true, true, spans(random, spans / 2, "P")));
        lanes.add(new Lane.Spans("steps", "Steps", true, false, spans(random, spans - spans / 2, "S")));
        List<Lane.Point> marks = new ArrayList<>();
        for (int i = 0; i < points; i++) {
            marks.add(new Lane.Point(
                    "point " + i,
                    (long) (random.nextDouble() * HOUR_US),
                    MARKS.get(i % MARKS.size()),
                    "Event " + i,
                    ""));
        }
        lanes.add(new Lane.Points("events", "Events", true, marks));
        for (int i = 0; i < curves; i++) {
            lanes.add(curve(random, i));
        }
        List<Stretch> doubts = List.of(new Stretch(HOUR_US / 3, HOUR_US / 3 + 20_000_000));
        return new TimelineModel(
                HOUR_US, lanes, List.of(HOUR_US / 4, HOUR_US / 2), List.of(), doubts, List.of(), List.of());
    }

    private static List<Lane.Span> spans(Random random, int count, String prefix) {
        List<Lane.Span> all = new ArrayList<>();
        double each = (double) HOUR_US / Math.max(1, count);
        for (int i = 0; i < count; i++) {
            long start = (long) (i * each);
            long end = (long) (start + each * (random.nextInt(4) == 0 ? 0.5 : 1));
            // no colour of the program is needed here: hues at even steps
            Color fill = Color.hsb(360.0 * (i % TINTS) / TINTS, 0.6, 0.8);
            String name = prefix + i % 40;
            all.add(new Lane.Span(
                    prefix + " " + i,
                    start,
                    end,
                    false,
                    i % 50 == 0,
                    name,
                    "Phase " + name,
                    new Tint(fill, Color.BLACK),
                    ""));
        }
        return all;
    }

    private static Lane.Curve curve(Random random, int number) {
        float[] values = new float[5 * 3600];
        double level = 0.5;
        for (int i = 0; i < values.length; i++) {
            level += (random.nextDouble() - 0.5) * 0.05 + (0.5 - level) * 0.01;
            values[i] = (float) Math.max(0, Math.min(1, level + (random.nextDouble() - 0.5) * 0.2));
        }
        return new Lane.Curve("curve " + number, "Trace " + (number + 1), 0, 200_000, new MinMaxPyramid(values), 0, 1);
    }

    /** Frames at 25 a second. */
    public static FrameGrid frames() {
        long[] starts = new long[FRAMES];
        for (int i = 0; i < FRAMES; i++) {
            starts[i] = i * 40_000L;
        }
        return new FrameGrid(starts);
    }
}
