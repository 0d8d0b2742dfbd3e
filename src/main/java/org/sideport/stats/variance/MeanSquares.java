package org.sideport.stats.variance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * Variance components of balanced designs from analysis-of-variance mean squares set equal to their expectations
 * (Brennan 2001, Generalizability Theory, chapter 3; on balanced data the same as Henderson's method 1, Biometrics 1953,
 * 9:226). Unbiased, so that a component near zero may come out negative; it is left as it comes.
 */
public final class MeanSquares {

    public static final String METHOD = "mean squares";

    /**
     * A source of variance.
     *
     * @param facets bits of the facets that make it up, those it is nested in included; not 0
     * @param factor its levels
     */
    public record Source(int facets, Factor factor) {
        public Source {
            if (facets == 0) {
                throw new IllegalArgumentException("a source without a facet");
            }
        }
    }

    /**
     * A line of the analysis of variance.
     *
     * @param df degrees of freedom
     * @param meanSquare squared units of the values
     */
    public record Line(String name, int df, double sumOfSquares, double meanSquare) {}

    /**
     * @param lines one for each source, in the order given, then {@code residual} where cells hold several observations
     * @param components with standard errors from {@code 2 MS² / (df + 2)}, the unbiased estimate of a mean square's
     *     variance. Without replication the widest source is the residual
     */
    public record Table(List<Line> lines, VarianceComponents components) {
        public Table {
            lines = List.copyOf(lines);
        }
    }

    private MeanSquares() {}

    /** Whether every level of every source, and every combination of two sources, is seen equally often. */
    public static boolean balanced(List<Source> sources) {
        for (Source source : sources) {
            int[] counts = new int[source.factor().size()];
            for (int code : source.factor().codes()) {
                counts[code]++;
            }
            if (Arrays.stream(counts).distinct().count() != 1) {
                return false;
            }
        }
        for (Source a : sources) {
            for (Source b : sources) {
                long union = levels(sources, a.facets() | b.facets());
                long common = levels(sources, a.facets() & b.facets());
                if (union * common != (long) a.factor().size() * b.factor().size()) {
                    return false;
                }
            }
        }
        return true;
    }

    private static long levels(List<Source> sources, int facets) {
        return facets == 0
                ? 1
                : sources.stream()
                        .filter(s -> s.facets() == facets)
                        .mapToLong(s -> s.factor().size())
                        .findFirst()
                        .orElse(0);
    }

    /**
     * @param sources all of the design, closed under union and intersection, the widest (all facets) included
     * @return refused if the data are not balanced, a source has no degree of freedom, or nothing varies
     * @throws IllegalArgumentException if the widest source is missing
     */
    public static Outcome<Table> fit(double[] values, List<Source> sources) {
        int n = values.length;
        int size = sources.size();
        int all = sources.stream().mapToInt(Source::facets).reduce(0, (a, b) -> a | b);
        OptionalInt widest = IntStream.range(0, size)
                .filter(k -> sources.get(k).facets() == all)
                .findFirst();
        if (widest.isEmpty()) {
            throw new IllegalArgumentException("the source of all facets is missing");
        }
        if (!balanced(sources)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the design is not balanced: some combinations are missing or seen more often than others",
                    "use REML");
        }
        boolean replicated = sources.get(widest.getAsInt()).factor().size() < n;
        double mean = Arrays.stream(values).average().orElseThrow();
        double[] y = Arrays.stream(values).map(v -> v - mean).toArray();
        int rows = replicated ? size + 1 : size;
        double[] ss = new double[rows];
        int[] df = new int[rows];
        Integer[] narrowFirst = IntStream.range(0, size).boxed().toArray(Integer[]::new);
        Arrays.sort(
                narrowFirst,
                (a, b) -> Integer.compare(
                        Integer.bitCount(sources.get(a).facets()),
                        Integer.bitCount(sources.get(b).facets())));
        for (int k : narrowFirst) {
            ss[k] = between(y, sources.get(k).factor());
            df[k] = sources.get(k).factor().size() - 1;
            for (int m = 0; m < size; m++) {
                if (m != k && within(sources.get(m).facets(), sources.get(k).facets())) {
                    ss[k] -= ss[m];
                    df[k] -= df[m];
                }
            }
        }
        if (replicated) {
            ss[size] = Arrays.stream(y).map(v -> v * v).sum()
                    - between(y, sources.get(widest.getAsInt()).factor());
            df[size] = n - sources.get(widest.getAsInt()).factor().size();
        }
        for (int k = 0; k < rows; k++) {
            if (df[k] < 1) {
                return Outcome.refused(
                        Refusal.Reason.TOO_FEW,
                        "there is no degree of freedom for " + name(sources, k, rows, -1),
                        "collect data of at least two of each");
            }
        }
        if (Arrays.stream(y).allMatch(v -> Math.abs(v) <= 1e-12 * Math.abs(mean))) {
            return Outcome.refused(Refusal.Reason.NO_VARIATION, "all " + n + " values are the same", "check the data");
        }
        double[] ms = new double[rows];
        for (int k = 0; k < rows; k++) {
            ms[k] = ss[k] / df[k];
        }
        return Outcome.of(table(sources, replicated ? -1 : widest.getAsInt(), ss, df, ms, mean, n));
    }

    private static Table table(
            List<Source> sources, int residual, double[] ss, int[] df, double[] ms, double mean, int n) {
        int size = sources.size();
        int rows = ms.length;
        double[][] weights = weights(sources, rows, n);
        List<Line> lines = new ArrayList<>();
        List<VarianceComponent> components = new ArrayList<>();
        List<String> warnings = new ArrayList<>();
        VarianceComponent rest = null;
        for (int k = 0; k < rows; k++) {
            String name = name(sources, k, rows, residual);
            lines.add(new Line(name, df[k], ss[k], ms[k]));
            double variance = 0;
            double square = 0;
            for (int m = 0; m < rows; m++) {
                variance += weights[k][m] * ms[m];
                square += weights[k][m] * weights[k][m] * 2 * ms[m] * ms[m] / (df[m] + 2);
            }
            boolean last = name.equals("residual");
            int levels = last ? n : sources.get(k).factor().size();
            VarianceComponent component = new VarianceComponent(name, levels, variance, Math.sqrt(square));
            if (last) {
                rest = component;
            } else {
                components.add(component);
            }
            if (variance < 0) {
                warnings.add("the variance of " + name
                        + " comes out negative, which happens by chance where it is near 0;"
                        + " it is shown as it is and counts as 0 in coefficients");
            }
            if (k < size && levels < 5) {
                warnings.add("the variance of " + name + " rests on " + levels + " levels only and is uncertain");
            }
        }
        if (rest == null) {
            throw new IllegalStateException("no residual");
        }
        return new Table(lines, new VarianceComponents(components, rest, mean, null, n, null, METHOD, warnings));
    }

    /** {@code weights[k][m]}: how the component k is made of the mean squares m. */
    private static double[][] weights(List<Source> sources, int rows, int n) {
        int size = sources.size();
        double[][] weights = new double[rows][rows];
        Integer[] wideFirst = IntStream.range(0, rows).boxed().toArray(Integer[]::new);
        Arrays.sort(wideFirst, (a, b) -> Integer.compare(width(sources, b), width(sources, a)));
        for (int k : wideFirst) {
            weights[k][k] = 1;
            if (k == size) {
                continue;
            }
            // E(MS_k) = sum of (n / levels) variance over k and all sources that hold k, the residual included.
            for (int m = 0; m < rows; m++) {
                boolean wider = m == size
                        || m != k
                                && within(
                                        sources.get(k).facets(), sources.get(m).facets());
                if (wider) {
                    double times =
                            m == size ? 1 : (double) n / sources.get(m).factor().size();
                    for (int j = 0; j < rows; j++) {
                        weights[k][j] -= times * weights[m][j];
                    }
                }
            }
            double own = (double) n / sources.get(k).factor().size();
            for (int j = 0; j < rows; j++) {
                weights[k][j] /= own;
            }
        }
        return weights;
    }

    private static int width(List<Source> sources, int k) {
        return k == sources.size()
                ? Integer.MAX_VALUE
                : Integer.bitCount(sources.get(k).facets());
    }

    private static boolean within(int narrow, int wide) {
        return (narrow & wide) == narrow;
    }

    private static String name(List<Source> sources, int k, int rows, int residual) {
        return k == rows - 1 && rows > sources.size() || k == residual
                ? "residual"
                : sources.get(k).factor().name();
    }

    /** Sum over the levels of (sum of y)² / number, y centred. */
    private static double between(double[] y, Factor factor) {
        double[] sums = new double[factor.size()];
        int[] counts = new int[factor.size()];
        for (int i = 0; i < y.length; i++) {
            sums[factor.codes()[i]] += y[i];
            counts[factor.codes()[i]]++;
        }
        double total = 0;
        for (int a = 0; a < sums.length; a++) {
            total += sums[a] * sums[a] / counts[a];
        }
        return total;
    }
}
