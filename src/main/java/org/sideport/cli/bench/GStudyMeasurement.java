package org.sideport.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.gtheory.GStudy;

/** A generalisability study of 2 000 persons by 6 cases by 3 raters, one cell in eight missing, by REML. */
final class GStudyMeasurement implements Measurement {

    private static final int PERSONS = 2000;
    private static final int CASES = 6;
    private static final int RATERS = 3;

    private final LongData data;

    GStudyMeasurement() {
        SplittableRandom random = new SplittableRandom(41);
        double[] person = effects(random, PERSONS, 1);
        double[] kase = effects(random, CASES, 0.5);
        double[] rater = effects(random, RATERS, 0.4);
        double[] personCase = effects(random, PERSONS * CASES, 0.6);
        double[] personRater = effects(random, PERSONS * RATERS, 0.4);
        double[] caseRater = effects(random, CASES * RATERS, 0.2);
        List<Double> scores = new ArrayList<>();
        List<List<String>> labels = List.of(new ArrayList<>(), new ArrayList<>(), new ArrayList<>());
        for (int p = 0; p < PERSONS; p++) {
            for (int c = 0; c < CASES; c++) {
                for (int r = 0; r < RATERS; r++) {
                    double score = 3
                            + person[p]
                            + kase[c]
                            + rater[r]
                            + personCase[p * CASES + c]
                            + personRater[p * RATERS + r]
                            + caseRater[c * RATERS + r]
                            + 0.8 * random.nextGaussian();
                    if (random.nextDouble() >= 0.125) {
                        scores.add(score);
                        labels.get(0).add("T" + p);
                        labels.get(1).add("C" + c);
                        labels.get(2).add("A" + r);
                    }
                }
            }
        }
        data = new LongData(
                List.of(
                        Factor.of("person", labels.get(0)),
                        Factor.of("case", labels.get(1)),
                        Factor.of("rater", labels.get(2))),
                scores.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static double[] effects(SplittableRandom random, int n, double sd) {
        return IntStream.range(0, n)
                .mapToDouble(i -> sd * random.nextGaussian())
                .toArray();
    }

    @Override
    public String id() {
        return "gstudy";
    }

    @Override
    public String what() {
        return "generalisability study by REML, 2 000 persons × 6 cases × 3 raters, one cell in eight missing";
    }

    /** The REML criterion. */
    @Override
    public double own() {
        Double criterion = GStudy.of(data, "person", Map.of(), GStudy.Method.REML)
                .orElseThrow()
                .criterion();
        if (criterion == null) {
            throw new IllegalStateException("REML without a criterion");
        }
        return criterion;
    }

    @Override
    public Baseline baseline() {
        return new Baseline.Script(
                "R lme4",
                "gstudy.R",
                "person,case,rater,score",
                () -> IntStream.range(0, data.size()).mapToObj(this::row).iterator());
    }

    private String row(int i) {
        StringBuilder row = new StringBuilder();
        for (Factor factor : data.factors()) {
            row.append(factor.levels().get(factor.codes()[i])).append(',');
        }
        return row.append(Measurement.number(data.values()[i])).toString();
    }
}
