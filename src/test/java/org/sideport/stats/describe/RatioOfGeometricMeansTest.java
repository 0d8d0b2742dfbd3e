package org.sideport.stats.describe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

class RatioOfGeometricMeansTest {

    /** Student's sleep data, as in R: Welch's t.test prints the limits −3.3654832 and 0.2054832 for the difference. */
    private static final double[] FIRST = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};

    private static final double[] SECOND = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};

    private static double[] exp(double[] logs) {
        return Arrays.stream(logs).map(Math::exp).toArray();
    }

    @Test
    void theLogarithmsOfItsLimitsAreWelchs() {
        Estimate ratio = RatioOfGeometricMeans.of(exp(FIRST), exp(SECOND), 0.95).orElseThrow();
        Interval limits = Objects.requireNonNull(ratio.limits());
        assertThat(Math.log(limits.lower())).isCloseTo(-3.3654832, within(5e-8));
        assertThat(Math.log(limits.upper())).isCloseTo(0.2054832, within(5e-8));
        // means 0.75 and 2.33
        assertThat(Math.log(ratio.value())).isCloseTo(-1.58, within(1e-12));
        assertThat(ratio.n()).isEqualTo(20);
    }

    @Test
    void tooFewOrUnfitValuesAreRefusedWithTheReason() {
        assertThat(reason(new double[] {1, 2}, new double[] {1, 2, 3})).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(new double[] {1, 2, 0}, new double[] {1, 2, 3})).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(reason(new double[] {2, 2, 2}, new double[] {3, 3, 3})).isEqualTo(Refusal.Reason.NO_VARIATION);
    }

    private static Refusal.Reason reason(double[] of, double[] to) {
        return ((Outcome.Refused<Estimate>) RatioOfGeometricMeans.of(of, to, 0.95))
                .refusal()
                .reason();
    }
}
