package org.sideport.demo;

/** Smooth value noise with a fixed pattern for each seed, for textures and small tremors. */
record Noise(long seed) {

    /** @return -1 to 1, varying over about one unit of {@code x} and {@code y} */
    double at(double x, double y) {
        long column = (long) Math.floor(x);
        long row = (long) Math.floor(y);
        double u = ease(x - column);
        double v = ease(y - row);
        double top = lattice(column, row) * (1 - u) + lattice(column + 1, row) * u;
        double bottom = lattice(column, row + 1) * (1 - u) + lattice(column + 1, row + 1) * u;
        return top * (1 - v) + bottom * v;
    }

    /** Several octaves of {@link #at}, each twice as fine and half as strong. */
    double fractal(double x, double y, int octaves) {
        double sum = 0;
        double weight = 0.5;
        double scale = 1;
        for (int i = 0; i < octaves; i++) {
            sum += weight * at(x * scale + 17 * i, y * scale - 31 * i);
            weight /= 2;
            scale *= 2;
        }
        return sum;
    }

    /** 0 to 1, rising smoothly as {@code x} goes from 0 to 1, and flat beyond. */
    static double ease(double x) {
        double inside = Math.max(0, Math.min(1, x));
        return inside * inside * (3 - 2 * inside);
    }

    /** 0 to 1 while {@code x} goes from {@code from} to {@code to}. */
    static double ramp(double x, double from, double to) {
        return ease((x - from) / (to - from));
    }

    static double mix(double a, double b, double share) {
        return a + (b - a) * share;
    }

    // the finaliser of SplitMix64 (Steele et al. 2014), which spreads neighbouring numbers well
    private double lattice(long column, long row) {
        long z = seed * 0x9E3779B97F4A7C15L + column * 0xD1B54A32D192ED03L + row * 0x8CB92BA72F3D8DD7L;
        z = (z ^ z >>> 30) * 0xBF58476D1CE4E5B9L;
        z = (z ^ z >>> 27) * 0x94D049BB133111EBL;
        return ((z ^ z >>> 31) >>> 11) * 0x1.0p-52 - 1;
    }
}
