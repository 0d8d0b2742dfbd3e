package org.sideport.rubric;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/** Small rubrics and ratings for tests. */
final class Rubrics {

    private Rubrics() {}

    static Rubric.Item item(String id, String domain, double weight, @Nullable Integer critical) {
        return new Rubric.Item(
                id,
                domain,
                id,
                Rubric.Kind.LEVEL,
                null,
                weight,
                critical,
                EnumSet.allOf(NotApplicable.class),
                "",
                List.of());
    }

    static Rubric.Item check(String id, String domain, @Nullable Integer critical) {
        return new Rubric.Item(
                id,
                domain,
                id,
                Rubric.Kind.CHECK,
                null,
                1,
                critical,
                EnumSet.noneOf(NotApplicable.class),
                "",
                List.of());
    }

    /** A number that bands turn into points: pairs of where a band starts and its points. */
    static Rubric.Item number(String id, String domain, Rubric.Kind kind, double... bands) {
        List<Rubric.Band> made = new ArrayList<>();
        for (int i = 0; i < bands.length; i += 2) {
            made.add(new Rubric.Band(bands[i], (int) bands[i + 1], ""));
        }
        return new Rubric.Item(
                id,
                domain,
                id,
                kind,
                null,
                1,
                null,
                EnumSet.allOf(NotApplicable.class),
                "",
                List.of(),
                made,
                "",
                Rubric.Quantity.ENTERED);
    }

    static ItemScore value(Rubric.Item item, double value) {
        return new ItemScore.Marked(item.id(), item.band(value).points(), value, "", List.of());
    }

    /** A rubric whose levels run from {@code lowest} to {@code highest} points. */
    static Rubric rubric(int lowest, int highest, @Nullable Double standard, Rubric.Item... items) {
        List<Rubric.Level> levels = new ArrayList<>();
        for (int points = lowest; points <= highest; points++) {
            levels.add(new Rubric.Level(points, "level " + points, "meaning"));
        }
        return new Rubric(
                "test",
                "1.0.0",
                "Test",
                "phaco",
                "made for a test",
                "",
                levels,
                List.of(new Rubric.Domain("a", "A"), new Rubric.Domain("b", "B")),
                List.of(items),
                standard == null ? null : new Rubric.PassStandard(standard, "panel", "2026-01-31"));
    }

    static Rating rating(ItemScore... scores) {
        return new Rating("test", "1.0.0", "A1", false, true, List.of(scores), "");
    }

    static ItemScore mark(String item, int points) {
        return new ItemScore.Marked(item, points, "");
    }

    static ItemScore excuse(String item, NotApplicable reason) {
        return new ItemScore.Excused(item, reason, "");
    }
}
