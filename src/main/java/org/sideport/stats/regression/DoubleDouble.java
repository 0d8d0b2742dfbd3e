package org.sideport.stats.regression;

/**
 * A number with about 32 significant digits as the unevaluated sum of two doubles (Dekker 1971, Numerische Mathematik
 * 18:224; Hida, Li & Bailey 2001, Algorithms for quad-double precision floating point arithmetic, IEEE ARITH-15, section
 * 3). Ten-degree polynomials lose sixteen digits to cancellation; this leaves as many.
 *
 * @param hi the number rounded to a double
 * @param lo what the rounding left
 */
record DoubleDouble(double hi, double lo) {

    static final DoubleDouble ZERO = new DoubleDouble(0, 0);
    static final DoubleDouble ONE = new DoubleDouble(1, 0);

    static DoubleDouble of(double value) {
        return new DoubleDouble(value, 0);
    }

    DoubleDouble plus(DoubleDouble other) {
        double s = hi + other.hi;
        double e = sumError(hi, other.hi, s);
        double t = lo + other.lo;
        double f = sumError(lo, other.lo, t);
        e += t;
        double u = s + e;
        return normalised(u, e - (u - s) + f);
    }

    DoubleDouble minus(DoubleDouble other) {
        return plus(other.negated());
    }

    DoubleDouble negated() {
        return new DoubleDouble(-hi, -lo);
    }

    DoubleDouble times(DoubleDouble other) {
        double p = hi * other.hi;
        double e = Math.fma(hi, other.hi, -p) + (hi * other.lo + lo * other.hi);
        return normalised(p, e);
    }

    DoubleDouble dividedBy(DoubleDouble other) {
        double first = hi / other.hi;
        DoubleDouble rest = minus(other.times(of(first)));
        double second = rest.hi / other.hi;
        rest = rest.minus(other.times(of(second)));
        return normalised(first, second).plus(of(rest.hi / other.hi));
    }

    /** Of a number that is not negative. */
    DoubleDouble sqrt() {
        if (hi <= 0) {
            return ZERO;
        }
        double root = Math.sqrt(hi);
        DoubleDouble first = of(root);
        double correction = minus(first.times(first)).hi / (2 * root);
        return normalised(root, correction);
    }

    double value() {
        return hi + lo;
    }

    private static double sumError(double a, double b, double sum) {
        double virtual = sum - a;
        return (a - (sum - virtual)) + (b - virtual);
    }

    private static DoubleDouble normalised(double big, double small) {
        double sum = big + small;
        return new DoubleDouble(sum, small - (sum - big));
    }
}
