package org.sideport.stats.learning;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Curves of a value over the case number n, in parameters that can be read (Newell & Rosenbloom 1981 compare the power law
 * and the exponential; Heathcote, Brown & Mewhort 2000, Psychonomic Bulletin & Review 7:185).
 */
public enum LearningModel {
    /** The same at every case. */
    CONSTANT("level") {
        @Override
        double value(double n, double[] b, double @Nullable [] gradient) {
            if (gradient != null) {
                gradient[0] = 1;
            }
            return b[0];
        }

        @Override
        double caseOf(double reference, double[] b) {
            return Double.NaN;
        }
    },
    /** {@code first · factor^log₂ n}: each doubling of the case number multiplies by the same factor. */
    POWER("first", "factor_per_doubling") {
        @Override
        double value(double n, double[] b, double @Nullable [] gradient) {
            if (!(b[1] > 0)) {
                return Double.NaN;
            }
            double doublings = log2(n);
            double power = Math.pow(b[1], doublings);
            if (gradient != null) {
                gradient[0] = power;
                gradient[1] = b[0] * doublings * power / b[1];
            }
            return b[0] * power;
        }

        @Override
        double caseOf(double reference, double[] b) {
            return Math.pow(2, Math.log(reference / b[0]) / Math.log(b[1]));
        }
    },
    /** {@code first + step · log₂ n}: each doubling of the case number adds the same step. */
    LOG_LINEAR("first", "change_per_doubling") {
        @Override
        double value(double n, double[] b, double @Nullable [] gradient) {
            double doublings = log2(n);
            if (gradient != null) {
                gradient[0] = 1;
                gradient[1] = doublings;
            }
            return b[0] + b[1] * doublings;
        }

        @Override
        double caseOf(double reference, double[] b) {
            return Math.pow(2, (reference - b[0]) / b[1]);
        }
    },
    /**
     * {@code plateau + (first − plateau) · 2^(−(n − 1)/half)}: the distance to a plateau halves with each further
     * {@code half} cases.
     */
    EXPONENTIAL("first", "plateau", "cases_to_halve") {
        @Override
        double value(double n, double[] b, double @Nullable [] gradient) {
            if (!(b[2] > 0)) {
                return Double.NaN;
            }
            double left = Math.pow(2, -(n - 1) / b[2]);
            if (gradient != null) {
                gradient[0] = left;
                gradient[1] = 1 - left;
                gradient[2] = (b[0] - b[1]) * left * Math.log(2) * (n - 1) / (b[2] * b[2]);
            }
            return b[1] + (b[0] - b[1]) * left;
        }

        @Override
        double caseOf(double reference, double[] b) {
            return 1 + b[2] * log2((b[0] - b[1]) / (reference - b[1]));
        }
    };

    private final List<String> parameters;

    LearningModel(String... parameters) {
        this.parameters = List.of(parameters);
    }

    /** Names of the parameters, in order. */
    public List<String> parameters() {
        return parameters;
    }

    /**
     * @param n case number, at least 1
     * @param b the parameters
     * @param gradient filled unless {@code null}
     * @return NaN where the parameters make no curve
     */
    abstract double value(double n, double[] b, double @Nullable [] gradient);

    /** The case number at which the curve has this value; NaN, infinite or below 1 if there is none. */
    abstract double caseOf(double reference, double[] b);

    static double log2(double n) {
        return Math.log(n) / Math.log(2);
    }
}
