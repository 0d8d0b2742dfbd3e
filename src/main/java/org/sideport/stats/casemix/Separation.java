package org.sideport.stats.casemix;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.optim.MaxIter;
import org.hipparchus.optim.linear.LinearConstraint;
import org.hipparchus.optim.linear.LinearConstraintSet;
import org.hipparchus.optim.linear.LinearObjectiveFunction;
import org.hipparchus.optim.linear.NonNegativeConstraint;
import org.hipparchus.optim.linear.PivotSelectionRule;
import org.hipparchus.optim.linear.Relationship;
import org.hipparchus.optim.linear.SimplexSolver;
import org.hipparchus.optim.nonlinear.scalar.GoalType;

/**
 * Whether a combination of the terms tells the cases with the event from those without it, so that no finite maximum
 * likelihood estimate exists (Albert & Anderson 1984, Biometrika 71:1). Decided by linear programming (Konis 2007, Linear
 * programming algorithms for detecting separated data in binary logistic regression models, DPhil thesis, Oxford), here
 * in the dual form, whose table has one row for each coefficient whatever the number of cases.
 *
 * <p>With x* the row of a case, its sign turned where there was no event, the outcomes are separated if some β has
 * x*β ≥ 0 for all cases and > 0 for one. By duality of max Σ x*β over |β| ≤ 1 the smallest ‖Σ (1 + λ) x*‖₁ over λ ≥ 0
 * is then positive; separation is complete (all > 0, Gordan's theorem) if the smallest ‖Σ λ x*‖₁ with Σ λ = 1 is.
 *
 * @param terms names of those whose coefficients have no finite estimate, with the sign of the drift: −1, 1, or 0 where
 *     it is not determined; without the intercept
 */
public record Separation(Kind kind, List<Drift> terms) {

    /** Albert & Anderson's three cases. */
    public enum Kind {
        /** Overlap: finite estimates exist. */
        NONE,
        /** Some cases lie on the dividing line, all others on their right side. */
        QUASI_COMPLETE,
        /** All cases lie on their right side. */
        COMPLETE
    }

    /** A coefficient that grows without end. */
    public record Drift(String term, int direction) {}

    private static final double NOTHING = 1e-7;

    public Separation {
        terms = List.copyOf(terms);
    }

    /** @return {@link Kind#NONE} if the cases overlap in the terms */
    public static Separation of(CaseOutcomes data) {
        double[][] rows = signed(data);
        int k = rows.length;
        double[] sums =
                Arrays.stream(rows).mapToDouble(r -> Arrays.stream(r).sum()).toArray();
        if (smallest(rows, sums, false) < NOTHING * data.size()) {
            return new Separation(Kind.NONE, List.of());
        }
        boolean complete = smallest(rows, new double[k], true) > NOTHING;
        List<Drift> drifts = new ArrayList<>();
        for (int j = 1; j < k; j++) {
            boolean up = smallest(rows, unit(k, j, 1), false) > NOTHING;
            boolean down = smallest(rows, unit(k, j, -1), false) > NOTHING;
            if (up || down) {
                drifts.add(new Drift(data.terms().get(j - 1).name(), up && down ? 0 : up ? 1 : -1));
            }
        }
        return new Separation(complete ? Kind.COMPLETE : Kind.QUASI_COMPLETE, drifts);
    }

    private static double[] unit(int k, int j, double sign) {
        double[] unit = new double[k];
        unit[j] = sign;
        return unit;
    }

    /** x* by coefficient; each term moved and stretched to 0 … 1, which changes the intercept only. */
    private static double[][] signed(CaseOutcomes data) {
        double[][] columns = data.columns();
        double[][] rows = new double[columns.length][data.size()];
        for (int j = 0; j < columns.length; j++) {
            double low = j == 0 ? 0 : Arrays.stream(columns[j]).min().orElse(0);
            double high = j == 0 ? 1 : Arrays.stream(columns[j]).max().orElse(1);
            for (int i = 0; i < data.size(); i++) {
                rows[j][i] = (columns[j][i] - low) / (high > low ? high - low : 1) * (data.outcome()[i] == 1 ? 1 : -1);
            }
        }
        return rows;
    }

    /** The smallest ‖c + Σ λ x*‖₁ over λ ≥ 0, with Σ λ = 1 if so wished. */
    private static double smallest(double[][] rows, double[] c, boolean weightsSumToOne) {
        int k = rows.length;
        int n = rows[0].length;
        double[] costs = new double[n + 2 * k];
        Arrays.fill(costs, n, n + 2 * k, 1);
        List<LinearConstraint> constraints = new ArrayList<>();
        for (int j = 0; j < k; j++) {
            double[] row = Arrays.copyOf(rows[j], n + 2 * k);
            row[n + 2 * j] = -1;
            row[n + 2 * j + 1] = 1;
            constraints.add(new LinearConstraint(row, Relationship.EQ, -c[j]));
        }
        if (weightsSumToOne) {
            double[] row = new double[n + 2 * k];
            Arrays.fill(row, 0, n, 1);
            constraints.add(new LinearConstraint(row, Relationship.EQ, 1));
        }
        LinearObjectiveFunction goal = new LinearObjectiveFunction(costs, 0);
        try {
            return solve(goal, constraints, PivotSelectionRule.DANTZIG);
        } catch (MathIllegalStateException cycling) {
            return solve(goal, constraints, PivotSelectionRule.BLAND);
        }
    }

    private static double solve(
            LinearObjectiveFunction goal, List<LinearConstraint> constraints, PivotSelectionRule rule) {
        return new SimplexSolver()
                .optimize(
                        new MaxIter(20_000),
                        goal,
                        new LinearConstraintSet(constraints),
                        GoalType.MINIMIZE,
                        new NonNegativeConstraint(true),
                        rule)
                .getValue();
    }

    /** What separates, for people. */
    String words() {
        List<String> names = terms.stream().map(Drift::term).toList();
        return (kind == Kind.COMPLETE ? "complete" : "quasi-complete") + " separation: "
                + (names.size() == 1 ? names.get(0) + " tells" : String.join(", ", names) + " together tell")
                + (kind == Kind.COMPLETE ? " every case" : " some of the cases") + " with the event from those without";
    }
}
