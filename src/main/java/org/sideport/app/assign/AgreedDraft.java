package org.sideport.app.assign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/** Marks that people agree upon together, item by item: what all marked alike is there, the rest is for them. */
final class AgreedDraft {

    /** What an item can be given, in words. */
    record Choice(String text, ItemScore score) {
        @Override
        public String toString() {
            return text;
        }
    }

    /** @param marks what each assessor gave; empty if nobody marked before */
    record Line(Rubric.Item item, String marks, List<Choice> choices) {}

    private final Rubric rubric;
    private final Texts texts;
    private final List<Line> lines = new ArrayList<>();
    private final Map<String, Choice> chosen = new LinkedHashMap<>();

    /** @param by the marks that differ; none for reference marks */
    AgreedDraft(Rubric rubric, List<Rating> by, Texts texts) {
        this.rubric = rubric;
        this.texts = texts;
        for (Rubric.Item item : rubric.items()) {
            List<Choice> choices = choices(item);
            lines.add(new Line(item, marks(item, by), choices));
            alike(item, by)
                    .flatMap(score -> choices.stream()
                            .filter(c -> isSame(c.score(), score))
                            .findFirst())
                    .ifPresent(choice -> chosen.put(item.id(), choice));
        }
    }

    List<Line> lines() {
        return List.copyOf(lines);
    }

    @Nullable
    Choice chosen(Line line) {
        return chosen.get(line.item().id());
    }

    void choose(Line line, @Nullable Choice choice) {
        if (choice == null) {
            chosen.remove(line.item().id());
        } else {
            chosen.put(line.item().id(), choice);
        }
    }

    /** Titles of the items for which nothing is agreed yet. */
    List<String> missing() {
        return lines.stream()
                .filter(line -> !chosen.containsKey(line.item().id()))
                .map(line -> line.item().title())
                .toList();
    }

    Rating rating() {
        List<ItemScore> scores = lines.stream()
                .map(line -> chosen.get(line.item().id()))
                .filter(Objects::nonNull)
                .map(Choice::score)
                .toList();
        return new Rating(rubric.id(), rubric.version(), "agreed", false, false, scores, "");
    }

    private List<Choice> choices(Rubric.Item item) {
        List<Choice> choices = new ArrayList<>();
        for (int points : rubric.pointsOf(item)) {
            String label = item.kind() == Rubric.Kind.LEVEL
                    ? rubric.levels().stream()
                            .filter(level -> level.points() == points)
                            .map(Rubric.Level::label)
                            .findFirst()
                            .orElse("")
                    : "";
            choices.add(new Choice(
                    label.isBlank() ? String.valueOf(points) : points + " " + label,
                    new ItemScore.Marked(item.id(), points, "")));
        }
        for (NotApplicable reason : NotApplicable.values()) {
            if (item.notApplicable().contains(reason)) {
                choices.add(new Choice(texts.get("reason." + reason), new ItemScore.Excused(item.id(), reason, "")));
            }
        }
        return choices;
    }

    private String marks(Rubric.Item item, List<Rating> by) {
        return by.stream()
                .map(rating -> rating.assessor() + " "
                        + rating.score(item.id()).map(this::shown).orElse("–"))
                .collect(Collectors.joining(", "));
    }

    private String shown(ItemScore score) {
        return score instanceof ItemScore.Excused excused
                ? texts.get("reason." + excused.reason())
                : String.valueOf(score.pointsOrNull());
    }

    private static Optional<ItemScore> alike(Rubric.Item item, List<Rating> by) {
        List<ItemScore> given =
                by.stream().flatMap(rating -> rating.score(item.id()).stream()).toList();
        return !given.isEmpty()
                        && given.size() == by.size()
                        && given.stream().allMatch(score -> isSame(score, given.get(0)))
                ? Optional.of(given.get(0))
                : Optional.empty();
    }

    private static boolean isSame(ItemScore one, ItemScore other) {
        return one instanceof ItemScore.Excused a
                ? other instanceof ItemScore.Excused b && a.reason() == b.reason()
                : Objects.equals(one.pointsOrNull(), other.pointsOrNull()) && !(other instanceof ItemScore.Excused);
    }
}
