package org.sideport.stats.segments;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The order in which labels follow each other in one recording or several.
 *
 * @param episodes one for each label, in order of first appearance
 * @param transitions {@code [i][j]}: how often label {@code j} is the next segment after label {@code i}, in the order of
 *     {@code episodes}; time without a label between them does not matter; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record LabelOrder(List<Episodes> episodes, int[][] transitions) {

    /**
     * @param count segments with the label, as marked: touching neighbours count each
     * @param returns those that come after a segment with another label, the label having been there before
     * @param totalUs their length together
     */
    public record Episodes(String label, int count, int returns, long totalUs) {}

    public LabelOrder {
        episodes = List.copyOf(episodes);
    }

    public static LabelOrder of(SegmentSequence sequence) {
        List<Segment> segments = sequence.segments();
        Map<String, Integer> index = new LinkedHashMap<>();
        segments.forEach(s -> index.putIfAbsent(s.label(), index.size()));
        int[] counts = new int[index.size()];
        int[] returns = new int[index.size()];
        long[] totals = new long[index.size()];
        int[][] transitions = new int[index.size()][index.size()];
        int before = -1;
        for (Segment segment : segments) {
            int label = index.getOrDefault(segment.label(), -1);
            if (before >= 0) {
                transitions[before][label]++;
            }
            if (counts[label] > 0 && before != label) {
                returns[label]++;
            }
            counts[label]++;
            totals[label] += segment.lengthUs();
            before = label;
        }
        List<Episodes> episodes = new ArrayList<>();
        index.forEach((label, i) -> episodes.add(new Episodes(label, counts[i], returns[i], totals[i])));
        return new LabelOrder(episodes, transitions);
    }

    /** How often a label follows another; 0 for labels that do not occur. */
    public int transitions(String from, String to) {
        List<String> labels = episodes.stream().map(Episodes::label).toList();
        int i = labels.indexOf(from);
        int j = labels.indexOf(to);
        return i < 0 || j < 0 ? 0 : transitions[i][j];
    }

    /**
     * Distance from a standard order.
     *
     * @param editDistance Levenshtein distance: fewest insertions, deletions and replacements that turn the order (direct
     *     repeats of a label taken as one) into the standard
     * @param normalised the same over the longer of both, 0 (as the standard) to 1
     * @param discordantPairs pairs of labels that first appear the other way round than in the standard (Kendall's
     *     distance), among labels that occur in both
     * @param pairs all such pairs
     * @param missing labels of the standard that do not occur, in its order
     */
    public record StandardDistance(
            int editDistance, double normalised, int discordantPairs, int pairs, List<String> missing) {

        public StandardDistance {
            missing = List.copyOf(missing);
        }

        /** 0 to 1; {@code null} below two common labels. */
        public @Nullable Double discordantShare() {
            return pairs == 0 ? null : (Double) ((double) discordantPairs / pairs);
        }
    }

    /** @param standard at least one label; one may stand several times for the edit distance, its first place counts else */
    public static StandardDistance distance(SegmentSequence sequence, List<String> standard) {
        if (standard.isEmpty()) {
            throw new IllegalArgumentException("an empty standard order");
        }
        List<String> order = new ArrayList<>();
        for (String label : sequence.labels()) {
            if (order.isEmpty() || !order.get(order.size() - 1).equals(label)) {
                order.add(label);
            }
        }
        int edits = EditDistance.of(order, standard);
        List<String> common =
                order.stream().distinct().filter(standard::contains).toList();
        int discordant = 0;
        for (int i = 0; i < common.size(); i++) {
            for (int j = i + 1; j < common.size(); j++) {
                if (standard.indexOf(common.get(i)) > standard.indexOf(common.get(j))) {
                    discordant++;
                }
            }
        }
        return new StandardDistance(
                edits,
                (double) edits / Math.max(order.size(), standard.size()),
                discordant,
                common.size() * (common.size() - 1) / 2,
                standard.stream().distinct().filter(l -> !common.contains(l)).toList());
    }
}
