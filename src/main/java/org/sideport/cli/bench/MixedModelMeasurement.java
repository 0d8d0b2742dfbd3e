package org.sideport.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.sideport.stats.data.Factor;
import org.sideport.stats.mixed.Column;
import org.sideport.stats.mixed.MixedData;
import org.sideport.stats.mixed.MixedModel;
import org.sideport.stats.mixed.MixedOptions;

/** A mixed model with random intercept and slope of 200 trainees with 300 cases each, by REML. */
final class MixedModelMeasurement implements Measurement {

    private static final int SUBJECTS = 200;
    private static final int CASES = 300;

    private final MixedData data;

    MixedModelMeasurement() {
        SplittableRandom random = new SplittableRandom(21);
        int n = SUBJECTS * CASES;
        double[] time = new double[n];
        double[] value = new double[n];
        List<String> labels = new ArrayList<>(n);
        for (int s = 0, i = 0; s < SUBJECTS; s++) {
            double level = 6.5 + 0.2 * random.nextGaussian();
            double slope = -0.08 + 0.03 * random.nextGaussian();
            for (int k = 1; k <= CASES; k++, i++) {
                labels.add("T" + (s + 1));
                time[i] = Math.log(k) / Math.log(2);
                value[i] = level + slope * time[i] + 0.2 * random.nextGaussian();
            }
        }
        List<Column> columns = List.of(Column.intercept(n), new Column("time", time));
        data = new MixedData(value, columns, columns, Factor.of("subject", labels));
    }

    @Override
    public String id() {
        return "mixed";
    }

    @Override
    public String what() {
        return "mixed model with random slopes, 200 trainees × 300 cases";
    }

    /** The REML criterion. */
    @Override
    public double own() {
        return MixedModel.fit(data, MixedOptions.standard()).orElseThrow().criterion();
    }

    @Override
    public Baseline baseline() {
        double[] time = data.fixed().get(1).values();
        return new Baseline.Script(
                "R lme4",
                "mixed.R",
                "subject,time,value",
                () -> IntStream.range(0, data.size())
                        .mapToObj(
                                i -> data.subject().levels().get(data.subject().codes()[i]) + ","
                                        + Measurement.number(time[i]) + "," + Measurement.number(data.response()[i]))
                        .iterator());
    }
}
