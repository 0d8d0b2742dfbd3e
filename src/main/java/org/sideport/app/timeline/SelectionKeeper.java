package org.sideport.app.timeline;

import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Keeps items selected across an edit that gives them other keys: a moved block is still the same block to the user. */
final class SelectionKeeper {

    private SelectionKeeper() {}

    /** What is selected now: what is still there, and for what has gone the most similar item that has come. */
    static Set<Object> carry(TimelineIndex before, TimelineIndex after, Set<Object> selected) {
        Set<Object> known = keys(before);
        Set<Object> there = keys(after);
        Set<Object> result = new LinkedHashSet<>();
        for (Object key : selected) {
            if (there.contains(key)) {
                result.add(key);
                continue;
            }
            Object heir = heir(before, after, key, known);
            if (heir != null) {
                result.add(heir);
            }
        }
        return result;
    }

    private static Set<Object> keys(TimelineIndex index) {
        Set<Object> keys = new HashSet<>();
        for (Lane lane : index.model().lanes()) {
            if (lane instanceof Lane.Spans spans) {
                spans.spans().forEach(span -> keys.add(span.key()));
            } else if (lane instanceof Lane.Points points) {
                points.points().forEach(point -> keys.add(point.key()));
            }
        }
        return keys;
    }

    private static @Nullable Object heir(TimelineIndex before, TimelineIndex after, Object key, Set<Object> known) {
        for (int lane = 0; lane < before.layout().size(); lane++) {
            int now = after.laneOf(before.lane(lane).id());
            if (now < 0) {
                continue;
            }
            if (before.lane(lane) instanceof Lane.Spans old && after.lane(now) instanceof Lane.Spans fresh) {
                for (Lane.Span span : old.spans()) {
                    if (span.key().equals(key)) {
                        return spanLike(span, fresh, known);
                    }
                }
            }
            if (before.lane(lane) instanceof Lane.Points old && after.lane(now) instanceof Lane.Points fresh) {
                for (Lane.Point point : old.points()) {
                    if (point.key().equals(key)) {
                        return pointLike(point, fresh, known);
                    }
                }
            }
        }
        return null;
    }

    private static @Nullable Object spanLike(Lane.Span old, Lane.Spans fresh, Set<Object> known) {
        Object best = null;
        long bestFar = Long.MAX_VALUE;
        for (Lane.Span span : fresh.spans()) {
            long far = Math.abs(span.startUs() - old.startUs()) + Math.abs(span.endUs() - old.endUs());
            if (!known.contains(span.key()) && (far == 0 || span.name().equals(old.name())) && far < bestFar) {
                best = span.key();
                bestFar = far;
            }
        }
        return best;
    }

    private static @Nullable Object pointLike(Lane.Point old, Lane.Points fresh, Set<Object> known) {
        Object best = null;
        long bestFar = Long.MAX_VALUE;
        for (Lane.Point point : fresh.points()) {
            long far = Math.abs(point.atUs() - old.atUs());
            if (!known.contains(point.key()) && (far == 0 || point.name().equals(old.name())) && far < bestFar) {
                best = point.key();
                bestFar = far;
            }
        }
        return best;
    }
}
