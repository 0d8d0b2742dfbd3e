package org.sideport.app.timeline;

/**
 * Values with the least and greatest of every power-of-two block, so that those of any stretch are found in about
 * {@code 2 log2 n} steps: a curve of any length is drawn at the cost of its width. Values that are not numbers are
 * unknown and skipped. Immutable.
 */
public final class MinMaxPyramid {

    private final int size;
    /** Leaves in the upper half, each parent at half the place of its two children. */
    private final float[] least;

    private final float[] greatest;

    public MinMaxPyramid(float[] values) {
        size = values.length;
        least = new float[2 * size];
        greatest = new float[2 * size];
        System.arraycopy(values, 0, least, size, size);
        System.arraycopy(values, 0, greatest, size, size);
        for (int i = size - 1; i > 0; i--) {
            least[i] = lesser(least[2 * i], least[2 * i + 1]);
            greatest[i] = greater(greatest[2 * i], greatest[2 * i + 1]);
        }
    }

    public int size() {
        return size;
    }

    public float value(int i) {
        return least[size + i];
    }

    /** Least of the values from {@code from} to before {@code to}; not a number where there is none. */
    public float min(int from, int to) {
        float result = Float.NaN;
        int left = Math.max(0, from) + size;
        int right = Math.min(size, to) + size;
        while (left < right) {
            if ((left & 1) == 1) {
                result = lesser(result, least[left++]);
            }
            if ((right & 1) == 1) {
                result = lesser(result, least[--right]);
            }
            left >>= 1;
            right >>= 1;
        }
        return result;
    }

    /** Greatest of the values from {@code from} to before {@code to}; not a number where there is none. */
    public float max(int from, int to) {
        float result = Float.NaN;
        int left = Math.max(0, from) + size;
        int right = Math.min(size, to) + size;
        while (left < right) {
            if ((left & 1) == 1) {
                result = greater(result, greatest[left++]);
            }
            if ((right & 1) == 1) {
                result = greater(result, greatest[--right]);
            }
            left >>= 1;
            right >>= 1;
        }
        return result;
    }

    private static float lesser(float a, float b) {
        return a <= b || Float.isNaN(b) ? a : b;
    }

    private static float greater(float a, float b) {
        return a >= b || Float.isNaN(b) ? a : b;
    }
}
