package org.sideport.demo;

/** A colour while it is being mixed; red, green and blue each 0 to 255, and possibly beyond. */
record Tint(double red, double green, double blue) {

    Tint mixed(Tint other, double share) {
        double part = Math.max(0, Math.min(1, share));
        return new Tint(
                Noise.mix(red, other.red, part),
                Noise.mix(green, other.green, part),
                Noise.mix(blue, other.blue, part));
    }

    Tint lit(double factor) {
        return new Tint(red * factor, green * factor, blue * factor);
    }

    /** {@code 0xFFRRGGBB}. */
    int rgb() {
        return 0xFF << 24 | channel(red) << 16 | channel(green) << 8 | channel(blue);
    }

    private static int channel(double value) {
        return (int) Math.max(0, Math.min(255, Math.round(value)));
    }
}
