package org.sideport.workflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.MeasuredShape;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.Point;

/**
 * Points marked on a still that is not in the store.
 *
 * @param frame any name of the still; points of one name share a scale
 * @param points square pixels
 */
public record MarkedPoints(String frame, MeasuredShape shape, List<Point> points) {

    /** What came of them. */
    public record Result(MarkedPoints marked, Outcome<StillMeasures> outcome) {}

    public MarkedPoints {
        points = List.copyOf(points);
    }

    /** Measures all, each with the scale of its own frame; in the order given. */
    public static List<Result> measure(List<MarkedPoints> all, WhiteToWhite width) {
        Map<String, LimbusScale> scales = new HashMap<>();
        Map<String, EllipseFit> pupils = new HashMap<>();
        for (MarkedPoints marked : all) {
            if (marked.shape == MeasuredShape.LIMBUS
                    && LimbusScale.of(marked.points, width) instanceof Outcome.Found<LimbusScale> found) {
                scales.put(marked.frame, found.value());
            }
            if (marked.shape == MeasuredShape.PUPIL
                    && StillMeasures.fit(marked.points) instanceof Outcome.Found<EllipseFit> found) {
                pupils.put(marked.frame, found.value());
            }
        }
        List<Result> results = new ArrayList<>();
        for (MarkedPoints marked : all) {
            results.add(new Result(
                    marked,
                    marked.shape == MeasuredShape.LIMBUS
                            ? StillMeasures.ofLimbus(marked.points, width)
                            : StillMeasures.of(
                                    marked.shape, marked.points, scales.get(marked.frame), pupils.get(marked.frame))));
        }
        return results;
    }
}
