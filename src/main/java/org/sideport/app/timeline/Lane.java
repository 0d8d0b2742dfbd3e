package org.sideport.app.timeline;

import java.util.List;

/** One row of the timeline. Ids are unique in a model; names stand at the left edge and are read aloud. */
public sealed interface Lane {

    String id();

    String name();

    /**
     * Stretches such as phases, steps or another annotator's phases. Those that overlap are stacked.
     *
     * @param editable whether they may be dragged, split, merged, called otherwise and deleted
     * @param idleHatched whether the time between them is idle and hatched
     */
    record Spans(String id, String name, boolean editable, boolean idleHatched, List<Span> spans) implements Lane {
        public Spans {
            spans = List.copyOf(spans);
        }
    }

    /** Moments such as events, findings or comments. */
    record Points(String id, String name, boolean editable, List<Point> points) implements Lane {
        public Points {
            points = List.copyOf(points);
        }
    }

    /**
     * A measured curve: value {@code i} is of the time {@code startUs + i * stepUs}.
     *
     * @param low value at the lower edge of the lane
     * @param high value at its upper edge, above {@code low}
     */
    record Curve(String id, String name, long startUs, long stepUs, MinMaxPyramid values, double low, double high)
            implements Lane {
        public Curve {
            if (stepUs <= 0 || !(high > low)) {
                throw new IllegalArgumentException("a curve needs a step and a range: " + id);
            }
        }
    }

    /** Small pictures of the recording, asked for as they come into view. */
    record Pictures(String id, String name, PictureProvider provider) implements Lane {}

    /** What is usual: until when each phase would have run, had it taken as long as in what it is compared with. */
    record Band(String id, String name, List<BandPart> parts) implements Lane {
        public Band {
            parts = List.copyOf(parts);
        }
    }

    /**
     * @param key what the application knows it by, compared with {@code equals}
     * @param open it runs on: its end is only where it is drawn to
     * @param doubtful its limits are unsure: drawn dashed
     * @param shortName written on the block where there is room
     * @param name in full, where there is more room, and in the tooltip
     * @param note further words for the tooltip; may be empty
     */
    record Span(
            Object key,
            long startUs,
            long endUs,
            boolean open,
            boolean doubtful,
            String shortName,
            String name,
            Tint tint,
            String note) {
        public Span {
            if (startUs < 0 || endUs < startUs) {
                throw new IllegalArgumentException("not a span: " + startUs + " to " + endUs);
            }
        }
    }

    /** How a point is drawn; the shape tells them apart, not a colour. */
    enum Mark {
        /** a diamond */
        COMPLICATION,
        /** a flag */
        MOMENT,
        /** a speech bubble */
        COMMENT
    }

    record Point(Object key, long atUs, Mark mark, String name, String note) {}

    /**
     * @param fromUs from where it is counted; a thin line leads from there
     * @param lowUs from here
     * @param middleUs the middle one
     * @param highUs up to here
     * @param note further words for the tooltip; may be empty
     */
    record BandPart(
            long fromUs,
            long lowUs,
            long middleUs,
            long highUs,
            String shortName,
            String name,
            Tint tint,
            String note) {
        public BandPart {
            if (fromUs > lowUs || lowUs > middleUs || middleUs > highUs) {
                throw new IllegalArgumentException("a band goes from low to high: " + name);
            }
        }
    }
}
