package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A model made ready for drawing and pointing: each lane's items in order. Made once for a model; immutable. */
final class TimelineIndex {

    static final TimelineIndex EMPTY = new TimelineIndex(TimelineModel.EMPTY, 22);

    private final TimelineModel model;
    private final LaneLayout layout;
    private final @Nullable SpanIndex[] spans;
    private final @Nullable PointIndex[] points;
    private final int[][] bandRows;

    TimelineIndex(TimelineModel model, double rowHeight) {
        this.model = model;
        int size = model.lanes().size();
        spans = new SpanIndex[size];
        points = new PointIndex[size];
        bandRows = new int[size][];
        int[] rows = new int[size];
        for (int i = 0; i < size; i++) {
            Lane lane = model.lanes().get(i);
            if (lane instanceof Lane.Spans of) {
                SpanIndex index = new SpanIndex(of.spans());
                spans[i] = index;
                rows[i] = index.rowCount();
            } else if (lane instanceof Lane.Points of) {
                points[i] = new PointIndex(of.points());
            } else if (lane instanceof Lane.Band of) {
                bandRows[i] = bandRows(of);
                rows[i] = 1 + Arrays.stream(bandRows[i]).max().orElse(0);
            }
        }
        layout = new LaneLayout(model.lanes(), rows, rowHeight);
    }

    /** Neighbours that overlap in two rows; more than two at once share the second. */
    private static int[] bandRows(Lane.Band band) {
        int[] rows = new int[band.parts().size()];
        long end = -1;
        for (int i = 0; i < rows.length; i++) {
            Lane.BandPart part = band.parts().get(i);
            rows[i] = part.lowUs() < end ? 1 : 0;
            end = rows[i] == 0 ? part.highUs() : end;
        }
        return rows;
    }

    /** The row of each part of a lane that is a band. */
    int[] bandRows(int lane) {
        return bandRows[lane];
    }

    TimelineModel model() {
        return model;
    }

    LaneLayout layout() {
        return layout;
    }

    Lane lane(int lane) {
        return model.lanes().get(lane);
    }

    /** The lane of this id, or -1. */
    int laneOf(String id) {
        for (int i = 0; i < model.lanes().size(); i++) {
            if (lane(i).id().equals(id)) {
                return i;
            }
        }
        return -1;
    }

    @Nullable
    SpanIndex spans(int lane) {
        return spans[lane];
    }

    @Nullable
    PointIndex points(int lane) {
        return points[lane];
    }

    boolean isEditable(int lane) {
        Lane of = lane(lane);
        return (of instanceof Lane.Spans s && s.editable()) || (of instanceof Lane.Points p && p.editable());
    }

    /** Boundaries of all lanes of spans but for {@code from}, which may be shared by several lanes. */
    List<Long> boundariesBut(long from) {
        List<Long> all = new ArrayList<>();
        for (SpanIndex index : spans) {
            if (index != null) {
                all.addAll(index.boundaries());
            }
        }
        all.removeIf(each -> each == from);
        return all;
    }

    /** Keys of what lies, wholly or in part, in a stretch on the lanes from {@code first} to {@code last}. */
    Set<Object> keysIn(Stretch stretch, int first, int last) {
        Set<Object> keys = new LinkedHashSet<>();
        for (int lane = Math.max(0, first); lane <= Math.min(last, layout.size() - 1); lane++) {
            SpanIndex s = spans[lane];
            for (int i = s == null ? 0 : s.firstReaching(stretch.startUs()); s != null && i < s.size(); i++) {
                Lane.Span span = s.span(i);
                if (span.startUs() >= stretch.endUs()) {
                    break;
                }
                if (span.endUs() > stretch.startUs()) {
                    keys.add(span.key());
                }
            }
            PointIndex p = points[lane];
            for (int i = p == null ? 0 : p.firstFrom(stretch.startUs()); p != null && i < p.size(); i++) {
                if (p.point(i).atUs() >= stretch.endUs()) {
                    break;
                }
                keys.add(p.point(i).key());
            }
        }
        return keys;
    }

    /** Spans with these keys in the order of time, from all lanes. */
    List<Lane.Span> spansOf(Set<Object> keys) {
        List<Lane.Span> found = new ArrayList<>();
        Set<Object> seen = new HashSet<>();
        for (SpanIndex index : spans) {
            for (int i = 0; index != null && i < index.size(); i++) {
                if (keys.contains(index.span(i).key()) && seen.add(index.span(i).key())) {
                    found.add(index.span(i));
                }
            }
        }
        return found;
    }

    /** Points with these keys, from all lanes. */
    List<Lane.Point> pointsOf(Set<Object> keys) {
        List<Lane.Point> found = new ArrayList<>();
        for (PointIndex index : points) {
            for (int i = 0; index != null && i < index.size(); i++) {
                if (keys.contains(index.point(i).key())) {
                    found.add(index.point(i));
                }
            }
        }
        return found;
    }

    /** True if an item with this key lies on a lane that may be edited. */
    boolean isEditableKey(Object key) {
        for (int lane = 0; lane < layout.size(); lane++) {
            if (!isEditable(lane)) {
                continue;
            }
            SpanIndex s = spans[lane];
            for (int i = 0; s != null && i < s.size(); i++) {
                if (s.span(i).key().equals(key)) {
                    return true;
                }
            }
            PointIndex p = points[lane];
            for (int i = 0; p != null && i < p.size(); i++) {
                if (p.point(i).key().equals(key)) {
                    return true;
                }
            }
        }
        return false;
    }
}
