package org.sideport.rubric;

import java.math.BigDecimal;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;

/** Why a score does not fit its rubric. */
record ScoreFault(String what, String remedy) {

    /** The fault of a score; {@code null} if it fits. */
    static @Nullable ScoreFault of(Rubric rubric, ItemScore score) {
        Rubric.Item item = rubric.item(score.item()).orElse(null);
        if (item == null) {
            return new ScoreFault(
                    "the rubric " + rubric.id() + " " + rubric.version() + " has no item \"" + score.item() + "\"",
                    "write one of "
                            + rubric.items().stream().map(Rubric.Item::id).collect(Collectors.joining(", ")));
        }
        Double value = score instanceof ItemScore.Marked marked ? marked.value() : null;
        if (value != null && !item.kind().isNumber()) {
            return new ScoreFault(
                    "\"" + item.id() + "\" is neither counted nor measured", "give it points instead of a value");
        }
        if (value != null && !item.takes(value)) {
            return new ScoreFault(
                    "\"" + item.id() + "\" cannot be " + plain(value),
                    item.kind() == Rubric.Kind.COUNT
                            ? "write a whole number from "
                                    + plain(item.bands().get(0).from()) + " on"
                            : "write a number from " + plain(item.bands().get(0).from()) + " on");
        }
        if (value != null
                && score instanceof ItemScore.Marked marked
                && item.band(value).points() != marked.points()) {
            return new ScoreFault(
                    "\"" + item.id() + "\" of " + plain(value) + " does not get " + marked.points() + " points",
                    "leave the points out: they follow from the value");
        }
        if (score instanceof ItemScore.Marked marked && !rubric.pointsOf(item).contains(marked.points())) {
            return new ScoreFault(
                    "\"" + item.id() + "\" cannot be given " + marked.points() + " points",
                    "give one of "
                            + rubric.pointsOf(item).stream()
                                    .map(String::valueOf)
                                    .collect(Collectors.joining(", ")));
        }
        if (score instanceof ItemScore.Excused excused && !item.notApplicable().contains(excused.reason())) {
            String allowed = item.notApplicable().stream()
                    .sorted()
                    .map(NotApplicable::id)
                    .collect(Collectors.joining(", "));
            return new ScoreFault(
                    "\"" + item.id() + "\" cannot be left unmarked as "
                            + excused.reason().id(),
                    allowed.isEmpty() ? "give it points" : "give it points, or one of " + allowed);
        }
        return null;
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
