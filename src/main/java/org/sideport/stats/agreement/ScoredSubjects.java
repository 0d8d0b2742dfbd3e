package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * The subjects that have a score.
 *
 * @param counts [subject][category], not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
record ScoredSubjects(int[][] counts) {

    /** Refuses where fewer than 2 subjects have two scores. */
    static Outcome<ScoredSubjects> of(int[][] counts) {
        long twice = Arrays.stream(counts)
                .filter(row -> Arrays.stream(row).sum() > 1)
                .count();
        if (twice < 2) {
            return Outcome.refused(
                    Reason.TOO_FEW,
                    twice == 1 ? "only 1 subject has two scores" : "no subject has two scores",
                    "let more subjects be scored twice");
        }
        return Outcome.of(new ScoredSubjects(Arrays.stream(counts)
                .filter(row -> Arrays.stream(row).sum() > 0)
                .toArray(int[][]::new)));
    }

    Outcome<ScoredSubjects> atLeastTwoCategories(int categories) {
        return categories > 1
                ? Outcome.of(this)
                : Outcome.refused(
                        Reason.NO_VARIATION,
                        "all scores are the same",
                        "name the levels of the scale, or read the share of equal scores instead");
    }

    /** The number of scores of each subject, or 0 if subjects differ in it. */
    int equalRaters() {
        int first = Arrays.stream(counts[0]).sum();
        return Arrays.stream(counts).allMatch(row -> Arrays.stream(row).sum() == first) ? first : 0;
    }

    List<String> warnings() {
        return counts.length < 30
                ? List.of("There are only " + counts.length + " subjects: the limits are rough.")
                : List.of();
    }
}
