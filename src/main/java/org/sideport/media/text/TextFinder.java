package org.sideport.media.text;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.PictureSweep;
import org.sideport.media.SmallPicture;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/**
 * Looks for writing in the picture of a recording: edges that stand still for some seconds while the scene moves, in lines
 * with many strokes. It misses writing that is faint, tiny, large, moving or shown for less than about eight seconds, and
 * takes eyelashes or patterned drapes for writing; a person has to look, whatever it finds.
 */
public final class TextFinder {

    private static final long STEP_US = 1_000_000;

    private static final int WIDTH = 960;

    /** Moments looked at together. */
    private static final int WINDOW = 8;

    private static final int HOP = 4;

    /** The fewest moments that still tell what stands still from what moves. */
    private static final int FEWEST = 4;

    /** Same place in the picture: shared part of two boxes. */
    private static final double SAME = 0.3;

    /** What is seen so many times in a row is as sure as it gets. */
    private static final double SURE = 3;

    /** Of a scene in which nothing moves. */
    private static final double STILL_SCENE = 0.4;

    private TextFinder() {}

    /**
     * @param files of one recording in order
     * @return in the order of time
     * @throws org.sideport.media.MediaException if a file is missing or cannot be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static List<TextArea> find(List<Path> files, Progress progress) {
        List<Geometry> shapes = files.stream().map(Geometry::of).toList();
        Collector collector = new Collector();
        PictureSweep.Swept swept = PictureSweep.sweep(files, STEP_US, WIDTH, collector, progress);
        collector.endSegment();
        List<TextArea> areas = new ArrayList<>();
        for (Sighting seen : collector.sightings) {
            areas.add(area(seen, shapes.get(seen.segment), collector, swept.durationUs()));
        }
        areas.sort(
                Comparator.comparing(TextArea::from).thenComparing(TextArea::y).thenComparing(TextArea::x));
        return List.copyOf(areas);
    }

    private static TextArea area(Sighting seen, Geometry shape, Collector collector, long durationUs) {
        // the outermost strokes are edges on one side only, and a changing digit may stand beside
        Box margin = seen.box.grown(Math.max(3, seen.box.height() / 3), collector.width, collector.height);
        Box box = shape.displayed(margin, collector.width, collector.height);
        long from = Math.min(durationUs, seen.first * STEP_US);
        long to = Math.min(durationUs, (seen.last + 1) * STEP_US);
        double confidence = (seen.lively ? 1 : STILL_SCENE) * Math.min(1, 0.4 + 0.6 * seen.times / SURE);
        return new TextArea(
                box.left(),
                box.top(),
                box.width(),
                box.height(),
                MediaTime.ofMicros(from),
                MediaTime.ofMicros(Math.max(from, to)),
                confidence);
    }

    /** One place in the picture, seen again and again. */
    private static final class Sighting {
        private final int segment;
        private final int first;
        private Box box;
        private int last;
        private int times = 1;
        private boolean lively;

        Sighting(int segment, int first, int last, Box box, boolean lively) {
            this.segment = segment;
            this.first = first;
            this.last = last;
            this.box = box;
            this.lively = lively;
        }
    }

    /** Keeps the last moments of the file at hand. */
    private static final class Collector implements PictureSweep.Visitor {

        private final Deque<byte[]> recent = new ArrayDeque<>();
        private final List<Sighting> sightings = new ArrayList<>();
        private int segment = -1;
        private int number = -1;
        private int fresh;
        private int width = 1;
        private int height = 1;
        private byte @Nullable [] luma;

        @Override
        public void moment(int moment, int ofSegment, @Nullable SmallPicture picture) {
            if (ofSegment != segment) {
                endSegment();
                recent.clear();
                segment = ofSegment;
            }
            number = moment;
            if (picture != null) {
                luma = picture.luma();
                width = picture.width();
                height = picture.height();
            }
            byte[] now = luma;
            if (now == null) {
                return;
            }
            recent.add(now);
            if (recent.size() > WINDOW) {
                recent.remove();
            }
            if (++fresh >= HOP && recent.size() == WINDOW) {
                look();
            }
        }

        void endSegment() {
            if (fresh > 0 && recent.size() >= FEWEST) {
                look();
            }
            fresh = 0;
        }

        private void look() {
            fresh = 0;
            StillEdges edges = StillEdges.of(List.copyOf(recent), width, height);
            int from = number - recent.size() + 1;
            for (Box box : TextShapes.in(edges)) {
                Sighting known = known(box, from);
                if (known == null) {
                    sightings.add(new Sighting(segment, from, number, box, edges.isLively()));
                } else {
                    known.box = known.box.with(box);
                    known.last = number;
                    known.times++;
                    known.lively |= edges.isLively();
                }
            }
        }

        private @Nullable Sighting known(Box box, int from) {
            for (Sighting seen : sightings) {
                // a picture or two may hide it for a while: up to two windows
                if (seen.segment == segment && seen.last + 2 * WINDOW >= from && seen.box.overlap(box) > SAME) {
                    return seen;
                }
            }
            return null;
        }
    }
}
