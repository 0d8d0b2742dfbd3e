package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Chains whose run lengths follow by hand. */
class RunLengthTest {

    /** Signals with these probabilities at cases 1, 2, …; the last hazard goes on for ever. */
    private record Hazards(double lost, double... hazards) {

        RunChain chain() {
            return new RunChain() {
                private int cases;
                private double alive = 1;

                @Override
                public double step() {
                    double signal = alive * hazards[Math.min(cases, hazards.length - 1)];
                    cases++;
                    alive -= signal;
                    return signal;
                }

                @Override
                public double alive() {
                    return alive;
                }

                @Override
                public double lost() {
                    return lost;
                }

                @Override
                public String method() {
                    return "by hand";
                }
            };
        }
    }

    @Test
    void threeCasesAtMost() {
        // P(N = 1, 2, 3) = .2, .4, .4: mean 2.2, variance Σ n² p − 2.2² = 5.4 − 4.84
        RunLength run = RunLength.of(new Hazards(1e-4, .2, .5, 1).chain());
        assertThat(run.arl()).isCloseTo(2.2, within(1e-12));
        assertThat(run.sd()).isCloseTo(Math.sqrt(.56), within(1e-12));
        assertThat(run.median()).isEqualTo(2);
        assertThat(run.quantile(.1)).isEqualTo(1);
        assertThat(run.quantile(.61)).isEqualTo(3);
        assertThat(run.signalWithin(2)).isCloseTo(.6, within(1e-12));
        assertThat(run.signalWithin(3)).isEqualTo(1);
        assertThat(run.signalWithin(900)).isEqualTo(1);
        // what was lost could have lived for the three cases
        assertThat(run.error()).isCloseTo(3e-4, within(1e-15));
        assertThat(run.method()).isEqualTo("by hand");
    }

    @Test
    void silentStartAndThenAGeometricTail() {
        // no signal in 40 cases, then .02 a case: mean 40 + 50, SD √.98/.02, median 40 + ⌈ln .5/ln .98⌉ = 75
        double[] hazards = new double[41];
        hazards[40] = .02;
        RunLength run = RunLength.of(new Hazards(1e-3, hazards).chain());
        assertThat(run.arl()).isCloseTo(90, within(1e-8));
        assertThat(run.sd()).isCloseTo(Math.sqrt(.98) / .02, within(1e-7));
        assertThat(run.median()).isEqualTo(75);
        assertThat(run.quantile(.9999)).isEqualTo(40 + 456);
        assertThat(run.signalWithin(40)).isZero();
        assertThat(run.signalWithin(41)).isCloseTo(.02, within(1e-12));
        assertThat(run.signalWithin(400)).isCloseTo(1 - Math.pow(.98, 360), within(1e-12));
        // what was lost could have lived on as the rest does, 1/.02 cases
        assertThat(run.error()).isCloseTo((1e-3 + 1e-10) / .02, within(1e-9));
        assertThat(RunLength.of(new Hazards(0, hazards).chain()).error()).isCloseTo(1e-10 / .02, within(1e-11));
    }

    @Test
    void exactlyHalfIsEnoughForTheMedian() {
        RunLength run = RunLength.of(new Hazards(0, .5).chain());
        assertThat(run.median()).isEqualTo(1);
        assertThat(run.quantile(.75)).isEqualTo(2);
        assertThat(run.quantile(.7500001)).isEqualTo(3);
    }

    @Test
    void aSlowChangeOfTheHazardIsFollowed() {
        // falls from .02 to .01 over 400 cases; then constant
        double[] hazards = new double[401];
        double alive = 1;
        double mean = 0;
        for (int i = 0; i <= 400; i++) {
            hazards[i] = .02 - .01 * i / 400;
            if (i < 400) {
                mean += alive;
                alive *= 1 - hazards[i];
            }
        }
        RunLength run = RunLength.of(new Hazards(0, hazards).chain());
        assertThat(run.arl()).isCloseTo(mean + alive / .01, within(1e-8));
        // with a change by 60 % counting as none the chain is left before the fall is over
        assertThat(RunLength.of(new Hazards(0, hazards).chain(), .6).arl()).isNotCloseTo(run.arl(), within(.5));
    }

    @Test
    void withErrorAddsToIt() {
        RunLength run = RunLength.of(new Hazards(1e-4, .2, .5, 1).chain()).withError(.5, "other");
        assertThat(run.error()).isCloseTo(.5003, within(1e-12));
        assertThat(run.method()).isEqualTo("other");
        assertThat(run.arl()).isCloseTo(2.2, within(1e-12));
    }
}
