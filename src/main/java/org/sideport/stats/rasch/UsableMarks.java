package org.sideport.stats.rasch;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.sideport.stats.data.Factor;

/**
 * The marks from which severities, difficulties and steps can be estimated. Trainees, assessors and items whose marks are
 * all at the top or all at the bottom have no finite maximum of the likelihood; they are set aside, and again until none
 * is left, and measured afterwards (Wright & Masters 1982, Rating Scale Analysis, section 4.3).
 */
@SuppressWarnings("ArrayRecordComponent")
record UsableMarks(
        Markings marks,
        StepModel model,
        boolean[] used,
        Extreme[] trainees,
        Extreme[] assessors,
        Extreme[] items,
        List<Categories> categories) {

    static UsableMarks of(Markings marks, StepModel model) {
        boolean[] used = new boolean[marks.size()];
        Arrays.fill(used, true);
        UsableMarks usable = new UsableMarks(
                marks,
                model,
                used,
                none(marks.trainees()),
                none(marks.assessors()),
                none(marks.items()),
                new ArrayList<>());
        int unit = unit(marks.levels());
        boolean again = true;
        while (again) {
            usable.categories.clear();
            usable.categories.addAll(usable.given(unit));
            again = usable.setAside(marks.items(), usable.items)
                    | usable.setAside(marks.assessors(), usable.assessors)
                    | usable.setAside(marks.trainees(), usable.trainees);
        }
        usable.indirect(marks.trainees(), usable.trainees);
        usable.indirect(marks.assessors(), usable.assessors);
        usable.indirect(marks.items(), usable.items);
        return usable;
    }

    private void indirect(Factor factor, Extreme[] extremes) {
        boolean[] inUse = inUse(factor);
        for (int i = 0; i < inUse.length; i++) {
            if (extremes[i] == Extreme.NONE && !inUse[i]) {
                extremes[i] = Extreme.INDIRECT;
            }
        }
    }

    private static Extreme[] none(Factor factor) {
        Extreme[] all = new Extreme[factor.size()];
        Arrays.fill(all, Extreme.NONE);
        return all;
    }

    private static int unit(int[] levels) {
        int lowest = Arrays.stream(levels).min().orElse(0);
        int unit = Arrays.stream(levels)
                .mapToObj(level -> BigInteger.valueOf((long) level - lowest))
                .reduce(BigInteger.ZERO, BigInteger::gcd)
                .intValue();
        return Math.max(1, unit);
    }

    /** Of each item; the rating scale model has one for all. An item set aside keeps what it was found with. */
    private List<Categories> given(int unit) {
        int n = marks.items().size();
        List<SortedSet<Integer>> given = new ArrayList<>();
        IntStream.range(0, n).forEach(i -> given.add(new TreeSet<>()));
        boolean[] usedItem = inUse(marks.items());
        boolean any = rows().length > 0;
        for (int row = 0; row < used.length; row++) {
            boolean own = model == StepModel.PARTIAL_CREDIT;
            // an item, or a scale, without a usable mark is described by all
            if (used[row] || !(own ? usedItem[marks.item(row)] : any)) {
                given.get(own ? marks.item(row) : 0).add(marks.levels()[row]);
            }
        }
        List<Categories> found = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            found.add(model == StepModel.RATING_SCALE && i > 0 ? found.get(0) : Categories.of(given.get(i), unit));
        }
        return found;
    }

    private boolean setAside(Factor factor, Extreme[] extremes) {
        boolean[] top = new boolean[factor.size()];
        boolean[] bottom = new boolean[factor.size()];
        Arrays.fill(top, true);
        Arrays.fill(bottom, true);
        boolean[] present = new boolean[factor.size()];
        for (int row = 0; row < used.length; row++) {
            if (used[row]) {
                int code = factor.codes()[row];
                present[code] = true;
                top[code] &= category(row) == categories(row).size() - 1;
                bottom[code] &= category(row) == 0;
            }
        }
        boolean found = false;
        for (int code = 0; code < top.length; code++) {
            if (present[code] && (top[code] || bottom[code])) {
                extremes[code] =
                        top[code] && bottom[code] ? Extreme.CONSTANT : top[code] ? Extreme.ALL_TOP : Extreme.ALL_BOTTOM;
                found = true;
            }
        }
        for (int row = 0; row < used.length; row++) {
            used[row] &= extremes[factor.codes()[row]] == Extreme.NONE;
        }
        return found;
    }

    Categories categories(int row) {
        return categories.get(marks.item(row));
    }

    int category(int row) {
        return categories(row).category(marks.levels()[row]);
    }

    int score(int row) {
        return categories(row).scores()[category(row)];
    }

    /** Rows in use, in order. */
    int[] rows() {
        return IntStream.range(0, used.length).filter(row -> used[row]).toArray();
    }

    /** Whether some mark in use is of this level of the factor. */
    boolean[] inUse(Factor factor) {
        boolean[] found = new boolean[factor.size()];
        for (int row : rows()) {
            found[factor.codes()[row]] = true;
        }
        return found;
    }
}
