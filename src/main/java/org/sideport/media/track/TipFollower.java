package org.sideport.media.track;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.track.TipTrack.Reason;
import org.sideport.stats.geometry.Point;

/**
 * Follows one tip from picture to picture by patches around it. Each patch goes there and back ({@link
 * OpticalFlow#backwardError}); patches that move as one say where the tip may be, and so does a search for its looks. The
 * place is taken at which it looks most like a frame before and like the tip that was pointed at: what lies behind the tip
 * moves as one too, but does not look like it.
 */
final class TipFollower {

    static final int LEVELS = 4;

    /** How far from the tip patches are taken, pixels. */
    private static final double REACH = 16;

    private static final double STEP = 4;
    private static final int FEATURES = 24;

    /** Farthest that the way there and back may miss its start, pixels. */
    private static final double BACKWARD = 0.7;

    /** Within this two patches move as one, pixels a frame, and beyond it this share of the movement. */
    private static final double AS_ONE = 0.6;

    private static final double AS_ONE_SHARE = 0.12;
    /** A group of patches that carries less than this share of the weight is not asked. */
    private static final double LEAST_SUPPORT = 0.1;

    private static final int GROUPS = 3;

    /** Least likeness to the frame before and to the tip as it was pointed at, correlations. */
    private static final double LEAST_LIKENESS = 0.6;

    private static final double LEAST_LIKENESS_TO_ANCHOR = 0.4;

    /** Below this likeness to the anchor the tip, still well seen, becomes the new one: a tool turns, forceps open. */
    private static final double NEW_ANCHOR = 0.75;

    private static final double SURE = 0.9;
    private static final double DRAW_BACK = 0.8;
    private static final int LOOK_RADIUS = 8;

    /** How far from where it is expected the tip is looked for, pixels. */
    private static final int RANGE = 20;

    /** How far looking backwards may miss the tip, pixels. */
    private static final double BACKWARD_LOOK = 2;

    /** What was found by flow is finer than what was found by looking; this much better looking must be. */
    private static final double FLOW_FIRST = 0.02;

    private static final double MOST_AGE = 25;

    /** Change of brightness or contrast around the tip that is taken out before the flow, as with a light filter. */
    private static final double LIGHT_STEP = 5;

    private static final double LIGHT_RATIO = 0.12;
    private static final int LIGHT_RADIUS = 40;

    private record Patch(double x, double y, int age) {}

    /** @param quality likeness to the frame before, 0 to 1 */
    record Step(Point tip, double quality) {}

    /** Where the tip may be, with the patches that say so; none where it was found by its looks. */
    private record Candidate(Point tip, List<Patch> patches, double toLast, double toAnchor) {
        double score() {
            return (toLast + toAnchor) / 2 + (patches.isEmpty() ? 0 : FLOW_FIRST);
        }
    }

    private OpticalFlow last;
    private Point tip;
    private Point velocity = new Point(0, 0);
    private double[] anchor;
    private List<Patch> patches = new ArrayList<>();
    private @Nullable Reason lost;

    TipFollower(GrayPicture picture, Point tip) {
        last = OpticalFlow.of(picture, LEVELS);
        this.tip = tip;
        anchor = OpticalFlow.patch(picture, tip.x(), tip.y(), LOOK_RADIUS);
        refill();
        if (patches.isEmpty()) {
            lost = Reason.NO_STRUCTURE;
        }
    }

    @Nullable
    Reason lost() {
        return lost;
    }

    /** @return {@code null} if the tip is lost in this picture, and from then on */
    @Nullable
    Step next(GrayPicture picture) {
        if (lost != null) {
            return null;
        }
        OpticalFlow now = OpticalFlow.of(sameLight(picture), LEVELS);
        double[] look = OpticalFlow.patch(last.picture(), tip.x(), tip.y(), LOOK_RADIUS);
        List<Candidate> candidates = byFlow(now, look);
        Point expected = new Point(tip.x() + velocity.x(), tip.y() + velocity.y());
        for (double[] template : List.of(look, anchor)) {
            for (Point around : List.of(expected, tip)) {
                Point found = TemplateSearch.best(now.picture(), template, LOOK_RADIUS, around, RANGE);
                if (found != null) {
                    candidates.add(candidate(now, look, found, List.of()));
                }
            }
        }
        candidates.sort((a, b) -> Double.compare(b.score(), a.score()));
        for (Candidate candidate : candidates) {
            if (candidate.toLast() < LEAST_LIKENESS || candidate.toAnchor() < LEAST_LIKENESS_TO_ANCHOR) {
                continue;
            }
            if (!now.picture().holds(candidate.tip().x(), candidate.tip().y(), 2)) {
                lost = Reason.LEFT_PICTURE;
                return null;
            }
            if (looksBack(now, candidate.tip())) {
                return accept(now, candidate);
            }
        }
        lost = candidates.isEmpty() || candidates.get(0).toLast() >= LEAST_LIKENESS
                ? Reason.NO_AGREEMENT
                : Reason.CHANGED;
        return null;
    }

    private Step accept(OpticalFlow now, Candidate candidate) {
        velocity = new Point(candidate.tip().x() - tip.x(), candidate.tip().y() - tip.y());
        tip = drawnBack(now, candidate.tip());
        last = now;
        patches = new ArrayList<>(candidate.patches());
        if (candidate.toAnchor() < NEW_ANCHOR && candidate.toLast() >= SURE) {
            anchor = OpticalFlow.patch(now.picture(), tip.x(), tip.y(), LOOK_RADIUS);
        }
        refill();
        return new Step(tip, Math.max(0, Math.min(1, candidate.toLast())));
    }

    /** Small errors add up; where the tip still looks as when it was pointed at, it is put where it belongs. */
    private Point drawnBack(OpticalFlow now, Point place) {
        Point found = TemplateSearch.best(now.picture(), anchor, LOOK_RADIUS, place, 3);
        if (found == null) {
            return place;
        }
        double there = likeToAnchor(now, found);
        return there >= DRAW_BACK && there > likeToAnchor(now, place) ? found : place;
    }

    private double likeToAnchor(OpticalFlow now, Point place) {
        return OpticalFlow.correlation(anchor, OpticalFlow.patch(now.picture(), place.x(), place.y(), LOOK_RADIUS));
    }

    /** Forwards and backwards must agree for the looks as they must for the flow. */
    private boolean looksBack(OpticalFlow now, Point found) {
        double[] look = OpticalFlow.patch(now.picture(), found.x(), found.y(), LOOK_RADIUS);
        Point back = TemplateSearch.best(last.picture(), look, LOOK_RADIUS, tip, RANGE);
        return back != null && back.distance(tip) <= BACKWARD_LOOK;
    }

    private Candidate candidate(OpticalFlow now, double[] look, Point place, List<Patch> carriers) {
        double[] there = OpticalFlow.patch(now.picture(), place.x(), place.y(), LOOK_RADIUS);
        return new Candidate(
                place, carriers, OpticalFlow.correlation(look, there), OpticalFlow.correlation(anchor, there));
    }

    /** Where the groups of patches that move as one would carry the tip, heaviest first. */
    private List<Candidate> byFlow(OpticalFlow now, double[] look) {
        List<Patch> before = new ArrayList<>();
        List<Point> moves = new ArrayList<>();
        double all = 0;
        for (Patch patch : patches) {
            all += weight(patch);
            Point there = last.follow(now, patch.x(), patch.y(), velocity.x(), velocity.y());
            if (there != null && last.backwardError(now, patch.x(), patch.y(), there) <= BACKWARD) {
                before.add(patch);
                moves.add(new Point(there.x() - patch.x(), there.y() - patch.y()));
            }
        }
        List<Candidate> candidates = new ArrayList<>();
        for (int group = 0; group < GROUPS; group++) {
            int leader = -1;
            double most = LEAST_SUPPORT * all;
            for (int i = 0; i < moves.size(); i++) {
                double support = support(before, moves, i);
                if (support > most) {
                    most = support;
                    leader = i;
                }
            }
            if (leader < 0) {
                break;
            }
            candidates.add(carried(now, look, before, moves, moves.get(leader)));
        }
        return candidates;
    }

    /** Takes the group out of the lists. */
    private Candidate carried(OpticalFlow now, double[] look, List<Patch> before, List<Point> moves, Point leader) {
        List<Patch> kept = new ArrayList<>();
        double sum = 0;
        double dx = 0;
        double dy = 0;
        for (int i = moves.size() - 1; i >= 0; i--) {
            Point move = moves.get(i);
            if (asOne(move, leader)) {
                Patch patch = before.remove(i);
                moves.remove(i);
                double weight = weight(patch);
                sum += weight;
                dx += weight * move.x();
                dy += weight * move.y();
                kept.add(new Patch(patch.x() + move.x(), patch.y() + move.y(), patch.age() + 1));
            }
        }
        return candidate(now, look, new Point(tip.x() + dx / sum, tip.y() + dy / sum), kept);
    }

    private double weight(Patch patch) {
        double distance = Math.hypot(patch.x() - tip.x(), patch.y() - tip.y()) / REACH;
        return Math.exp(-2 * distance * distance) * (1 + Math.min(MOST_AGE, patch.age()) / 5);
    }

    private double support(List<Patch> before, List<Point> moves, int leader) {
        double sum = 0;
        for (int i = 0; i < moves.size(); i++) {
            sum += asOne(moves.get(i), moves.get(leader)) ? weight(before.get(i)) : 0;
        }
        return sum;
    }

    private static boolean asOne(Point a, Point b) {
        double allowed = AS_ONE + AS_ONE_SHARE * Math.hypot(b.x(), b.y());
        return a.distance(b) <= allowed;
    }

    /** New patches on a grid around the tip, where there is structure and none yet. */
    private void refill() {
        List<Patch> full = new ArrayList<>(patches);
        full.removeIf(p -> Math.hypot(p.x() - tip.x(), p.y() - tip.y()) > 2 * REACH);
        for (double ring = 0; ring <= REACH && full.size() < FEATURES; ring += STEP) {
            int around = ring == 0 ? 1 : (int) Math.round(2 * Math.PI * ring / (1.5 * STEP));
            for (int k = 0; k < around && full.size() < FEATURES; k++) {
                double x = tip.x() + ring * Math.cos(2 * Math.PI * k / around);
                double y = tip.y() + ring * Math.sin(2 * Math.PI * k / around);
                boolean free = full.stream().noneMatch(p -> Math.hypot(p.x() - x, p.y() - y) < STEP - 1);
                if (free && last.picture().holds(x, y, 3) && last.follow(last, x, y) != null) {
                    full.add(new Patch(x, y, 0));
                }
            }
        }
        patches = full;
    }

    /** The flow takes brightness for constant; a filter swung into the light is taken out around the tip. */
    private GrayPicture sameLight(GrayPicture picture) {
        double[] was = OpticalFlow.patch(last.picture(), tip.x(), tip.y(), LIGHT_RADIUS);
        double[] is = OpticalFlow.patch(picture, tip.x(), tip.y(), LIGHT_RADIUS);
        double[] a = meanAndSpread(was);
        double[] b = meanAndSpread(is);
        if (!(a[1] > 1 && b[1] > 1)) {
            return picture;
        }
        double gain = a[1] / b[1];
        if (Math.abs(a[0] - b[0]) < LIGHT_STEP && Math.abs(gain - 1) < LIGHT_RATIO) {
            return picture;
        }
        float[] values = new float[picture.values().length];
        for (int i = 0; i < values.length; i++) {
            values[i] = (float) ((picture.values()[i] - b[0]) * gain + a[0]);
        }
        return new GrayPicture(picture.width(), picture.height(), values);
    }

    private static double[] meanAndSpread(double[] values) {
        double mean = 0;
        for (double v : values) {
            mean += v;
        }
        mean /= values.length;
        double squares = 0;
        for (double v : values) {
            squares += (v - mean) * (v - mean);
        }
        return new double[] {mean, Math.sqrt(squares / values.length)};
    }
}
