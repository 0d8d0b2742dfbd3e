package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.StringJoiner;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.EigenDecompositionSymmetric;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * Whether the marks tie all trainees, assessors and items to one scale. Each two facets must hang together (in a graph
 * with a line for each pair that met, found by union and find): where the trainees of one group of assessors and those of
 * another share none, a group of able trainees looks like one of lenient assessors. That is necessary; sufficient is that
 * the table of main effects has full rank (Searle 1971, Linear Models, section 5.4; Weeks & Williams 1964, Technometrics
 * 6:319), which also finds assessors who marked other items each.
 */
final class Connectedness {

    private static final int NAMES = 12;

    private Connectedness() {}

    /** @return the same marks, or a refusal that names the parts */
    static Outcome<UsableMarks> check(UsableMarks usable) {
        Markings marks = usable.marks();
        int[] rows = usable.rows();
        Factor[][] pairs = {
            {marks.trainees(), marks.assessors()},
            {marks.trainees(), marks.items()},
            {marks.assessors(), marks.items()}
        };
        for (Factor[] pair : pairs) {
            List<String> groups = groups(pair[0], pair[1], rows);
            if (groups.size() > 1) {
                return refused(
                        usable,
                        "the marks fall into " + groups.size() + " groups that share no " + word(pair[0]) + " and no "
                                + word(pair[1]) + ": " + String.join("; ", groups),
                        "let some assessors mark trainees of both groups on the same items, or analyse each group by"
                                + " itself");
            }
        }
        List<String> confounded = confounded(marks, rows);
        if (!confounded.isEmpty()) {
            return refused(
                    usable,
                    "assessors and items cannot be told apart, because who marked what goes together too closely; only"
                            + " within these groups can they be compared: " + String.join("; ", confounded),
                    "let assessors of different groups mark the same trainees on the same items");
        }
        return Outcome.of(usable);
    }

    private static Outcome<UsableMarks> refused(UsableMarks usable, String why, String remedy) {
        int left = usable.marks().size() - usable.rows().length;
        return Outcome.refused(
                Refusal.Reason.NOT_CONNECTED,
                why + (left == 0 ? "" : " (" + left + " marks of those with only top or only bottom marks do not tie)"),
                remedy);
    }

    private static String word(Factor factor) {
        return factor.name();
    }

    private static List<String> groups(Factor left, Factor right, int[] rows) {
        int[] parent = new int[left.size() + right.size()];
        Arrays.fill(parent, -1);
        for (int row : rows) {
            int a = root(parent, left.codes()[row]);
            int b = root(parent, left.size() + right.codes()[row]);
            if (a != b) {
                parent[b] = a;
            }
        }
        boolean[] met = new boolean[parent.length];
        for (int row : rows) {
            met[left.codes()[row]] = true;
            met[left.size() + right.codes()[row]] = true;
        }
        Map<Integer, List<String>> lefts = new LinkedHashMap<>();
        Map<Integer, List<String>> rights = new LinkedHashMap<>();
        for (int i = 0; i < parent.length; i++) {
            if (met[i]) {
                int root = root(parent, i);
                boolean first = i < left.size();
                (first ? lefts : rights)
                        .computeIfAbsent(root, r -> new ArrayList<>())
                        .add(first ? left.levels().get(i) : right.levels().get(i - left.size()));
            }
        }
        List<String> groups = new ArrayList<>();
        lefts.forEach((root, names) -> groups.add(left.name() + " " + list(names) + " with " + right.name() + " "
                + list(rights.getOrDefault(root, List.of()))));
        return groups;
    }

    private static int root(int[] parent, int of) {
        int root = of;
        while (parent[root] >= 0) {
            root = parent[root];
        }
        return root;
    }

    private static String list(List<String> names) {
        StringJoiner text = new StringJoiner(", ");
        names.stream().limit(NAMES).forEach(text::add);
        return text + (names.size() > NAMES ? " and " + (names.size() - NAMES) + " more" : "");
    }

    /**
     * Groups of assessors and of items whose differences can be estimated; empty if all can. The table of assessors and
     * items after the trainees' means are taken off has two null directions at least; any other tells groups apart.
     */
    private static List<String> confounded(Markings marks, int[] rows) {
        int assessors = marks.assessors().size();
        int n = assessors + marks.items().size();
        double[][] table = new double[n][n];
        double[][] counts = new double[marks.trainees().size()][n];
        boolean[] met = new boolean[n];
        for (int row : rows) {
            int a = marks.assessor(row);
            int i = assessors + marks.item(row);
            met[a] = true;
            met[i] = true;
            counts[marks.trainee(row)][a]++;
            counts[marks.trainee(row)][i]++;
            table[a][a]++;
            table[i][i]++;
            table[a][i]++;
            table[i][a]++;
        }
        for (double[] count : counts) {
            double total = 0;
            for (int a = 0; a < assessors; a++) {
                total += count[a];
            }
            for (int x = 0; x < n && total > 0; x++) {
                for (int y = 0; y < n; y++) {
                    table[x][y] -= count[x] * count[y] / total;
                }
            }
        }
        for (int x = 0; x < n; x++) {
            table[x][x] += met[x] ? 0 : 1;
        }
        EigenDecompositionSymmetric eigen = new EigenDecompositionSymmetric(new Array2DRowRealMatrix(table, false));
        List<double[]> directions = new ArrayList<>();
        for (int k = 0; k < n; k++) {
            if (eigen.getEigenvalue(k) < 1e-9 * Math.max(1, eigen.getEigenvalue(0))) {
                directions.add(eigen.getEigenvector(k).toArray());
            }
        }
        if (directions.size() <= 2) {
            return List.of();
        }
        List<String> groups = new ArrayList<>(same(marks.assessors(), 0, met, directions));
        groups.addAll(same(marks.items(), assessors, met, directions));
        return groups;
    }

    private static List<String> same(Factor factor, int from, boolean[] met, List<double[]> directions) {
        Map<Integer, List<String>> groups = new LinkedHashMap<>();
        List<Integer> heads = new ArrayList<>();
        for (int i = from; i < from + factor.size(); i++) {
            int at = i;
            if (met[i]) {
                int head = heads.stream()
                        .filter(h -> directions.stream().allMatch(d -> Math.abs(d[h] - d[at]) < 1e-7))
                        .findFirst()
                        .orElse(at);
                if (head == at) {
                    heads.add(at);
                }
                groups.computeIfAbsent(head, h -> new ArrayList<>())
                        .add(factor.levels().get(i - from));
            }
        }
        return groups.values().stream()
                .map(names -> factor.name() + " " + list(names))
                .toList();
    }
}
