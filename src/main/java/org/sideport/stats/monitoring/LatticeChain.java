package org.sideport.stats.monitoring;

/**
 * A CUSUM whose two weights are whole multiples of one unit: a Markov chain on the integers 0 to limit − 1, exact (Brook &
 * Evans 1972, Biometrika 59:539, for the discrete case).
 */
final class LatticeChain implements RunChain {

    private final int up;
    private final int down;
    private final double chanceUp;
    private double[] mass;
    private double[] next;

    /**
     * @param up units that an upward step adds, above 0
     * @param down units that the other step takes off, 0 or more
     * @param limit the first integer state that signals
     */
    LatticeChain(int up, int down, int limit, double chanceUp) {
        this.up = up;
        this.down = down;
        this.chanceUp = chanceUp;
        this.mass = new double[limit];
        this.next = new double[limit];
        mass[0] = 1;
    }

    @Override
    public double step() {
        java.util.Arrays.fill(next, 0);
        double signal = 0;
        for (int state = 0; state < mass.length; state++) {
            double here = mass[state];
            if (here == 0) {
                continue;
            }
            int higher = state + up;
            if (higher >= mass.length) {
                signal += here * chanceUp;
            } else {
                next[higher] += here * chanceUp;
            }
            next[Math.max(0, state - down)] += here * (1 - chanceUp);
        }
        double[] swap = mass;
        mass = next;
        next = swap;
        return signal;
    }

    @Override
    public double alive() {
        return java.util.Arrays.stream(mass).sum();
    }

    @Override
    public String method() {
        return "exact Markov chain on an integer lattice of " + mass.length + " states";
    }
}
