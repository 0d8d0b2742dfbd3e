package org.sideport.media.trace;

import java.util.Arrays;
import org.sideport.media.SmallPicture;

/**
 * What has changed from one small picture to the next, by blocks of 8 × 8.
 *
 * <p>The displacement of the whole picture (a pan of the microscope, a turn of the eye) is searched first on pictures
 * reduced four times; then each block with texture is searched around it and around its own place by the least sum of
 * absolute differences, both pictures' means taken off. A block counts as not found where the correlation at the best
 * place is below one half: a change of light scales a block and leaves its correlation as it was.
 *
 * <p>The change of block means is measured after the picture before has been moved by the median displacement of its
 * blocks, to the pixel; the least change within one pixel around counts, which takes in a slow zoom.
 *
 * @param activity see {@link TraceKind#ACTIVITY}
 * @param motion see {@link TraceKind#MOTION}
 * @param sceneChange see {@link TraceKind#SCENE_CHANGE}
 */
record PictureChange(double activity, double motion, double sceneChange) {

    static final PictureChange NONE = new PictureChange(0, 0, 0);

    private static final int BLOCK = 8;
    private static final int REDUCE = 4;
    /** Greatest displacement of the whole picture, in reduced pixels: a tenth of the usual width. */
    private static final int FAR = 4;

    private static final int NEAR = 3;
    /** Standard deviation of brightness from which on a block has texture that noise does not make. */
    private static final double TEXTURE = 8;

    private static final double FOUND = 0.5;
    /** With fewer blocks with texture than this share nothing can be said of the scene. */
    private static final double FEWEST = 0.02;

    static PictureChange between(SmallPicture before, SmallPicture now) {
        int width = now.width();
        int columns = width / BLOCK;
        int rows = now.height() / BLOCK;
        if (columns == 0 || rows == 0 || before.width() != width || before.height() != now.height()) {
            return NONE;
        }
        byte[] a = before.luma();
        byte[] b = now.luma();
        int lightening = (int) Math.round(PictureMeasures.mean(b) - PictureMeasures.mean(a));
        int[] whole = wholeDisplacement(before, now, lightening);
        double[] dx = new double[columns * rows];
        double[] dy = new double[columns * rows];
        int textured = 0;
        int lost = 0;
        int found = 0;
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                int x = column * BLOCK;
                int y = row * BLOCK;
                boolean hadTexture = deviation(a, width, x, y) >= TEXTURE;
                double texture = deviation(b, width, x, y);
                if (!hadTexture && texture < TEXTURE) {
                    continue;
                }
                int[] best = search(before, now, x, y, whole, lightening);
                if (texture >= TEXTURE) {
                    textured++;
                    if (correlation(a, b, width, x, y, best[0], best[1]) < FOUND) {
                        lost++;
                    } else {
                        dx[found] = best[0];
                        dy[found++] = best[1];
                    }
                } else {
                    textured++;
                    // smooth now, and nothing smooth near before: the texture has gone
                    boolean gone = texture < TEXTURE / 2 && deviation(a, width, x + best[0], y + best[1]) >= TEXTURE;
                    lost += gone ? 1 : 0;
                }
            }
        }
        int moveX = (int) Math.round(Numbers.median(Arrays.copyOf(dx, found)));
        int moveY = (int) Math.round(Numbers.median(Arrays.copyOf(dy, found)));
        double scene = textured < Math.max(4, FEWEST * columns * rows) ? 0 : (double) lost / textured;
        return new PictureChange(
                BlockMeans.change(before, now, moveX, moveY), motion(dx, dy, found, textured, width), scene);
    }

    private static double motion(double[] dx, double[] dy, int found, int textured, int width) {
        if (found == 0) {
            return 0;
        }
        double middleX = Numbers.median(Arrays.copyOf(dx, found));
        double middleY = Numbers.median(Arrays.copyOf(dy, found));
        double sum = 0;
        for (int i = 0; i < found; i++) {
            sum += Math.hypot(dx[i] - middleX, dy[i] - middleY);
        }
        return 100 * sum / textured / width;
    }

    /** Where the picture now comes from, pixels: what is at (x, y) was at (x + result 0, y + result 1). */
    private static int[] wholeDisplacement(SmallPicture before, SmallPicture now, int lightening) {
        int width = now.width() / REDUCE;
        int height = now.height() / REDUCE;
        int[] a = reduced(before, width, height);
        int[] b = reduced(now, width, height);
        int[] best = {0, 0};
        double least = Double.MAX_VALUE;
        for (int dy = -FAR; dy <= FAR; dy++) {
            for (int dx = -FAR; dx <= FAR; dx++) {
                double difference = meanDifference(a, b, width, height, dx, dy, lightening);
                // standing still wins unless another place is clearly better
                double weighted = dx == 0 && dy == 0 ? difference * 0.9 : difference;
                if (weighted < least) {
                    least = weighted;
                    best = new int[] {dx * REDUCE, dy * REDUCE};
                }
            }
        }
        return best;
    }

    private static double meanDifference(int[] a, int[] b, int width, int height, int dx, int dy, int lightening) {
        long sum = 0;
        int count = 0;
        for (int y = Math.max(0, -dy); y < Math.min(height, height - dy); y++) {
            for (int x = Math.max(0, -dx); x < Math.min(width, width - dx); x++) {
                sum += Math.abs(b[y * width + x] - lightening - a[(y + dy) * width + x + dx]);
                count++;
            }
        }
        return count == 0 ? Double.MAX_VALUE : (double) sum / count;
    }

    private static int[] reduced(SmallPicture picture, int width, int height) {
        int[] small = new int[width * height];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int sum = 0;
                for (int i = 0; i < REDUCE; i++) {
                    for (int j = 0; j < REDUCE; j++) {
                        sum += picture.luma()[(y * REDUCE + i) * picture.width() + x * REDUCE + j] & 255;
                    }
                }
                small[y * width + x] = sum / (REDUCE * REDUCE);
            }
        }
        return small;
    }

    private static int[] search(SmallPicture before, SmallPicture now, int x, int y, int[] whole, int lightening) {
        int[] best = {0, 0};
        int least = difference(before, now, x, y, 0, 0, lightening, Integer.MAX_VALUE);
        // standing still wins against chance: two grey levels a pixel
        least = Math.max(0, least - 2 * BLOCK * BLOCK);
        int[][] centres = whole[0] == 0 && whole[1] == 0 ? new int[][] {whole} : new int[][] {whole, {0, 0}};
        for (int[] centre : centres) {
            for (int dy = centre[1] - NEAR; dy <= centre[1] + NEAR; dy++) {
                for (int dx = centre[0] - NEAR; dx <= centre[0] + NEAR; dx++) {
                    boolean inside = x + dx >= 0
                            && y + dy >= 0
                            && x + dx + BLOCK <= now.width()
                            && y + dy + BLOCK <= now.height();
                    if (inside) {
                        int difference = difference(before, now, x, y, dx, dy, lightening, least);
                        if (difference < least) {
                            least = difference;
                            best = new int[] {dx, dy};
                        }
                    }
                }
            }
        }
        return best;
    }

    private static int difference(
            SmallPicture before, SmallPicture now, int x, int y, int dx, int dy, int lightening, int enough) {
        int width = now.width();
        int sum = 0;
        for (int i = 0; i < BLOCK && sum < enough; i++) {
            int at = (y + i) * width + x;
            int from = (y + i + dy) * width + x + dx;
            for (int j = 0; j < BLOCK; j++) {
                sum += Math.abs((now.luma()[at + j] & 255) - lightening - (before.luma()[from + j] & 255));
            }
        }
        return sum;
    }

    private static double correlation(byte[] a, byte[] b, int width, int x, int y, int dx, int dy) {
        double meanA = blockMean(a, width, x + dx, y + dy);
        double meanB = blockMean(b, width, x, y);
        double aa = 0;
        double bb = 0;
        double ab = 0;
        for (int i = 0; i < BLOCK; i++) {
            for (int j = 0; j < BLOCK; j++) {
                double da = (a[(y + i + dy) * width + x + j + dx] & 255) - meanA;
                double db = (b[(y + i) * width + x + j] & 255) - meanB;
                aa += da * da;
                bb += db * db;
                ab += da * db;
            }
        }
        return aa == 0 || bb == 0 ? 0 : ab / Math.sqrt(aa * bb);
    }

    private static double blockMean(byte[] luma, int width, int x, int y) {
        int sum = 0;
        for (int i = 0; i < BLOCK; i++) {
            for (int j = 0; j < BLOCK; j++) {
                sum += luma[(y + i) * width + x + j] & 255;
            }
        }
        return (double) sum / (BLOCK * BLOCK);
    }

    private static double deviation(byte[] luma, int width, int x, int y) {
        double mean = blockMean(luma, width, x, y);
        double sum = 0;
        for (int i = 0; i < BLOCK; i++) {
            for (int j = 0; j < BLOCK; j++) {
                double d = (luma[(y + i) * width + x + j] & 255) - mean;
                sum += d * d;
            }
        }
        return Math.sqrt(sum / (BLOCK * BLOCK));
    }
}
