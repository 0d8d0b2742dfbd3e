package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChangePointsTest {

    /** Annual flow of the Nile, 1871 to 1970 (R, datasets::Nile; Cobb, Biometrika 65 (1978) 243–251). */
    private static final double[] NILE = {
        1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
        1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
        831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865,
        845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050,
        918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740
    };

    /**
     * src/test/oracle/trace/changepoints.R (R 4.2.2): dynamic programming without pruning; strucchange finds the same for
     * one and for four changes with a least length of 8. The one change is after 1898, as Cobb has it.
     */
    @ParameterizedTest
    @CsvSource({
        "300000, 1, 28",
        "60000, 1, 6 7 10 19 28 37 40 45 47 83 95",
        "30000, 1, 6 7 9 17 19 28 37 40 42 43 45 47 63 68 71 83 93 94",
        "30000, 8, 10 19 28 83",
        "15000, 5, 10 19 28 35 40 45 50 63 68 75 83 95"
    })
    void theNileChangesWhereTheUnprunedSearchOfRSaysSo(double penalty, int least, String expected) {
        List<Integer> changes = ChangePoints.find(new double[][] {NILE}, penalty, least);
        assertThat(changes.stream().map(String::valueOf).reduce((a, b) -> a + " " + b))
                .hasValue(expected);
    }

    /** Every partition of short series of two dimensions is tried: no other is better than the one found. */
    @Test
    void noOtherPartitionIsCheaper() {
        Random random = new Random(4);
        for (int round = 0; round < 300; round++) {
            int n = 6 + random.nextInt(7);
            int least = 1 + random.nextInt(3);
            double penalty = random.nextDouble() * 6;
            double[][] series = new double[2][n];
            for (int i = 0; i < n; i++) {
                series[0][i] = random.nextGaussian() + (i > n / 2 ? 2 : 0);
                series[1][i] = random.nextGaussian() + (i > n / 3 ? 1 : 0);
            }
            double cheapest = Double.POSITIVE_INFINITY;
            for (int mask = 0; mask < 1 << (n - 1); mask++) {
                List<Integer> changes = new ArrayList<>();
                for (int i = 1; i < n; i++) {
                    if ((mask >> (i - 1) & 1) == 1) {
                        changes.add(i);
                    }
                }
                cheapest = Math.min(cheapest, total(series, changes, penalty, least));
            }
            List<Integer> found = ChangePoints.find(series, penalty, least);
            assertThat(total(series, found, penalty, least))
                    .as("round " + round)
                    .isCloseTo(cheapest, org.assertj.core.data.Offset.offset(1e-9));
        }
    }

    /** Written out from the definition; infinite where a stretch is too short. */
    private static double total(double[][] series, List<Integer> changes, double penalty, int least) {
        int n = series[0].length;
        double total = penalty * changes.size();
        for (int c = 0; c <= changes.size(); c++) {
            int from = c == 0 ? 0 : changes.get(c - 1);
            int to = c == changes.size() ? n : changes.get(c);
            if (to - from < least) {
                return Double.POSITIVE_INFINITY;
            }
            for (double[] one : series) {
                double mean = 0;
                for (int i = from; i < to; i++) {
                    mean += one[i] / (to - from);
                }
                for (int i = from; i < to; i++) {
                    total += (one[i] - mean) * (one[i] - mean);
                }
            }
        }
        return total;
    }

    @Test
    void aSeriesTooShortForAChangeHasNone() {
        assertThat(ChangePoints.find(new double[][] {{1, 9}}, 0, 2)).isEmpty();
        assertThat(ChangePoints.find(new double[][] {{}}, 1, 1)).isEmpty();
        assertThat(ChangePoints.find(new double[][] {{1, 9}}, 0, 5)).isEmpty();
    }

    @Test
    void whatIsNoSeriesIsRefused() {
        assertThatThrownBy(() -> ChangePoints.find(new double[][] {{1, Double.NaN}}, 1, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("value 1");
        assertThatThrownBy(() -> ChangePoints.find(new double[][] {{1}, {1, 2}}, 1, 1))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> ChangePoints.find(new double[][] {{1}}, -1, 1))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
