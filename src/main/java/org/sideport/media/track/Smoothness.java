package org.sideport.media.track;

/**
 * How smooth a movement is, by its jerk and by the spectrum of its speed. Without unit; greater (less negative) is smoother.
 */
public final class Smoothness {

    /** Highest frequency of the spectral measure, hertz, and its least amplitude: the authors' choice of 2015. */
    static final double CUT_HZ = 10;

    static final double LEAST_AMPLITUDE = 0.05;
    private static final int PADDING = 4;

    private Smoothness() {}

    /**
     * Dimensionless jerk {@code D⁵/A² ∫|x'''|² dt} with duration D and length of way A (N. Hogan, D. Sternad, Sensitivity of
     * smoothness measures to movement duration, amplitude, and arrests, Journal of Motor Behavior 41 (2009) 529–534). A
     * movement of least jerk, {@code x = A (10τ³ − 15τ⁴ + 6τ⁵)} with {@code τ = t/D} (T. Flash, N. Hogan, Journal of
     * Neuroscience 5 (1985) 1688–1703), has {@code ∫₀¹ (60 − 360τ + 360τ²)² dτ = 720}; with the factor ½ that some authors
     * put before the integral, 360.
     *
     * @param t seconds, ascending, at least two
     * @param jerkSquared squared size of the third derivative at these times
     * @param amplitude length of the way, positive
     */
    public static double dimensionlessJerk(double[] t, double[] jerkSquared, double amplitude) {
        double duration = t[t.length - 1] - t[0];
        return Math.pow(duration, 5) / (amplitude * amplitude) * integral(t, jerkSquared);
    }

    /**
     * Log dimensionless jerk {@code −ln(D³/v² ∫|x'''|² dt)} with the peak speed v (S. Balasubramanian, A. Melendez-Calderon,
     * A. Roby-Brami, E. Burdet, On the analysis of movement smoothness, Journal of NeuroEngineering and Rehabilitation 12
     * (2015) 112). For a movement of least jerk, whose peak speed is 1.875 A/D, it is {@code −ln(720/1.875²) = −5.322}.
     */
    public static double logDimensionlessJerk(double[] t, double[] jerkSquared, double peakSpeed) {
        double duration = t[t.length - 1] - t[0];
        return -Math.log(Math.pow(duration, 3) / (peakSpeed * peakSpeed) * integral(t, jerkSquared));
    }

    private static double integral(double[] t, double[] values) {
        double sum = 0;
        for (int i = 1; i < t.length; i++) {
            sum += (t[i] - t[i - 1]) * (values[i] + values[i - 1]) / 2;
        }
        return sum;
    }

    /**
     * Spectral arc length of the speed (S. Balasubramanian, A. Melendez-Calderon, E. Burdet, A robust and sensitive metric
     * for quantifying movement smoothness, IEEE Transactions on Biomedical Engineering 59 (2012) 2126–2136, in the form of
     * 2015): minus the length of the curve of the amplitude spectrum, divided by its value at 0, over the frequency divided by
     * the last one, up to 10 Hz, at which the amplitude is at least 0.05.
     *
     * @param speed at even times
     * @param hz how many of them a second
     */
    public static double spectralArcLength(double[] speed, double hz) {
        int size = (Integer.highestOneBit(Math.max(1, speed.length - 1)) * 2) << PADDING;
        double[] re = new double[size];
        double[] im = new double[size];
        System.arraycopy(speed, 0, re, 0, speed.length);
        transform(re, im);
        double zero = Math.hypot(re[0], im[0]);
        int last = 0;
        int highest = (int) Math.min(size / 2.0, Math.floor(CUT_HZ * size / hz));
        double[] amplitude = new double[highest + 1];
        for (int k = 0; k <= highest; k++) {
            amplitude[k] = Math.hypot(re[k], im[k]) / zero;
            last = amplitude[k] >= LEAST_AMPLITUDE ? k : last;
        }
        double length = 0;
        for (int k = 1; k <= last; k++) {
            length += Math.hypot(1.0 / last, amplitude[k] - amplitude[k - 1]);
        }
        return -length;
    }

    /** Fast Fourier transform in place (Cooley & Tukey 1965); the size is a power of two. */
    private static void transform(double[] re, double[] im) {
        int n = re.length;
        for (int i = 1, j = 0; i < n; i++) {
            int bit = n >> 1;
            for (; (j & bit) != 0; bit >>= 1) {
                j ^= bit;
            }
            j ^= bit;
            if (i < j) {
                double swap = re[i];
                re[i] = re[j];
                re[j] = swap;
                swap = im[i];
                im[i] = im[j];
                im[j] = swap;
            }
        }
        for (int length = 2; length <= n; length <<= 1) {
            for (int k = 0; k < length / 2; k++) {
                double cos = Math.cos(-2 * Math.PI * k / length);
                double sin = Math.sin(-2 * Math.PI * k / length);
                for (int i = k; i < n; i += length) {
                    int j = i + length / 2;
                    double a = re[j] * cos - im[j] * sin;
                    double b = re[j] * sin + im[j] * cos;
                    re[j] = re[i] - a;
                    im[j] = im[i] - b;
                    re[i] += a;
                    im[i] += b;
                }
            }
        }
    }
}
