package org.sideport.chart;

import java.util.List;

/** One thing drawn in a chart; the first layer lies lowest. */
public sealed interface Layer {

    /** As it stands in the legend and in the data. */
    String name();

    Ink ink();

    /** A place with a name, which is given in the data; the name may be empty. */
    record At(double x, double y, String label) {
        public At(double x, double y) {
            this(x, y, "");
        }
    }

    /** A stretch at one place. */
    record Range(double x, double low, double high) {
        public Range {
            if (!(low <= high)) {
                throw new IllegalArgumentException("a range from " + low + " to " + high);
            }
        }
    }

    /**
     * Single marks.
     *
     * @param named true to write each mark's label beside it
     */
    record Points(String name, Ink ink, Mark mark, List<At> at, boolean named) implements Layer {
        public Points {
            at = List.copyOf(at);
        }

        /** Without names in the drawing; the data have them all the same. */
        public Points(String name, Ink ink, Mark mark, List<At> at) {
            this(name, ink, mark, at, false);
        }
    }

    /** A stretch at one place, with a name, which is given in the data. */
    record Stretch(double x, double low, double high, String label) {
        public Stretch {
            if (!(low <= high)) {
                throw new IllegalArgumentException("a stretch from " + low + " to " + high);
            }
        }
    }

    /** Single stretches with a bar at either end: limits of an estimate, a middle half. */
    record Whiskers(String name, Ink ink, List<Stretch> at) implements Layer {
        public Whiskers {
            at = List.copyOf(at);
        }
    }

    /** A line from place to place: a fitted curve, the limits of a funnel. */
    record Curve(String name, Ink ink, List<At> at) implements Layer {
        public Curve {
            at = List.copyOf(at);
        }
    }

    /** A filled strip between two lines. */
    record Band(String name, Ink ink, List<Range> ranges) implements Layer {
        public Band {
            ranges = List.copyOf(ranges);
        }
    }

    /**
     * A box at each place from its low to its high end: what is usual of each of several things beside one another.
     *
     * @param width in the unit of the x axis
     */
    record Boxes(String name, Ink ink, double width, List<Range> ranges) implements Layer {
        public Boxes {
            ranges = List.copyOf(ranges);
        }
    }

    /** A line that keeps its height until the next place: what is added up case by case. */
    record Steps(String name, Ink ink, List<At> at) implements Layer {
        public Steps {
            at = List.copyOf(at);
        }
    }

    /**
     * Bars that stand on 0, or on the lower edge where that lies above 0.
     *
     * @param width in the unit of the x axis
     */
    record Bars(String name, Ink ink, double width, List<At> at) implements Layer {
        public Bars {
            at = List.copyOf(at);
        }
    }

    /** A straight line across the whole chart at one height: a limit, a reference. */
    record Level(String name, Ink ink, double y) implements Layer {}
}
