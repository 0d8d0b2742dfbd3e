package org.sideport.stats.regression;

/**
 * How much an observation counts by its residual in units of the scale. The constants give 95 % efficiency with normal
 * errors (Huber 1981, Robust Statistics; Holland & Welsch 1977, Communications in Statistics A6:813, table 1).
 */
public enum RobustLoss {
    /** Full weight up to 1.345 scales, then falling like 1/distance: far values still pull. */
    HUBER(1.345) {
        @Override
        public double weight(double scaled) {
            double distance = Math.abs(scaled);
            return distance <= tuning() ? 1 : tuning() / distance;
        }

        @Override
        double influenceSlope(double scaled) {
            return Math.abs(scaled) <= tuning() ? 1 : 0;
        }
    },
    /** Tukey's: the weight falls smoothly to 0 at 4.685 scales, beyond which values do not count at all. */
    BISQUARE(4.685) {
        @Override
        public double weight(double scaled) {
            double share = scaled / tuning();
            double rest = 1 - share * share;
            return rest > 0 ? rest * rest : 0;
        }

        @Override
        double influenceSlope(double scaled) {
            double share = scaled / tuning();
            double t = share * share;
            return t < 1 ? (1 - t) * (1 - 5 * t) : 0;
        }
    };

    private final double tuning;

    RobustLoss(double tuning) {
        this.tuning = tuning;
    }

    public double tuning() {
        return tuning;
    }

    /**
     * @param scaled residual divided by the scale
     * @return 0 to 1
     */
    public abstract double weight(double scaled);

    /** Derivative of the influence {@code scaled · weight(scaled)}. */
    abstract double influenceSlope(double scaled);
}
