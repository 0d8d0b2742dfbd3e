package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class MachineHumTest {

    private final EyeScript script = EyeScripts.second();

    @Test
    void asManySamplesSoundAsThePictureLasts() {
        MachineHum hum = new MachineHum(script);
        long samples = 0;
        for (int frame = 0; frame < script.clock().frames(); frame++) {
            samples += hum.frame(frame).length;
        }
        assertThat(samples).isEqualTo(script.clock().duration().micros() * 48_000 / 1_000_000);
    }

    @Test
    void groovingSoundsHigherThanAPauseAndTheTitleIsSilent() {
        MachineHum hum = new MachineHum(script);
        int grooving = middleOf("sculpting");
        int pause = middleOf(Act.PAUSE);
        int crossingsGrooving = 0;
        int crossingsPause = 0;
        for (int frame = 0; frame < script.clock().frames(); frame++) {
            float[] samples = hum.frame(frame);
            if (frame < 10) {
                for (float sample : samples) {
                    assertThat(Math.abs(sample)).isZero();
                }
            } else if (frame >= grooving && frame < grooving + 25) {
                crossingsGrooving += crossings(samples);
            } else if (frame >= pause && frame < pause + 25) {
                crossingsPause += crossings(samples);
            }
        }
        assertThat(crossingsGrooving).isGreaterThan(2 * crossingsPause);
    }

    private int middleOf(String what) {
        Act act = script.acts().stream()
                .filter(a -> a.what().equals(what))
                .findFirst()
                .orElseThrow();
        return (act.from() + act.to()) / 2;
    }

    /** Upward crossings of zero, of a version smoothed over a millisecond. */
    private static int crossings(float[] samples) {
        int count = 0;
        double last = 0;
        for (int i = 48; i < samples.length; i += 8) {
            double mean = 0;
            for (int k = i - 48; k < i; k++) {
                mean += samples[k];
            }
            if (last < 0 && mean >= 0) {
                count++;
            }
            last = mean;
        }
        return count;
    }
}
