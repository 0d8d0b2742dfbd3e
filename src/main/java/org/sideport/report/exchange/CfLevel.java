package org.sideport.report.exchange;

import java.util.ArrayList;
import java.util.List;
import org.sideport.model.Rubric;

/**
 * One way to mark an item, as a CFRubricCriterionLevel says it.
 *
 * @param quality its label
 * @param description what it looks like; may be empty
 */
record CfLevel(int points, String quality, String description) {

    /** Worst first, as the rubric has them; for counts and measures one for each band. */
    static List<CfLevel> of(Rubric rubric, Rubric.Item item) {
        return switch (item.kind()) {
            case CHECK -> List.of(new CfLevel(0, "not done", ""), new CfLevel(1, "done", ""));
            case LEVEL ->
                rubric.levels().stream()
                        .map(l -> new CfLevel(l.points(), l.label(), anchor(item, l)))
                        .toList();
            case COUNT, MEASURED -> bands(item);
        };
    }

    static String anchor(Rubric.Item item, Rubric.Level level) {
        return item.anchors().stream()
                .filter(a -> a.points() == level.points())
                .map(Rubric.Anchor::text)
                .findFirst()
                .orElse(level.meaning());
    }

    private static List<CfLevel> bands(Rubric.Item item) {
        List<CfLevel> levels = new ArrayList<>();
        for (Rubric.Band band : item.bands()) {
            String number =
                    band.from() == Math.rint(band.from()) ? String.valueOf(Math.round(band.from())) : "" + band.from();
            levels.add(new CfLevel(band.points(), ("from " + number + " " + item.unit()).strip(), band.text()));
        }
        return levels;
    }
}
