package org.sideport.timing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Which episodes of one tagging belong to which of another: of equal label, in the same order on both sides, so that no
 * two pairs cross. Of all ways to do so the one with the most time in common is taken (a longest common subsequence whose
 * pairs weigh as much as the shorter of the two episodes), and of equal ones that with more pairs. A phase that was taken
 * up again is so matched episode by episode, and phases done in another order are matched as far as they can be.
 */
final class EpisodeMatch {

    /** @param left index in the left list; likewise {@code right} */
    record Pair(int left, int right) {}

    private EpisodeMatch() {}

    /** Pairs in the order of both lists, which are in the order of time. */
    static List<Pair> of(List<Episode> left, List<Episode> right) {
        int rows = left.size();
        int columns = right.size();
        long[][] common = new long[rows + 1][columns + 1];
        int[][] pairs = new int[rows + 1][columns + 1];
        for (int i = rows - 1; i >= 0; i--) {
            for (int j = columns - 1; j >= 0; j--) {
                boolean down = isBetter(common, pairs, i + 1, j, i, j + 1);
                common[i][j] = down ? common[i + 1][j] : common[i][j + 1];
                pairs[i][j] = down ? pairs[i + 1][j] : pairs[i][j + 1];
                if (left.get(i).label().equals(right.get(j).label())) {
                    long taken = common[i + 1][j + 1] + weight(left.get(i), right.get(j));
                    int count = pairs[i + 1][j + 1] + 1;
                    if (taken > common[i][j] || (taken == common[i][j] && count > pairs[i][j])) {
                        common[i][j] = taken;
                        pairs[i][j] = count;
                    }
                }
            }
        }
        return walk(left, right, common, pairs);
    }

    private static long weight(Episode left, Episode right) {
        return Math.min(left.lengthUs(), right.lengthUs());
    }

    private static boolean isBetter(long[][] common, int[][] pairs, int i, int j, int otherI, int otherJ) {
        return common[i][j] > common[otherI][otherJ]
                || (common[i][j] == common[otherI][otherJ] && pairs[i][j] >= pairs[otherI][otherJ]);
    }

    private static List<Pair> walk(List<Episode> left, List<Episode> right, long[][] common, int[][] pairs) {
        List<Pair> found = new ArrayList<>();
        int i = 0;
        int j = 0;
        while (i < left.size() && j < right.size()) {
            boolean paired = left.get(i).label().equals(right.get(j).label())
                    && common[i][j] == common[i + 1][j + 1] + weight(left.get(i), right.get(j))
                    && pairs[i][j] == pairs[i + 1][j + 1] + 1;
            if (paired) {
                found.add(new Pair(i++, j++));
            } else if (isBetter(common, pairs, i + 1, j, i, j + 1)) {
                i++;
            } else {
                j++;
            }
        }
        return Collections.unmodifiableList(found);
    }
}
