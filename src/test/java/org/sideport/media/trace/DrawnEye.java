package org.sideport.media.trace;

import java.util.Random;

/**
 * Draws one moment of a made-up operation: white with vessels, iris, red pupil, an instrument; or a drape; or nothing.
 * All that happens is decided by whoever draws, so that the truth about a recording is known before it is measured.
 */
final class DrawnEye {

    static final int WIDTH = 160;
    static final int HEIGHT = 120;

    private static final int TILE = 128;

    private final double[] texture = new double[TILE * TILE];
    private final Random random;
    private final double turn;
    private double offsetX;
    private double offsetY;

    /** Another number is another view: other vessels, turned and displaced. */
    DrawnEye(long view) {
        random = new Random(view);
        double[] raw = new double[TILE * TILE];
        for (int i = 0; i < raw.length; i++) {
            raw[i] = random.nextDouble() * 2 - 1;
        }
        for (int y = 0; y < TILE; y++) {
            for (int x = 0; x < TILE; x++) {
                double sum = 0;
                for (int dy = 0; dy < 2; dy++) {
                    for (int dx = 0; dx < 2; dx++) {
                        sum += raw[(y + dy) % TILE * TILE + (x + dx) % TILE];
                    }
                }
                texture[y * TILE + x] = sum / 2;
            }
        }
        turn = random.nextDouble() * 6;
        offsetX = (random.nextDouble() - 0.5) * 50;
        offsetY = (random.nextDouble() - 0.5) * 20;
    }

    /** The same eye at another place of the picture. */
    void displace(double pixels) {
        double direction = random.nextDouble() * 2 * Math.PI;
        // the middle of the eye moves by half the offset
        offsetX += 2 * pixels * Math.cos(direction);
        offsetY += 2 * pixels * Math.sin(direction);
    }

    /**
     * @param driftX the eye's place against its usual one, pixels
     * @param zoom 1 is usual
     * @param light 1 is usual; a filter takes some
     * @param tip of the instrument against the middle of the eye, pixels; {@code null} for none
     * @param blur radius of a box applied three times, pixels; 0 for none
     * @param noise standard deviation of the sensor's noise, grey levels
     */
    int[] eye(double driftX, double driftY, double zoom, double light, double[] tip, int blur, double noise) {
        double[][] rgb = new double[3][WIDTH * HEIGHT];
        double middleX = WIDTH / 2.0 + offsetX / 2 + driftX;
        double middleY = HEIGHT / 2.0 + offsetY / 2 + driftY;
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double dx = (x - middleX) / zoom;
                double dy = (y - middleY) / zoom;
                double r = Math.hypot(dx, dy);
                double t = tile(dx + 200, dy + 200);
                double angle = Math.atan2(dy, dx) + turn;
                int at = y * WIDTH + x;
                if (r < 22) {
                    set(rgb, at, 190 + 22 * t, 70 + 16 * t, 40 + 10 * t);
                } else if (r < 40) {
                    double spoke = Math.sin(angle * 17) * 22 + 18 * t;
                    set(rgb, at, 120 + spoke, 95 + spoke, 75 + spoke);
                } else {
                    set(rgb, at, 205 + 45 * t, 165 + 60 * t, 150 + 60 * t);
                }
                if (tip != null && isInstrument(x - middleX, y - middleY, tip)) {
                    double shine = (x + y) % 9 < 4 ? 30 : 0;
                    set(rgb, at, 70 + shine, 74 + shine, 82 + shine);
                }
            }
        }
        return finish(rgb, light, blur, noise);
    }

    /** The left part of one picture beside the right part of another, as when the view moves over an edge. */
    static int[] joined(int[] left, int[] right, int border) {
        int[] both = right.clone();
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < Math.max(0, Math.min(WIDTH, border)); x++) {
                both[y * WIDTH + x] = left[y * WIDTH + x];
            }
        }
        return both;
    }

    /** A drape: blue-green cloth with folds. */
    int[] drape(double driftX, double noise) {
        double[][] rgb = new double[3][WIDTH * HEIGHT];
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double t = tile(x + driftX + 50, y + 90) + Math.sin((x + y / 2.0 + driftX) / 9);
                set(rgb, y * WIDTH + x, 50 + 22 * t, 105 + 26 * t, 110 + 26 * t);
            }
        }
        return finish(rgb, 1, 0, noise);
    }

    int[] plain(int red, int green, int blue, double noise) {
        double[][] rgb = new double[3][WIDTH * HEIGHT];
        for (int at = 0; at < WIDTH * HEIGHT; at++) {
            set(rgb, at, red, green, blue);
        }
        return finish(rgb, 1, 0, noise);
    }

    /** A bar of 7 pixels from the tip to the right lower border. */
    private static boolean isInstrument(double dx, double dy, double[] tip) {
        double alongX = 0.86;
        double alongY = 0.5;
        double along = (dx - tip[0]) * alongX + (dy - tip[1]) * alongY;
        double across = -(dx - tip[0]) * alongY + (dy - tip[1]) * alongX;
        return along >= 0 && Math.abs(across) <= 3.5;
    }

    private double tile(double x, double y) {
        double rx = x * Math.cos(turn) - y * Math.sin(turn) + 1000;
        double ry = x * Math.sin(turn) + y * Math.cos(turn) + 1000;
        int left = (int) Math.floor(rx);
        int top = (int) Math.floor(ry);
        double fx = rx - left;
        double fy = ry - top;
        double a = at(left, top) * (1 - fx) + at(left + 1, top) * fx;
        double b = at(left, top + 1) * (1 - fx) + at(left + 1, top + 1) * fx;
        return a * (1 - fy) + b * fy;
    }

    private double at(int x, int y) {
        return texture[Math.floorMod(y, TILE) * TILE + Math.floorMod(x, TILE)];
    }

    private static void set(double[][] rgb, int at, double red, double green, double blue) {
        rgb[0][at] = red;
        rgb[1][at] = green;
        rgb[2][at] = blue;
    }

    private int[] finish(double[][] rgb, double light, int blur, double noise) {
        int[] argb = new int[WIDTH * HEIGHT];
        for (int round = 0; blur > 0 && round < 3; round++) {
            for (double[] plane : rgb) {
                box(plane, blur);
            }
        }
        for (int i = 0; i < argb.length; i++) {
            double grain = noise == 0 ? 0 : noise * random.nextGaussian();
            argb[i] = 0xFF000000
                    | level(rgb[0][i] * light + grain) << 16
                    | level(rgb[1][i] * light + grain) << 8
                    | level(rgb[2][i] * light + grain);
        }
        return argb;
    }

    private static int level(double value) {
        return (int) Math.max(0, Math.min(255, Math.round(value)));
    }

    private static void box(double[] plane, int radius) {
        double[] across = new double[plane.length];
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double sum = 0;
                for (int d = -radius; d <= radius; d++) {
                    sum += plane[y * WIDTH + Math.max(0, Math.min(WIDTH - 1, x + d))];
                }
                across[y * WIDTH + x] = sum / (2 * radius + 1);
            }
        }
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                double sum = 0;
                for (int d = -radius; d <= radius; d++) {
                    sum += across[Math.max(0, Math.min(HEIGHT - 1, y + d)) * WIDTH + x];
                }
                plane[y * WIDTH + x] = sum / (2 * radius + 1);
            }
        }
    }
}
