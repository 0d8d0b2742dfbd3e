package org.sideport.stats.regression;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.MathContext;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

/** Against decimal arithmetic with 60 digits. */
class DoubleDoubleTest {

    private static final MathContext MANY = new MathContext(60);

    private static BigDecimal exact(DoubleDouble value) {
        return new BigDecimal(value.hi()).add(new BigDecimal(value.lo()));
    }

    private static void close(DoubleDouble found, BigDecimal expected) {
        BigDecimal scale = expected.abs().max(new BigDecimal("1e-200"));
        assertThat(exact(found).subtract(expected).abs().divide(scale, MANY)).isLessThan(new BigDecimal("1e-30"));
    }

    @Property(tries = 300)
    void theFourOperationsAndTheRootKeepThirtyDigits(
            @ForAll @DoubleRange(min = -1e8, max = 1e8) double a,
            @ForAll @DoubleRange(min = 0.01, max = 1e8) double b,
            @ForAll @DoubleRange(min = 0.5, max = 1.0) double c) {
        DoubleDouble third = DoubleDouble.of(a).dividedBy(DoubleDouble.of(3));
        DoubleDouble seventh = DoubleDouble.of(b).dividedBy(DoubleDouble.of(7));
        close(third, new BigDecimal(a).divide(BigDecimal.valueOf(3), MANY));
        close(third.times(seventh), exact(third).multiply(exact(seventh)));
        close(third.dividedBy(seventh), exact(third).divide(exact(seventh), MANY));
        close(seventh.sqrt(), exact(seventh).sqrt(MANY));
        DoubleDouble sum = third.plus(seventh);
        BigDecimal larger = exact(third).abs().max(exact(seventh));
        assertThat(exact(sum).subtract(exact(third).add(exact(seventh))).abs().divide(larger, MANY))
                .isLessThan(new BigDecimal("1e-30"));
        close(DoubleDouble.of(a).plus(DoubleDouble.of(c)), new BigDecimal(a).add(new BigDecimal(c)));
        assertThat(third.minus(third).value()).isZero();
    }

    @Test
    void whatADoubleLosesIsKept() {
        DoubleDouble tiny = DoubleDouble.ONE.plus(DoubleDouble.of(1e-25));
        assertThat(tiny.value()).isEqualTo(1);
        assertThat(tiny.minus(DoubleDouble.ONE).value()).isEqualTo(1e-25);
        assertThat(DoubleDouble.of(1e16)
                        .plus(DoubleDouble.ONE)
                        .minus(DoubleDouble.of(1e16))
                        .value())
                .isEqualTo(1);
        assertThat(DoubleDouble.ZERO.sqrt().value()).isZero();
        assertThat(DoubleDouble.of(-1).sqrt().value()).isZero();
        assertThat(DoubleDouble.of(2)
                        .sqrt()
                        .times(DoubleDouble.of(2).sqrt())
                        .minus(DoubleDouble.of(2))
                        .value())
                .isBetween(-1e-30, 1e-30);
    }
}
