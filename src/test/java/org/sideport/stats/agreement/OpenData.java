package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.stream.IntStream;

/** Tables that papers have printed or that come with open software. */
final class OpenData {

    private static final double NA = Double.NaN;

    private OpenData() {}

    /** Shrout & Fleiss 1979, Psychological Bulletin 86:420, table 2: 6 targets, 4 judges. */
    static double[][] shroutFleiss() {
        return new double[][] {{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
    }

    /** R data set {@code attitude} (Chatterjee & Price 1977, Regression Analysis by Example): 30 departments, 7 items. */
    static double[][] attitude() {
        return new double[][] {
            {43, 51, 30, 39, 61, 92, 45},
            {63, 64, 51, 54, 63, 73, 47},
            {71, 70, 68, 69, 76, 86, 48},
            {61, 63, 45, 47, 54, 84, 35},
            {81, 78, 56, 66, 71, 83, 47},
            {43, 55, 49, 44, 54, 49, 34},
            {58, 67, 42, 56, 66, 68, 35},
            {71, 75, 50, 55, 70, 66, 41},
            {72, 82, 72, 67, 71, 83, 31},
            {67, 61, 45, 47, 62, 80, 41},
            {64, 53, 53, 58, 58, 67, 34},
            {67, 60, 47, 39, 59, 74, 41},
            {69, 62, 57, 42, 55, 63, 25},
            {68, 83, 83, 45, 59, 77, 35},
            {77, 77, 54, 72, 79, 77, 46},
            {81, 90, 50, 72, 60, 54, 36},
            {74, 85, 64, 69, 79, 79, 63},
            {65, 60, 65, 75, 55, 80, 60},
            {65, 70, 46, 57, 75, 85, 46},
            {50, 58, 68, 54, 64, 78, 52},
            {50, 40, 33, 34, 43, 64, 33},
            {64, 61, 52, 62, 66, 80, 41},
            {53, 66, 52, 50, 63, 80, 37},
            {40, 37, 42, 58, 50, 57, 49},
            {63, 54, 42, 48, 66, 75, 33},
            {66, 77, 66, 63, 88, 76, 72},
            {78, 75, 58, 74, 80, 78, 49},
            {48, 57, 44, 45, 51, 83, 38},
            {85, 85, 71, 71, 77, 74, 55},
            {82, 82, 39, 59, 64, 78, 39},
        };
    }

    /** Krippendorff 2011, Computing Krippendorff's Alpha-Reliability, section D: 12 units, 4 observers, gaps. */
    static double[][] krippendorff() {
        return new double[][] {
            {1, 1, NA, 1},
            {2, 2, 3, 2},
            {3, 3, 3, 3},
            {3, 3, 3, 3},
            {2, 2, 2, 2},
            {1, 2, 3, 4},
            {4, 4, 4, 4},
            {1, 1, 2, 1},
            {2, 2, 2, 2},
            {NA, 5, 5, 5},
            {NA, NA, 1, 1},
            {NA, 3, NA, NA}
        };
    }

    /** Fleiss 1971, Psychological Bulletin 76:378, table 1: diagnoses of 30 patients, 6 psychiatrists each, 5 categories. */
    static double[][] fleiss() {
        String rows =
                "444444 222555 233335 555555 222444 113333 333355 113334 114444 555555 144444 124444 222333 144444"
                        + " 224445 333335 111455 111112 224444 133555 555555 244444 224555 114444 144445 222224 111155 224444 133333"
                        + " 555555";
        return Arrays.stream(rows.split(" "))
                .map(row -> row.chars().mapToDouble(c -> c - '0').toArray())
                .toArray(double[][]::new);
    }

    /** Published counts: subjects by categories. */
    static int[][] counts(double[][] scores, int categories) {
        double[] values = IntStream.rangeClosed(1, categories).asDoubleStream().toArray();
        return RatingMatrix.of(scores).counts(values);
    }
}
