package org.sideport.media.track;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.track.TipTrack.Reason;
import org.sideport.stats.geometry.Point;

/**
 * Follows one tip from picture to picture by patches around it. Each patch goes there and back ({@link
 * OpticalFlow#backwardError}); those that move as one with the most weight carry the tip, others, such as what lies behind
 * it, are dropped. Weight falls with the distance from the tip and grows with the number of pictures a patch has stayed.
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
    private static final double LEAST_SUPPORT = 0.25;
    private static final double LEAST_LIKENESS = 0.5;
    private static final int LIKENESS_RADIUS = 7;
    private static final double MOST_AGE = 25;

    /** The first look draws the tip back where the two look alike enough and differ by no more than this, pixels. */
    private static final double DRAW_BACK = 1.5;

    private static final double DRAW_BACK_LIKENESS = 0.9;

    /** Change of brightness or contrast around the tip that is taken out before the flow, as with a light filter. */
    private static final double LIGHT_STEP = 5;

    private static final double LIGHT_RATIO = 0.12;
    private static final int LIGHT_RADIUS = 40;

    private record Patch(double x, double y, int age) {}

    /** @param quality share of the weight that agrees */
    record Step(Point tip, double quality) {}

    private final OpticalFlow first;
    private final Point firstTip;
    private OpticalFlow last;
    private Point tip;
    private List<Patch> patches = new ArrayList<>();
    private @Nullable Reason lost;

    TipFollower(GrayPicture picture, Point tip) {
        first = OpticalFlow.of(picture, LEVELS);
        last = first;
        firstTip = tip;
        this.tip = tip;
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
        List<Patch> before = new ArrayList<>();
        List<Point> moves = new ArrayList<>();
        double all = 0;
        for (Patch patch : patches) {
            all += weight(patch);
            Point there = last.follow(now, patch.x(), patch.y());
            if (there != null && last.backwardError(now, patch.x(), patch.y(), there) <= BACKWARD) {
                before.add(patch);
                moves.add(new Point(there.x() - patch.x(), there.y() - patch.y()));
            }
        }
        int leader = -1;
        double most = 0;
        for (int i = 0; i < moves.size(); i++) {
            double support = support(before, moves, i);
            if (support > most) {
                most = support;
                leader = i;
            }
        }
        if (leader < 0 || most < LEAST_SUPPORT * all) {
            lost = Reason.NO_AGREEMENT;
            return null;
        }
        List<Patch> kept = new ArrayList<>();
        double sum = 0;
        double dx = 0;
        double dy = 0;
        for (int i = 0; i < moves.size(); i++) {
            if (asOne(moves.get(i), moves.get(leader))) {
                double weight = weight(before.get(i));
                sum += weight;
                dx += weight * moves.get(i).x();
                dy += weight * moves.get(i).y();
                Patch patch = before.get(i);
                kept.add(new Patch(
                        patch.x() + moves.get(i).x(), patch.y() + moves.get(i).y(), patch.age() + 1));
            }
        }
        Point moved = new Point(tip.x() + dx / sum, tip.y() + dy / sum);
        if (!now.picture().holds(moved.x(), moved.y(), 2)) {
            lost = Reason.LEFT_PICTURE;
            return null;
        }
        double likeness = OpticalFlow.correlation(
                OpticalFlow.patch(last.picture(), tip.x(), tip.y(), LIKENESS_RADIUS),
                OpticalFlow.patch(now.picture(), moved.x(), moved.y(), LIKENESS_RADIUS));
        if (likeness < LEAST_LIKENESS) {
            lost = Reason.CHANGED;
            return null;
        }
        tip = drawnBack(now, moved);
        last = now;
        patches = kept;
        refill();
        return new Step(tip, Math.min(1, most / all));
    }

    /** Small errors add up; where the tip still looks as when it was pointed at, it is put where it belongs. */
    private Point drawnBack(OpticalFlow now, Point moved) {
        Point direct = first.follow(
                now, firstTip.x(), firstTip.y(), moved.x() - firstTip.x(), moved.y() - firstTip.y());
        if (direct == null || direct.distance(moved) > DRAW_BACK) {
            return moved;
        }
        double likeness = OpticalFlow.correlation(
                OpticalFlow.patch(first.picture(), firstTip.x(), firstTip.y(), OpticalFlow.RADIUS),
                OpticalFlow.patch(now.picture(), direct.x(), direct.y(), OpticalFlow.RADIUS));
        return likeness >= DRAW_BACK_LIKENESS ? direct : moved;
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
