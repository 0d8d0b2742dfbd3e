package org.sideport.media;

/**
 * Tells how well decoded frames match one picture that another decoder has put on a screen. Both are reduced to the
 * brightness of {@value #ACROSS} by {@value #DOWN} areas; a difference in contrast and in general brightness is taken
 * out, since players convert colours each in their own way.
 */
public final class PictureMatcher {

    static final int ACROSS = 64;
    static final int DOWN = 36;

    /** Most pixels of an area that are looked at, in each direction. */
    private static final int SAMPLES = 6;

    private final float[] wanted;

    /**
     * @param bgra blue, green, red, alpha of each pixel, row by row, {@code width * 4} bytes a row
     */
    public PictureMatcher(int width, int height, byte[] bgra) {
        wanted = reduce(width, height, bgra);
    }

    /**
     * Root mean square of what is left between the areas after the best change of contrast and brightness, in levels of
     * 0 to 255; 0 for the same picture.
     */
    public double difference(FramePicture frame) {
        float[] other = reduce(frame.width(), frame.height(), frame.bgra());
        double sumX = 0;
        double sumY = 0;
        for (int i = 0; i < wanted.length; i++) {
            sumX += other[i];
            sumY += wanted[i];
        }
        double meanX = sumX / wanted.length;
        double meanY = sumY / wanted.length;
        double xx = 0;
        double yy = 0;
        double xy = 0;
        for (int i = 0; i < wanted.length; i++) {
            double x = other[i] - meanX;
            double y = wanted[i] - meanY;
            xx += x * x;
            yy += y * y;
            xy += x * y;
        }
        // a picture turned inside out is no match, however well a negative contrast would fit
        double explained = xx > 0 && xy > 0 ? xy * xy / xx : 0;
        return Math.sqrt(Math.max(0, yy - explained) / wanted.length);
    }

    /** Mean brightness of each area, row by row, from the same places of the picture whatever its size. */
    private static float[] reduce(int width, int height, byte[] bgra) {
        int[] columns = places(width, ACROSS);
        int[] rows = places(height, DOWN);
        float[] areas = new float[ACROSS * DOWN];
        for (int down = 0; down < DOWN; down++) {
            for (int across = 0; across < ACROSS; across++) {
                int sum = 0;
                for (int y = 0; y < SAMPLES; y++) {
                    int row = rows[down * SAMPLES + y] * width;
                    for (int x = 0; x < SAMPLES; x++) {
                        int at = (row + columns[across * SAMPLES + x]) * 4;
                        sum += 29 * (bgra[at] & 0xFF) + 150 * (bgra[at + 1] & 0xFF) + 77 * (bgra[at + 2] & 0xFF);
                    }
                }
                areas[down * ACROSS + across] = sum / (256f * SAMPLES * SAMPLES);
            }
        }
        return areas;
    }

    private static int[] places(int size, int areas) {
        int[] places = new int[areas * SAMPLES];
        for (int i = 0; i < places.length; i++) {
            places[i] = (int) ((i + 0.5) * size / places.length);
        }
        return places;
    }
}
