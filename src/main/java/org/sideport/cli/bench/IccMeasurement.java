package org.sideport.cli.bench;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.sideport.stats.agreement.Icc;
import org.sideport.stats.agreement.IccForm;
import org.sideport.stats.agreement.RatingMatrix;

/** The six intraclass correlations with limits of 10 000 subjects by 5 raters. */
final class IccMeasurement implements Measurement {

    private static final int SUBJECTS = 10_000;
    private static final int RATERS = 5;

    private final double[][] scores = new double[SUBJECTS][RATERS];

    IccMeasurement() {
        SplittableRandom random = new SplittableRandom(31);
        for (double[] row : scores) {
            double subject = random.nextGaussian();
            for (int j = 0; j < RATERS; j++) {
                row[j] = subject + 0.3 * j + random.nextGaussian();
            }
        }
    }

    @Override
    public String id() {
        return "icc";
    }

    @Override
    public String what() {
        return "intraclass correlations with limits, 10 000 subjects × 5 raters";
    }

    /** ICC(2,1). */
    @Override
    public double own() {
        return Icc.ofComplete(RatingMatrix.of(scores), 0.95)
                .orElseThrow()
                .get(IccForm.ICC_2_1)
                .estimate()
                .value();
    }

    @Override
    public Baseline baseline() {
        return new Baseline.Script(
                "R psych",
                "icc.R",
                "A1,A2,A3,A4,A5",
                () -> IntStream.range(0, SUBJECTS).mapToObj(this::row).iterator());
    }

    private String row(int i) {
        return String.join(
                ",",
                IntStream.range(0, RATERS)
                        .mapToObj(j -> Measurement.number(scores[i][j]))
                        .toList());
    }
}
