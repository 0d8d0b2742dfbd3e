package org.sideport.stats.regression;

import java.util.function.BiFunction;
import org.hipparchus.analysis.differentiation.Gradient;
import org.jspecify.annotations.Nullable;

/** The curves of NIST's nonlinear sets, their derivatives by automatic differentiation. */
final class NistCurves {

    private NistCurves() {}

    /** A curve of parameters and predictors. */
    interface Formula extends BiFunction<Gradient[], double[], Gradient> {}

    static Formula formula(String name) {
        return switch (name) {
            case "Misra1a", "BoxBOD" ->
                (b, x) -> b[0].multiply(b[1].multiply(-x[0]).exp().negate().add(1));
            case "Misra1b" ->
                (b, x) -> b[0].multiply(
                        b[1].multiply(x[0] / 2).add(1).pow(-2).negate().add(1));
            case "Misra1c" ->
                (b, x) -> b[0].multiply(
                        b[1].multiply(2 * x[0]).add(1).pow(-0.5).negate().add(1));
            case "Misra1d" ->
                (b, x) -> b[0].multiply(b[1])
                        .multiply(x[0])
                        .divide(b[1].multiply(x[0]).add(1));
            case "Chwirut1", "Chwirut2" -> (b, x) -> b[0].multiply(-x[0]).exp().divide(b[1].add(b[2].multiply(x[0])));
            case "Lanczos1", "Lanczos2", "Lanczos3" ->
                (b, x) -> decay(b[0], b[1], x[0]).add(decay(b[2], b[3], x[0])).add(decay(b[4], b[5], x[0]));
            case "DanWood" ->
                (b, x) -> b[0].multiply(b[1].multiply(Math.log(x[0])).exp());
            case "Gauss1", "Gauss2", "Gauss3" ->
                (b, x) -> decay(b[0], b[1], x[0])
                        .add(bell(b[2], b[3], b[4], x[0]))
                        .add(bell(b[5], b[6], b[7], x[0]));
            case "Kirby2" ->
                (b, x) -> horner(x[0], b[0], b[1], b[2]).divide(horner(x[0], b[0].newInstance(1), b[3], b[4]));
            case "Hahn1", "Thurber" ->
                (b, x) -> horner(x[0], b[0], b[1], b[2], b[3])
                        .divide(horner(x[0], b[0].newInstance(1), b[4], b[5], b[6]));
            case "Nelson" ->
                (b, x) -> b[0].subtract(
                        b[1].multiply(x[0]).multiply(b[2].multiply(-x[1]).exp()));
            case "MGH17" -> (b, x) -> b[0].add(decay(b[1], b[3], x[0])).add(decay(b[2], b[4], x[0]));
            case "Roszman1" ->
                (b, x) -> b[0].subtract(b[1].multiply(x[0]))
                        .subtract(b[2].divide(b[3].negate().add(x[0])).atan().divide(Math.PI));
            case "ENSO" ->
                (b, x) -> b[0].add(wave(b[1], b[2], b[0].newInstance(12), x[0]))
                        .add(wave(b[4], b[5], b[3], x[0]))
                        .add(wave(b[7], b[8], b[6], x[0]));
            case "MGH09" ->
                (b, x) -> b[0].multiply(b[1].multiply(x[0]).add(x[0] * x[0]))
                        .divide(b[2].multiply(x[0]).add(x[0] * x[0]).add(b[3]));
            case "Rat42" ->
                (b, x) -> b[0].divide(b[1].subtract(b[2].multiply(x[0])).exp().add(1));
            case "MGH10" -> (b, x) -> b[0].multiply(b[1].divide(b[2].add(x[0])).exp());
            case "Eckerle4" ->
                (b, x) -> {
                    Gradient z = b[2].negate().add(x[0]).divide(b[1]);
                    return b[0].divide(b[1])
                            .multiply(z.multiply(z).multiply(-0.5).exp());
                };
            case "Rat43" ->
                (b, x) -> b[0].multiply(b[1].subtract(b[2].multiply(x[0]))
                        .exp()
                        .add(1)
                        .log()
                        .divide(b[3])
                        .negate()
                        .exp());
            case "Bennett5" ->
                (b, x) ->
                        b[0].multiply(b[1].add(x[0]).log().divide(b[2]).negate().exp());
            default -> throw new IllegalArgumentException(name);
        };
    }

    private static Gradient decay(Gradient height, Gradient rate, double x) {
        return height.multiply(rate.multiply(-x).exp());
    }

    private static Gradient bell(Gradient height, Gradient centre, Gradient width, double x) {
        Gradient z = centre.negate().add(x).divide(width);
        return height.multiply(z.multiply(z).negate().exp());
    }

    private static Gradient wave(Gradient cosine, Gradient sine, Gradient period, double x) {
        Gradient angle = period.newInstance(2 * Math.PI * x).divide(period);
        return cosine.multiply(angle.cos()).add(sine.multiply(angle.sin()));
    }

    private static Gradient horner(double x, Gradient... coefficients) {
        Gradient sum = coefficients[coefficients.length - 1];
        for (int k = coefficients.length - 2; k >= 0; k--) {
            sum = sum.multiply(x).add(coefficients[k]);
        }
        return sum;
    }

    /** The curve at the rows of predictors (one array per predictor). */
    static CurveFunction at(Formula formula, double[][] x) {
        return (i, parameters, gradient) -> value(formula, x, i, parameters, gradient);
    }

    private static double value(
            Formula formula, double[][] x, int i, double[] parameters, double @Nullable [] gradient) {
        int p = parameters.length;
        Gradient[] b = new Gradient[p];
        for (int j = 0; j < p; j++) {
            b[j] = Gradient.variable(p, j, parameters[j]);
        }
        double[] row = new double[x.length];
        for (int k = 0; k < row.length; k++) {
            row[k] = x[k][i];
        }
        Gradient value = formula.apply(b, row);
        if (gradient != null) {
            System.arraycopy(value.getGradient(), 0, gradient, 0, p);
        }
        return value.getValue();
    }
}
