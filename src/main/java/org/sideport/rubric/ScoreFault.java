package org.sideport.rubric;

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
}
