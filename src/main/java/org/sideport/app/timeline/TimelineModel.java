package org.sideport.app.timeline;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * What a timeline shows.
 *
 * @param durationUs length of the recording, microseconds
 * @param lanes from top to bottom
 * @param borders where one file of the recording follows another
 * @param gaps time that no file holds
 * @param doubts time that could not be read, or is not to be trusted
 * @param cuts where the picture changes at once; boundaries snap to them
 * @param candidates where a boundary is proposed; boundaries snap to them
 */
public record TimelineModel(
        long durationUs,
        List<Lane> lanes,
        List<Long> borders,
        List<Stretch> gaps,
        List<Stretch> doubts,
        List<Long> cuts,
        List<Long> candidates) {

    public static final TimelineModel EMPTY =
            new TimelineModel(0, List.of(), List.of(), List.of(), List.of(), List.of(), List.of());

    public TimelineModel {
        lanes = List.copyOf(lanes);
        borders = List.copyOf(borders);
        gaps = List.copyOf(gaps);
        doubts = List.copyOf(doubts);
        cuts = List.copyOf(cuts);
        candidates = List.copyOf(candidates);
        if (durationUs < 0) {
            throw new IllegalArgumentException("a recording has no negative length");
        }
        Set<String> ids = new HashSet<>();
        for (Lane lane : lanes) {
            if (!ids.add(lane.id())) {
                throw new IllegalArgumentException("two lanes have the id " + lane.id());
            }
        }
    }

    /** A model of lanes only. */
    public static TimelineModel of(long durationUs, List<Lane> lanes) {
        return new TimelineModel(durationUs, lanes, List.of(), List.of(), List.of(), List.of(), List.of());
    }
}
