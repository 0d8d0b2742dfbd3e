package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.complex.Complex;
import org.hipparchus.linear.RealMatrix;

/**
 * A sum of independent scores: the probability that it has one value, and mean and covariance of the sufficient statistics
 * of the structural parameters given that value. In the second moments complex numbers are pairs of doubles: a matrix of
 * objects would cost more than the arithmetic.
 */
final class TiltedSum {

    /** Terms that are smaller than this, in logs, do not show in a double beside the whole. */
    private static final double NEGLIGIBLE = -60;

    private record Part(int[] scores, double[] p, int count, int assessor, int item, int[] steps) {}

    private final List<Part> parts = new ArrayList<>();
    private final int size;

    TiltedSum(int size) {
        this.size = size;
    }

    /**
     * @param p probability of each score
     * @param count of independent equal parts
     * @param steps place of each score's ψ, −1 for none
     */
    void add(int[] scores, double[] p, int count, int assessor, int item, int[] steps) {
        parts.add(new Part(scores, p, count, assessor, item, steps));
    }

    /**
     * @param highest greatest possible sum, the least being 0
     * @param gradient the conditional means are taken off
     * @param information the conditional covariances are added
     * @return probability of the total
     */
    double condition(int total, int highest, double[] gradient, double[][] information) {
        int[] touched = touched();
        int[] place = new int[size];
        for (int i = 0; i < touched.length; i++) {
            place[touched[i]] = i;
        }
        Moments sums = new Moments(touched.length);
        points(total, highest, (t, gr, gi, real, imaginary) -> {
            sums.probability += gr;
            addMoments(t, gr, gi, real, imaginary, place, sums);
        });
        for (int i = 0; i < touched.length; i++) {
            double mean = sums.first[i] / sums.probability;
            gradient[touched[i]] -= mean;
            for (int j = 0; j < touched.length; j++) {
                information[touched[i]][touched[j]] +=
                        sums.second[i][j] / sums.probability - mean * sums.first[j] / sums.probability;
            }
        }
        return sums.probability;
    }

    /**
     * Adds the conditional covariance of each statistic with a quadratic form of all of them about their means.
     *
     * @param form symmetric
     */
    void cubes(int total, int highest, RealMatrix form, double[] sums) {
        double[] mean = new double[size];
        double probability = condition(total, highest, mean, new double[size][size]);
        int[] touched = touched();
        for (int i = 0; i < size; i++) {
            mean[i] = -mean[i];
        }
        TiltedCubes cubes = new TiltedCubes(form, touched, mean);
        points(total, highest, (t, gr, gi, real, imaginary) -> {
            cubes.start();
            for (int c = 0; c < real.length; c++) {
                Part part = parts.get(c);
                Complex[] tilted = new Complex[part.p.length];
                for (int x = 0; x < tilted.length; x++) {
                    double angle = t * part.scores[x];
                    tilted[x] = new Complex(part.p[x] * Math.cos(angle), part.p[x] * Math.sin(angle))
                            .divide(new Complex(real[c], imaginary[c]));
                }
                cubes.part(part.scores, tilted, part.count, part.assessor, part.item, part.steps);
            }
            cubes.finish(new Complex(gr, gi).divide(probability), sums);
        });
    }

    private interface Point {
        void at(double t, double gr, double gi, double[] real, double[] imaginary);
    }

    private void points(int total, int highest, Point visitor) {
        int points = highest + 1;
        // An even number of points is shifted by half a step: none falls on π, where φ of an even chance is 0.
        double shift = points % 2 == 0 ? 0.5 : 0;
        for (int k = 0; 2 * (k + shift) < points; k++) {
            double t = 2 * Math.PI * (k + shift) / points;
            // the other half of the circle is the conjugate
            double weight = (k + shift == 0 ? 1 : 2) / (double) points;
            point(t, total, weight, visitor);
        }
    }

    private int[] touched() {
        boolean[] found = new boolean[size];
        for (Part part : parts) {
            found[part.assessor] = true;
            found[part.item] = true;
            for (int step : part.steps) {
                if (step >= 0) {
                    found[step] = true;
                }
            }
        }
        int[] places = new int[size];
        int count = 0;
        for (int i = 0; i < size; i++) {
            if (found[i]) {
                places[count++] = i;
            }
        }
        return Arrays.copyOf(places, count);
    }

    private static final class Moments {
        double probability;
        final double[] first;
        final double[][] second;

        Moments(int size) {
            first = new double[size];
            second = new double[size][size];
        }
    }

    private void point(double t, int total, double weight, Point visitor) {
        double log = 0;
        double angle = -t * total;
        double least = 0;
        double nextLeast = 0;
        double[] real = new double[parts.size()];
        double[] imaginary = new double[parts.size()];
        for (int c = 0; c < real.length; c++) {
            Part part = parts.get(c);
            for (int k = 0; k < part.p.length; k++) {
                real[c] += part.p[k] * Math.cos(t * part.scores[k]);
                imaginary[c] += part.p[k] * Math.sin(t * part.scores[k]);
            }
            double size = Math.log(Math.max(Math.hypot(real[c], imaginary[c]), 1e-60));
            log += part.count * size;
            angle += part.count * Math.atan2(imaginary[c], real[c]);
            for (int m = 0; m < Math.min(2, part.count); m++) {
                if (size < least) {
                    nextLeast = least;
                    least = size;
                } else {
                    nextLeast = Math.min(nextLeast, size);
                }
            }
        }
        // Two factors are divided by below.
        if (log - least - nextLeast < NEGLIGIBLE) {
            return;
        }
        double gr = weight * Math.exp(log) * Math.cos(angle);
        double gi = weight * Math.exp(log) * Math.sin(angle);
        visitor.at(t, gr, gi, real, imaginary);
    }

    private void addMoments(
            double t, double gr, double gi, double[] real, double[] imaginary, int[] place, Moments sums) {
        int n = sums.first.length;
        double[] meanR = new double[n];
        double[] meanI = new double[n];
        for (int c = 0; c < real.length; c++) {
            Part part = parts.get(c);
            int k = part.p.length;
            int[] at = new int[k + 2];
            double[] r = new double[k + 2];
            double[] i = new double[k + 2];
            double squareR = 0;
            double squareI = 0;
            double norm = real[c] * real[c] + imaginary[c] * imaginary[c];
            at[k] = place[part.assessor];
            at[k + 1] = place[part.item];
            for (int x = 0; x < k; x++) {
                double cos = part.p[x] * Math.cos(t * part.scores[x]);
                double sin = part.p[x] * Math.sin(t * part.scores[x]);
                double qr = (cos * real[c] + sin * imaginary[c]) / norm;
                double qi = (sin * real[c] - cos * imaginary[c]) / norm;
                at[x] = part.steps[x] < 0 ? -1 : place[part.steps[x]];
                r[x] = -qr;
                i[x] = -qi;
                int s = part.scores[x];
                r[k] -= s * qr;
                i[k] -= s * qi;
                squareR += s * s * qr;
                squareI += s * s * qi;
            }
            r[k + 1] = r[k];
            i[k + 1] = i[k];
            for (int x = 0; x < k + 2; x++) {
                if (at[x] < 0) {
                    continue;
                }
                meanR[at[x]] += part.count * r[x];
                meanI[at[x]] += part.count * i[x];
                for (int y = 0; y < k + 2; y++) {
                    if (at[y] < 0) {
                        continue;
                    }
                    // E[uv] under the tilt: both score sums, score and category, one category, two categories
                    double er = 0;
                    double ei = 0;
                    if (x >= k && y >= k) {
                        er = squareR;
                        ei = squareI;
                    } else if (x >= k || y >= k) {
                        int category = Math.min(x, y);
                        er = -part.scores[category] * r[category];
                        ei = -part.scores[category] * i[category];
                    } else if (x == y) {
                        er = -r[x];
                        ei = -i[x];
                    }
                    double cr = er - (r[x] * r[y] - i[x] * i[y]);
                    double ci = ei - (r[x] * i[y] + i[x] * r[y]);
                    sums.second[at[x]][at[y]] += part.count * (gr * cr - gi * ci);
                }
            }
        }
        for (int x = 0; x < n; x++) {
            double hr = gr * meanR[x] - gi * meanI[x];
            double hi = gr * meanI[x] + gi * meanR[x];
            sums.first[x] += hr;
            for (int y = 0; y < n; y++) {
                sums.second[x][y] += hr * meanR[y] - hi * meanI[y];
            }
        }
    }
}
