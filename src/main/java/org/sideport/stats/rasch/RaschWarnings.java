package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** What a reader of the measures has to know, in sentences. */
final class RaschWarnings {

    /** Mean squares that call for a look at the marks (Wright & Linacre 1994, Rasch Measurement Transactions 8:370). */
    private static final double ERRATIC = 1.5;

    private static final double UNIFORM = 0.5;
    private static final double NOT_BY_CHANCE = 2;
    private static final int FEW_TRAINEES = 10;

    private final UsableMarks usable;
    private final Markings marks;
    private final List<Measure> trainees;
    private final List<Measure> assessors;
    private final List<Measure> items;
    private final List<Step> steps;
    private final List<String> warnings = new ArrayList<>();

    RaschWarnings(
            UsableMarks usable,
            List<Measure> trainees,
            List<Measure> assessors,
            List<Measure> items,
            List<Step> steps) {
        this.usable = usable;
        this.marks = usable.marks();
        this.trainees = trainees;
        this.assessors = assessors;
        this.items = items;
        this.steps = steps;
    }

    List<String> all() {
        few();
        extremes("Trainee ", trainees, "is at most", "is at least");
        extremes("Assessor ", assessors, "is at least", "is at most");
        extremes("Item ", items, "is at least", "is at most");
        levels();
        order();
        repeats();
        fits("trainee ", trainees);
        fits("assessor ", assessors);
        fits("item ", items);
        return warnings;
    }

    private void few() {
        long inUse = IntStream.of(usable.rows()).map(marks::trainee).distinct().count();
        if (inUse < FEW_TRAINEES) {
            warnings.add("Only " + inUse + " trainees tell the assessors apart; the limits are rough and rather too"
                    + " narrow.");
        }
        if (count(usable.inUse(marks.assessors())) == 1) {
            warnings.add("Only one assessor enters the estimation; how severe that one is cannot be told.");
        }
        if (count(usable.inUse(marks.items())) == 1) {
            warnings.add("Only one item enters the estimation; how difficult it is cannot be told.");
        }
    }

    private static int count(boolean[] flags) {
        int count = 0;
        for (boolean flag : flags) {
            count += flag ? 1 : 0;
        }
        return count;
    }

    private void extremes(String what, List<Measure> measures, String atBottom, String atTop) {
        for (Measure measure : measures) {
            if (measure.extreme() == Extreme.NONE) {
                continue;
            }
            String name = what + measure.label();
            if (measure.logits() == null) {
                warnings.add(name
                        + (measure.extreme() == Extreme.INDIRECT
                                ? " cannot be measured: all its marks are by or of those with only top or only bottom"
                                        + " marks."
                                : " cannot be measured: its marks that can be compared were all the same, and nothing"
                                        + " else places it."));
            } else if (measure.extreme() == Extreme.INDIRECT) {
                warnings.add(name + " met only those with only top or only bottom marks; the measure is a rough one.");
            } else {
                boolean top = measure.extreme() == Extreme.ALL_TOP;
                warnings.add(name + " has only " + (top ? "top" : "bottom")
                        + " marks among those that can be compared; the measure " + (top ? atTop : atBottom)
                        + " about the one shown, and the standard error says little.");
            }
        }
    }

    private void levels() {
        Set<String> told = new HashSet<>();
        for (int i = 0; i < items.size(); i++) {
            String where = usable.model() == StepModel.RATING_SCALE
                    ? ""
                    : " on item " + marks.items().levels().get(i);
            List<Integer> unused = usable.categories().get(i).unused();
            if (!unused.isEmpty() && told.add(where)) {
                warnings.add("Level " + join(unused) + " was never given" + where
                        + " by those who enter the estimation; the model takes it as impossible there.");
            }
        }
        Set<String> moved = new TreeSet<>();
        for (int row = 0; row < marks.size(); row++) {
            boolean measured = usable.items()[marks.item(row)] == Extreme.NONE;
            if (measured && !usable.categories(row).has(marks.levels()[row])) {
                moved.add(marks.levels()[row]
                        + (usable.model() == StepModel.RATING_SCALE
                                ? ""
                                : " on item " + marks.items().levels().get(marks.item(row))));
            }
        }
        if (!moved.isEmpty()) {
            warnings.add("Level " + String.join(", ", moved)
                    + " was given only with top or bottom marks throughout; it is counted as the nearest level that has"
                    + " a step.");
        }
    }

    private static String join(List<Integer> levels) {
        return String.join(", ", levels.stream().map(String::valueOf).toList());
    }

    private void order() {
        for (int s = 1; s < steps.size(); s++) {
            Step lower = steps.get(s - 1);
            Step upper = steps.get(s);
            if (lower.item().equals(upper.item())
                    && lower.deviation().value() > upper.deviation().value()) {
                warnings.add("Level " + lower.to() + " is nowhere the most likely one"
                        + (lower.item().equals("all") ? "" : " on item " + lower.item())
                        + " (its step is harder than the next); its descriptor may not be clear, or it was rarely"
                        + " given.");
            }
        }
    }

    private void repeats() {
        Set<List<Integer>> cells = new HashSet<>();
        for (int row = 0; row < marks.size(); row++) {
            cells.add(List.of(marks.trainee(row), marks.assessor(row), marks.item(row)));
        }
        int repeats = marks.size() - cells.size();
        if (repeats > 0) {
            warnings.add(
                    repeats + " of " + marks.size() + " marks repeat a trainee, assessor and item; they are taken as"
                            + " independent, and if operations differ in difficulty the standard errors are too small.");
        }
    }

    private void fits(String what, List<Measure> measures) {
        for (Measure measure : measures) {
            MeanSquares fit = measure.fit();
            if (fit == null) {
                continue;
            }
            if (fit.infit() > ERRATIC && fit.infitZ() > NOT_BY_CHANCE) {
                warnings.add(String.format(
                        Locale.ROOT,
                        "The marks of %s%s are more erratic than the model expects (infit %.2f); look at them before"
                                + " you rely on the measure.",
                        what,
                        measure.label(),
                        fit.infit()));
            } else if (what.startsWith("assessor") && fit.infit() < UNIFORM && fit.infitZ() < -NOT_BY_CHANCE) {
                warnings.add(String.format(
                        Locale.ROOT,
                        "The marks of %s%s are more alike than the model expects (infit %.2f); a halo or a fear of the"
                                + " outer levels may be behind it.",
                        what,
                        measure.label(),
                        fit.infit()));
            }
        }
    }
}
