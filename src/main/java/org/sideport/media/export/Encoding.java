package org.sideport.media.export;

import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.export.SourceFiles.Part;

/**
 * How pictures are compressed.
 *
 * @param preset x264's trade of time for size
 * @param quality x264's constant rate factor: 18 hardly differs from the source, 28 is coarse
 * @param keySeconds most seconds from one key frame to the next
 * @param maxHeight coded rows to scale down to; 0 to keep the size
 */
record Encoding(String preset, int quality, int keySeconds, int maxHeight) {

    static final Encoding FAITHFUL = new Encoding("medium", 16, 2, 0);

    private static final int MAX_RATIO = 10_000;

    int height(Part part) {
        int height = maxHeight > 0 ? Math.min(maxHeight, part.height()) : part.height();
        return Math.max(2, height & ~1);
    }

    int width(Part part) {
        if (height(part) == (part.height() & ~1)) {
            return part.width() & ~1;
        }
        long width = Math.round(part.width() * (double) height(part) / part.height());
        return (int) Math.max(2, width + 1 & ~1L);
    }

    /** Pixel shape that keeps the picture's shape whatever rounding the new size took. */
    AVRational aspect(Part part, int width, int height) {
        long num = (long) part.aspectNum() * part.width() * height;
        long den = (long) part.aspectDen() * part.height() * width;
        if (width == (part.width() & ~1) && height == (part.height() & ~1)) {
            num = part.aspectNum();
            den = part.aspectDen();
        }
        long divisor = java.math.BigInteger.valueOf(num)
                .gcd(java.math.BigInteger.valueOf(den))
                .longValueExact();
        num /= divisor;
        den /= divisor;
        while (num > MAX_RATIO || den > MAX_RATIO) {
            num = Math.max(1, num / 2);
            den = Math.max(1, den / 2);
        }
        return new AVRational().num((int) num).den((int) den);
    }
}
