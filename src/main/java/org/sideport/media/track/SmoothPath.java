package org.sideport.media.track;

/**
 * Places with their first and third derivatives by time, from a cubic fitted by least squares to the places within a window
 * around each (A. Savitzky, M. J. E. Golay, Analytical Chemistry 36 (1964) 1627–1639, here for times that need not be even).
 *
 * @param t seconds, ascending
 * @param jerkSquared squared size of the third derivative
 */
@SuppressWarnings("ArrayRecordComponent") // internal, never compared
record SmoothPath(double[] t, double[] x, double[] y, double[] speed, double[] jerkSquared) {

    private static final int COEFFICIENTS = 4;

    /** @param windowS whole width, seconds; where it holds fewer than five places it is widened to five */
    static SmoothPath of(double[] t, double[] x, double[] y, double windowS) {
        int n = t.length;
        double[] sx = new double[n];
        double[] sy = new double[n];
        double[] speed = new double[n];
        double[] jerk = new double[n];
        for (int i = 0; i < n; i++) {
            int from = i;
            int to = i + 1;
            while (from > 0 && t[i] - t[from - 1] <= windowS / 2 + 1e-9) {
                from--;
            }
            while (to < n && t[to] - t[i] <= windowS / 2 + 1e-9) {
                to++;
            }
            while (to - from < COEFFICIENTS + 1 && to - from < n) {
                boolean earlier = to == n || (from > 0 && t[i] - t[from - 1] <= t[to] - t[i]);
                from -= earlier ? 1 : 0;
                to += earlier ? 0 : 1;
            }
            double[] cx = cubic(t, x, from, to, t[i]);
            double[] cy = cubic(t, y, from, to, t[i]);
            sx[i] = cx[0];
            sy[i] = cy[0];
            speed[i] = Math.hypot(cx[1], cy[1]);
            jerk[i] = 36 * (cx[3] * cx[3] + cy[3] * cy[3]);
        }
        return new SmoothPath(t.clone(), sx, sy, speed, jerk);
    }

    /** Coefficients of powers of {@code t - at}; of lower degree where there are too few places. */
    private static double[] cubic(double[] t, double[] v, int from, int to, double at) {
        int terms = Math.min(COEFFICIENTS, to - from);
        double unit = Math.max(t[to - 1] - at, at - t[from]);
        if (unit <= 0) {
            return new double[] {v[from], 0, 0, 0};
        }
        double[][] m = new double[terms][terms + 1];
        for (int i = from; i < to; i++) {
            double u = (t[i] - at) / unit;
            double[] powers = {1, u, u * u, u * u * u};
            for (int r = 0; r < terms; r++) {
                for (int c = 0; c < terms; c++) {
                    m[r][c] += powers[r] * powers[c];
                }
                m[r][terms] += powers[r] * v[i];
            }
        }
        double[] solved = solve(m);
        double[] coefficients = new double[COEFFICIENTS];
        double scale = 1;
        for (int k = 0; k < terms; k++) {
            coefficients[k] = solved[k] / scale;
            scale *= unit;
        }
        return coefficients;
    }

    /** Gauss with the greatest pivot; the powers of different times are never dependent. */
    private static double[] solve(double[][] m) {
        int n = m.length;
        for (int c = 0; c < n; c++) {
            int pivot = c;
            for (int r = c + 1; r < n; r++) {
                pivot = Math.abs(m[r][c]) > Math.abs(m[pivot][c]) ? r : pivot;
            }
            double[] swap = m[c];
            m[c] = m[pivot];
            m[pivot] = swap;
            for (int r = c + 1; r < n; r++) {
                double f = m[r][c] / m[c][c];
                for (int k = c; k <= n; k++) {
                    m[r][k] -= f * m[c][k];
                }
            }
        }
        double[] solution = new double[n];
        for (int r = n - 1; r >= 0; r--) {
            double sum = m[r][n];
            for (int k = r + 1; k < n; k++) {
                sum -= m[r][k] * solution[k];
            }
            solution[r] = sum / m[r][r];
        }
        return solution;
    }

    /** Length of the way from place {@code from} to place {@code to}, inclusive. */
    double length(int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i]);
        }
        return sum;
    }
}
