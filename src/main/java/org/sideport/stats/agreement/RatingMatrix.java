package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

/**
 * Scores of subjects (rows) by raters or items (columns), at most one in each cell.
 *
 * @param subjects names of the rows
 * @param raters names of the columns
 * @param scores a row for each subject; NaN where there is no score; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record RatingMatrix(List<String> subjects, List<String> raters, double[][] scores) {

    public RatingMatrix {
        subjects = List.copyOf(subjects);
        raters = List.copyOf(raters);
        if (scores.length != subjects.size()) {
            throw new IllegalArgumentException(scores.length + " rows for " + subjects.size() + " subjects");
        }
        for (double[] row : scores) {
            if (row.length != raters.size()) {
                throw new IllegalArgumentException(row.length + " scores for " + raters.size() + " raters");
            }
            for (double score : row) {
                if (Double.isInfinite(score)) {
                    throw new IllegalArgumentException("not a finite score: " + score);
                }
            }
        }
    }

    /** Subjects and raters named 1, 2, 3 … */
    public static RatingMatrix of(double[][] scores) {
        return new RatingMatrix(numbers(scores.length), numbers(scores.length == 0 ? 0 : scores[0].length), scores);
    }

    private static List<String> numbers(int n) {
        List<String> names = new ArrayList<>();
        for (int i = 1; i <= n; i++) {
            names.add(String.valueOf(i));
        }
        return names;
    }

    /**
     * Refuses if a cell is filled twice.
     *
     * @param rowFactor for instance {@code subject}
     * @param columnFactor for instance {@code rater}
     */
    public static Outcome<RatingMatrix> of(LongData data, String rowFactor, String columnFactor) {
        Factor rows = data.factor(rowFactor);
        Factor columns = data.factor(columnFactor);
        double[][] scores = new double[rows.size()][columns.size()];
        for (double[] row : scores) {
            Arrays.fill(row, Double.NaN);
        }
        for (int i = 0; i < data.size(); i++) {
            int row = rows.codes()[i];
            int column = columns.codes()[i];
            if (!Double.isNaN(scores[row][column])) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        rowFactor + " " + rows.levels().get(row) + " has two scores of " + columnFactor + " "
                                + columns.levels().get(column),
                        "a " + rowFactor
                                + " is one thing that is scored, usually one operation: give each its own code (T01-op1,"
                                + " T01-op2), or add a column case that tells them apart");
            }
            scores[row][column] = data.values()[i];
        }
        return Outcome.of(new RatingMatrix(rows.levels(), columns.levels(), scores));
    }

    public int missingCells() {
        int missing = 0;
        for (double[] row : scores) {
            missing += missing(row);
        }
        return missing;
    }

    private static int missing(double[] row) {
        int missing = 0;
        for (double score : row) {
            missing += Double.isNaN(score) ? 1 : 0;
        }
        return missing;
    }

    /** Only the subjects that every rater has scored. */
    public RatingMatrix completeSubjects() {
        List<String> names = new ArrayList<>();
        List<double[]> rows = new ArrayList<>();
        for (int i = 0; i < scores.length; i++) {
            if (missing(scores[i]) == 0) {
                names.add(subjects.get(i));
                rows.add(scores[i]);
            }
        }
        return new RatingMatrix(names, raters, rows.toArray(double[][]::new));
    }

    /**
     * Harmonic mean of the number of scores of those subjects that have any: the number of raters that stands for
     * <i>k</i> where subjects have unequal numbers.
     *
     * @return 0 if there is no score at all
     */
    public double harmonicMeanRaters() {
        double inverse = 0;
        int counted = 0;
        for (double[] row : scores) {
            int present = row.length - missing(row);
            if (present > 0) {
                inverse += 1.0 / present;
                counted++;
            }
        }
        return counted == 0 ? 0 : counted / inverse;
    }

    /** The different scores that were given, ascending. */
    public double[] values() {
        return Arrays.stream(scores)
                .flatMapToDouble(Arrays::stream)
                .filter(score -> !Double.isNaN(score))
                .map(score -> score + 0.0)
                .sorted()
                .distinct()
                .toArray();
    }

    /**
     * How often each category was given to each subject.
     *
     * @param categories ascending; all scores that were given and perhaps more
     * @return [subject][category]
     * @throws IllegalArgumentException if a score is none of the categories
     */
    public int[][] counts(double[] categories) {
        int[][] counts = new int[scores.length][categories.length];
        for (int i = 0; i < scores.length; i++) {
            for (double score : scores[i]) {
                if (!Double.isNaN(score)) {
                    counts[i][category(categories, score)]++;
                }
            }
        }
        return counts;
    }

    /** Where a score stands among the categories. */
    static int category(double[] categories, double score) {
        int at = Arrays.binarySearch(categories, score + 0.0);
        if (at < 0) {
            throw new IllegalArgumentException(score + " is none of the categories");
        }
        return at;
    }
}
