package org.sideport.demo;

import java.util.Random;

/** The sound of the machine: a soft hum whose pitch rises with what the foot pedal asks for. */
final class MachineHum {

    static final int RATE = 48_000;

    private static final double TURN = 2 * Math.PI;

    private final EyeScript script;
    private final Random breath;
    private double phase;
    private double pitch = 95;
    private double loudness;
    private long made;

    MachineHum(EyeScript script) {
        this.script = script;
        this.breath = new Random(script.look().seed());
    }

    /** The samples that sound during one frame; frames must be asked for in order from 0. */
    float[] frame(int frame) {
        FrameClock clock = script.clock();
        long end = Math.round((frame + 1) * (double) RATE * clock.den() / clock.num());
        float[] samples = new float[(int) (end - made)];
        made = end;
        String what = script.actAt(frame).what();
        double wantedPitch = pitchOf(what, clock.seconds(frame));
        double wantedLoudness = loudnessOf(what);
        for (int i = 0; i < samples.length; i++) {
            // a twentieth of a second to follow the pedal
            pitch += (wantedPitch - pitch) * 20 / RATE;
            loudness += (wantedLoudness - loudness) * 20 / RATE;
            phase = (phase + TURN * pitch / RATE) % TURN;
            double tone = Math.sin(phase) + 0.32 * Math.sin(2 * phase) + 0.12 * Math.sin(3 * phase);
            samples[i] = (float) (loudness * (tone + 0.05 * breath.nextGaussian()));
        }
        return samples;
    }

    private static double pitchOf(String what, double seconds) {
        return switch (what) {
            case "sculpting" -> 310 + 90 * Math.max(0, Math.sin(seconds * 5.2));
            case "division" -> 260;
            case "fragment_removal" -> 330 + 60 * Math.max(0, Math.sin(seconds * 3.4));
            case "cortex_aspiration", "ovd_removal" -> 205 + 20 * Math.sin(seconds * 2.2);
            case "capsule_polishing" -> 165;
            default -> 95;
        };
    }

    private static double loudnessOf(String what) {
        return switch (what) {
            case Act.TITLE, Act.BLANK -> 0;
            case "sculpting", "division", "fragment_removal" -> 0.10;
            case "cortex_aspiration", "ovd_removal", "capsule_polishing" -> 0.08;
            default -> 0.04;
        };
    }
}
