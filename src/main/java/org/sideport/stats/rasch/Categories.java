package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;

/**
 * The levels that one set of steps covers. Scores count from 0 in units of the greatest distance that fits all levels. A
 * level in between that was never given keeps its place but has probability 0 (Wilson & Masters 1993, Psychometrika
 * 58:87), so that the others keep their meaning.
 *
 * @param lowest level of score 0
 * @param unit levels to one score point
 * @param scores of the levels that were given, ascending from 0; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
record Categories(int lowest, int unit, int[] scores) {

    static Categories of(SortedSet<Integer> given, int unit) {
        int lowest = given.first();
        return new Categories(
                lowest,
                unit,
                given.stream().mapToInt(level -> (level - lowest) / unit).toArray());
    }

    int size() {
        return scores.length;
    }

    int top() {
        return scores[scores.length - 1];
    }

    int level(int category) {
        return lowest + unit * scores[category];
    }

    /** A level on the scale of the marks. */
    double level(double score) {
        return lowest + unit * score;
    }

    /** Index of the level's category, the next one below if the level has none, the lowest if it lies under all. */
    int category(int level) {
        int category = 0;
        while (category + 1 < scores.length && level(category + 1) <= level) {
            category++;
        }
        return category;
    }

    boolean has(int level) {
        return level(category(level)) == level;
    }

    List<Integer> unused() {
        List<Integer> unused = new ArrayList<>();
        for (int level = lowest; level < lowest + unit * top(); level += unit) {
            if (!has(level)) {
                unused.add(level);
            }
        }
        return unused;
    }
}
