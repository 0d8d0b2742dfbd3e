package org.sideport.stats.rasch;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.stats.data.Factor;

/**
 * Where each number stands in the vector of structural parameters: severities of the assessors in use, difficulties of
 * the items in use, then for each set of steps the sums ψ of the step deviations up to each category between the lowest
 * and the highest; ψ is 0 at both ends, so that an item's difficulty is the mean of its steps. The log weight of score x
 * is {@code x (ability − severity − difficulty) − ψ(x)}.
 */
@SuppressWarnings("ArrayRecordComponent")
record Parameters(int[] assessors, int[] items, int[] steps, List<Categories> categories, int size) {

    static Parameters of(UsableMarks marks) {
        int size = 0;
        int[] assessors = places(marks.inUse(marks.marks().assessors()), size);
        size += count(assessors);
        int[] items = places(marks.inUse(marks.marks().items()), size);
        size += count(items);
        int[] steps = new int[items.length];
        Map<Integer, Integer> shared = new HashMap<>();
        for (int i = 0; i < items.length; i++) {
            steps[i] = -1;
            if (items[i] >= 0 || marks.model() == StepModel.RATING_SCALE) {
                int set = marks.model() == StepModel.RATING_SCALE ? 0 : i;
                if (!shared.containsKey(set)) {
                    shared.put(set, size);
                    size += marks.categories().get(i).size() - 2;
                }
                steps[i] = shared.getOrDefault(set, -1);
            }
        }
        return new Parameters(assessors, items, steps, marks.categories(), size);
    }

    private static int[] places(boolean[] inUse, int from) {
        int[] places = new int[inUse.length];
        int next = from;
        for (int i = 0; i < places.length; i++) {
            places[i] = inUse[i] ? next++ : -1;
        }
        return places;
    }

    private static int count(int[] places) {
        int count = 0;
        for (int place : places) {
            count += place >= 0 ? 1 : 0;
        }
        return count;
    }

    int assessorCount() {
        return count(assessors);
    }

    int itemCount() {
        return count(items);
    }

    /** Place of ψ of the category, or −1 for the lowest and the highest, whose ψ is 0. */
    int step(int item, int category) {
        return category == 0 || category == categories.get(item).size() - 1 ? -1 : steps[item] + category - 1;
    }

    double psi(double[] values, int item, int category) {
        int place = step(item, category);
        return place < 0 ? 0 : values[place];
    }

    /** What an item gives to a scale on which it stands at 0, one assessor and one item having these measures. */
    MarkCurve curve(double[] values, int item, double severity, double difficulty) {
        Categories c = categories.get(item);
        double[] weights = new double[c.size()];
        for (int k = 0; k < weights.length; k++) {
            weights[k] = -c.scores()[k] * (severity + difficulty) - psi(values, item, k);
        }
        return new MarkCurve(c.scores(), weights);
    }

    MarkCurve curve(double[] values, int assessor, int item) {
        return curve(values, item, values[assessors[assessor]], values[items[item]]);
    }

    /** Labels of the places, for messages. */
    String name(int place, Factor assessorNames, Factor itemNames) {
        for (int a = 0; a < assessors.length; a++) {
            if (assessors[a] == place) {
                return "assessor " + assessorNames.levels().get(a);
            }
        }
        for (int i = 0; i < items.length; i++) {
            if (items[i] == place) {
                return "item " + itemNames.levels().get(i);
            }
        }
        for (int i = 0; i < items.length; i++) {
            for (int k = 1; k < categories.get(i).size() - 1; k++) {
                if (step(i, k) == place) {
                    boolean shared = i + 1 < items.length && steps[i + 1] == steps[i];
                    return "level " + categories.get(i).level(k)
                            + (shared ? "" : " of item " + itemNames.levels().get(i));
                }
            }
        }
        throw new IllegalArgumentException("no parameter " + place);
    }
}
