package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * How a series of values over the running number of the case becomes a mixed model: random intercept and, if wanted, a
 * random slope over the case number for each subject.
 *
 * @param time scale of the case number
 * @param logResponse whether the natural log of the value is modelled, as suits durations: effects are then factors
 * @param randomSlope whether subjects may differ in their slope
 */
public record GrowthDesign(Time time, boolean logResponse, boolean randomSlope) {

    /** Scale of the case number n in the model. */
    public enum Time {
        /** n itself: the intercept is the value at case 0, the slope the change per case. */
        LINEAR("case_number"),
        /** log2 n: the intercept is the value at case 1, the slope the change per doubling of the number of cases. */
        LOG("log2_case_number");

        private final String column;

        Time(String column) {
            this.column = column;
        }

        /** Name of the model's column. */
        public String column() {
            return column;
        }

        /** @param caseNumber with {@link #LOG} above 0 */
        public double of(double caseNumber) {
            return this == LINEAR ? caseNumber : Math.log(caseNumber) / Math.log(2);
        }
    }

    /**
     * Refuses values that have no log where one is wanted.
     *
     * @param subject whose case it is
     * @param caseNumber running number of the case for its subject
     * @param value of the case
     * @param covariates see {@link #covariate}
     */
    public Outcome<MixedData> data(Factor subject, double[] caseNumber, double[] value, List<Column> covariates) {
        int n = value.length;
        if (logResponse) {
            double low = Arrays.stream(value).min().orElse(1);
            if (low <= 0) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the smallest value is " + low + "; a duration must be above 0 for its logarithm",
                        "correct or remove that value, or model the values as they are");
            }
        }
        if (time == Time.LOG) {
            double low = Arrays.stream(caseNumber).min().orElse(1);
            if (low < 1) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the smallest case number is " + low + "; on the logarithmic scale cases count from 1",
                        "number the cases from 1, or use the linear scale");
            }
        }
        Column intercept = Column.intercept(n);
        Column over = new Column(
                time.column(), Arrays.stream(caseNumber).map(time::of).toArray());
        List<Column> fixed = new ArrayList<>(List.of(intercept, over));
        fixed.addAll(covariates);
        double[] response = logResponse ? Arrays.stream(value).map(Math::log).toArray() : value.clone();
        return Outcome.of(
                new MixedData(response, fixed, randomSlope ? List.of(intercept, over) : List.of(intercept), subject));
    }

    /**
     * The columns of a covariate: itself if all its levels are numbers, else an indicator for each level but the first in
     * alphabetical order, the reference (treatment contrasts).
     */
    public static List<Column> covariate(Factor factor) {
        double[] numbers = numbers(factor.levels());
        if (numbers != null || factor.size() == 1) {
            double[] values = new double[factor.codes().length];
            for (int i = 0; i < values.length; i++) {
                values[i] = numbers == null ? 1 : numbers[factor.codes()[i]];
            }
            return List.of(new Column(factor.name(), values));
        }
        List<String> levels = factor.levels().stream().sorted().toList();
        List<Column> columns = new ArrayList<>();
        for (String level : levels.subList(1, levels.size())) {
            int code = factor.levels().indexOf(level);
            columns.add(new Column(
                    factor.name() + "=" + level,
                    Arrays.stream(factor.codes())
                            .mapToDouble(c -> c == code ? 1 : 0)
                            .toArray()));
        }
        return columns;
    }

    private static double @Nullable [] numbers(List<String> levels) {
        double[] numbers = new double[levels.size()];
        for (int i = 0; i < numbers.length; i++) {
            String text = levels.get(i).replace('−', '-');
            if (!text.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)")) {
                return null;
            }
            numbers[i] = Double.parseDouble(text);
        }
        return numbers;
    }
}
