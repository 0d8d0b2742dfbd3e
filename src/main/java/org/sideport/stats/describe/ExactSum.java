package org.sideport.stats.describe;

/**
 * A running sum that keeps what rounding would lose: Neumaier 1974, Zeitschrift für Angewandte Mathematik und Mechanik
 * 54:39, an improvement of Kahan's summation that also holds where a term exceeds the sum so far. The result is off by
 * about one unit in the last place unless the terms cancel to less than 1 in 10¹⁶ of their size. Not for several threads.
 */
public final class ExactSum {

    private double sum;
    private double lost;

    public static ExactSum of(double... values) {
        ExactSum sum = new ExactSum();
        for (double value : values) {
            sum.add(value);
        }
        return sum;
    }

    public void add(double value) {
        double next = sum + value;
        lost += Math.abs(sum) >= Math.abs(value) ? (sum - next) + value : (value - next) + sum;
        sum = next;
    }

    /** Adds the product with the digits that its rounding loses. */
    public void addProduct(double a, double b) {
        double product = a * b;
        add(product);
        add(Math.fma(a, b, -product));
    }

    public double value() {
        return sum + lost;
    }

    /** The sum less its rounded {@link #value()}: the digits beyond the last place. */
    double tail() {
        return (sum - value()) + lost;
    }
}
