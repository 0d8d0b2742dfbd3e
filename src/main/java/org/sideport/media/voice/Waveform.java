package org.sideport.media.voice;

import java.nio.file.Path;
import java.util.Arrays;

/** The least and the greatest amplitude of every {@value #STEP_US} microseconds of a voice. Immutable. */
public final class Waveform {

    /** 50 steps a second. */
    public static final int STEP_US = 20_000;

    private static final int STEP = (int) ((long) VoiceWriter.RATE * STEP_US / 1_000_000);

    private final float[] least;
    private final float[] greatest;

    private Waveform(float[] least, float[] greatest) {
        this.least = least;
        this.greatest = greatest;
    }

    /**
     * @throws org.sideport.media.MediaException if the file is missing or cannot be read
     */
    public static Waveform of(Path file) {
        float[] least = new float[256];
        float[] greatest = new float[256];
        int samples = 0;
        try (VoiceReader reader = VoiceReader.open(file)) {
            for (short[] block = reader.next(); block != null; block = reader.next()) {
                for (short sample : block) {
                    int step = samples++ / STEP;
                    if (step == least.length) {
                        least = Arrays.copyOf(least, 2 * step);
                        greatest = Arrays.copyOf(greatest, 2 * step);
                    }
                    float value = sample / 32768f;
                    boolean first = samples % STEP == 1;
                    least[step] = first ? value : Math.min(least[step], value);
                    greatest[step] = first ? value : Math.max(greatest[step], value);
                }
            }
        }
        int steps = (samples + STEP - 1) / STEP;
        return new Waveform(Arrays.copyOf(least, steps), Arrays.copyOf(greatest, steps));
    }

    public int size() {
        return least.length;
    }

    /** @return -1 to 1 */
    public float least(int step) {
        return least[step];
    }

    /** @return -1 to 1 */
    public float greatest(int step) {
        return greatest[step];
    }
}
