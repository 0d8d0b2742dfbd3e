package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.complex.Complex;
import org.hipparchus.linear.RealMatrix;

/**
 * Third moments at one complex point, where the parts are independent: for D, the statistics less their conditional means,
 * {@code E[D D'AD] = δ (δ'Aδ + Σ tr AC) + Σ E[ε (ε'Aε + 2 ε'Aδ)]} with δ the mean of D at the point and ε, of covariance C,
 * what a part varies about its own mean. An entry of D is minus a score at an assessor and an item, minus a count at a step.
 */
final class TiltedCubes {

    private record Part(int[] scores, Complex[] p, int count, int assessor, int item, int[] steps) {

        Complex meanScore() {
            Complex mean = Complex.ZERO;
            for (int x = 0; x < p.length; x++) {
                mean = mean.add(p[x].multiply(scores[x]));
            }
            return mean;
        }

        /** The statistics of score x, times a vector. */
        Complex at(int x, Complex[] vector) {
            Complex product = vector[assessor].add(vector[item]).multiply(-scores[x]);
            return steps[x] < 0 ? product : product.subtract(vector[steps[x]]);
        }

        void addTo(Complex[] vector, int x, Complex weight) {
            vector[assessor] = vector[assessor].subtract(weight.multiply(scores[x]));
            vector[item] = vector[item].subtract(weight.multiply(scores[x]));
            if (steps[x] >= 0) {
                vector[steps[x]] = vector[steps[x]].subtract(weight);
            }
        }

        int[] places() {
            int[] places = Arrays.copyOf(steps, steps.length + 2);
            places[steps.length] = assessor;
            places[steps.length + 1] = item;
            return Arrays.stream(places).filter(place -> place >= 0).toArray();
        }
    }

    private final RealMatrix form;
    private final int[] touched;
    private final double[] mean;
    private final List<Part> parts = new ArrayList<>();

    TiltedCubes(RealMatrix form, int[] touched, double[] mean) {
        this.form = form;
        this.touched = touched;
        this.mean = mean;
    }

    void start() {
        parts.clear();
    }

    /** @param p tilted probabilities */
    void part(int[] scores, Complex[] p, int count, int assessor, int item, int[] steps) {
        parts.add(new Part(scores, p, count, assessor, item, steps));
    }

    /** @param weight of the point */
    void finish(Complex weight, double[] sums) {
        Complex[] delta = zeros();
        for (int place : touched) {
            delta[place] = new Complex(-mean[place]);
        }
        for (Part part : parts) {
            for (int x = 0; x < part.p.length; x++) {
                part.addTo(delta, x, part.p[x].multiply(part.count));
            }
        }
        Complex[] image = zeros();
        Complex common = Complex.ZERO;
        for (int i : touched) {
            image[i] = times(i, delta, touched);
            common = common.add(delta[i].multiply(image[i]));
        }
        Complex[] cubes = zeros();
        for (Part part : parts) {
            common = common.add(add(part, image, cubes).multiply(part.count));
        }
        for (int i : touched) {
            sums[i] += delta[i].multiply(common).add(cubes[i]).multiply(weight).getReal();
        }
    }

    /** Adds E[ε (ε'Aε + 2 ε'Aδ)] of all equal parts; gives tr AC of one. */
    private Complex add(Part part, Complex[] image, Complex[] cubes) {
        int[] places = part.places();
        Complex[] own = zeros();
        for (int x = 0; x < part.p.length; x++) {
            part.addTo(own, x, part.p[x]);
        }
        Complex[] ownImage = zeros();
        for (int place : places) {
            ownImage[place] = times(place, own, places);
        }
        // own·image for A δ and for A own, as means over the scores
        Complex ownDelta = Complex.ZERO;
        Complex ownOwn = Complex.ZERO;
        for (int x = 0; x < part.p.length; x++) {
            ownDelta = ownDelta.add(part.p[x].multiply(part.at(x, image)));
            ownOwn = ownOwn.add(part.p[x].multiply(part.at(x, ownImage)));
        }
        Complex trace = Complex.ZERO;
        Complex whole = Complex.ZERO;
        for (int x = 0; x < part.p.length; x++) {
            Complex square = ownOwn.subtract(part.at(x, ownImage).multiply(2)).add(square(part, x));
            trace = trace.add(part.p[x].multiply(square));
            Complex term = part.p[x].multiply(
                    square.add(part.at(x, image).subtract(ownDelta).multiply(2)));
            whole = whole.add(term);
            part.addTo(cubes, x, term.multiply(part.count));
        }
        for (int place : Arrays.stream(places).distinct().toArray()) {
            cubes[place] = cubes[place].subtract(own[place].multiply(whole).multiply(part.count));
        }
        return trace;
    }

    private double square(Part part, int x) {
        int s = part.scores[x];
        int a = part.assessor;
        int i = part.item;
        double square = s * s * (form.getEntry(a, a) + form.getEntry(i, i) + 2 * form.getEntry(a, i));
        int step = part.steps[x];
        return step < 0
                ? square
                : square + 2 * s * (form.getEntry(a, step) + form.getEntry(i, step)) + form.getEntry(step, step);
    }

    private Complex times(int row, Complex[] vector, int[] places) {
        Complex sum = Complex.ZERO;
        for (int place : places) {
            sum = sum.add(vector[place].multiply(form.getEntry(row, place)));
        }
        return sum;
    }

    private Complex[] zeros() {
        Complex[] zeros = new Complex[mean.length];
        Arrays.fill(zeros, Complex.ZERO);
        return zeros;
    }
}
