package org.sideport.model;

import java.util.List;
import java.util.Map;

/**
 * A rubric's words in another language. Whatever is missing stays in the rubric's own.
 *
 * @param title empty to keep it
 * @param guidance empty to keep it
 * @param levels by points
 * @param domains titles by id
 * @param items by id
 */
public record RubricWords(
        String title,
        String guidance,
        Map<Integer, LevelWords> levels,
        Map<String, String> domains,
        Map<String, ItemWords> items) {

    /** Label and meaning of a level; empty to keep them. */
    public record LevelWords(String label, String meaning) {}

    /**
     * @param anchors by points; for counts and measures the texts of the bands by the points they give
     */
    public record ItemWords(String title, String guidance, String unit, Map<Integer, String> anchors) {
        public ItemWords {
            anchors = Map.copyOf(anchors);
        }
    }

    private static final ItemWords NONE = new ItemWords("", "", "", Map.of());

    public RubricWords {
        levels = Map.copyOf(levels);
        domains = Map.copyOf(domains);
        items = Map.copyOf(items);
    }

    Rubric applyTo(Rubric rubric) {
        List<Rubric.Level> newLevels = rubric.levels().stream()
                .map(level -> {
                    LevelWords words = levels.getOrDefault(level.points(), new LevelWords("", ""));
                    return new Rubric.Level(
                            level.points(), or(words.label(), level.label()), or(words.meaning(), level.meaning()));
                })
                .toList();
        List<Rubric.Domain> newDomains = rubric.domains().stream()
                .map(d -> new Rubric.Domain(d.id(), domains.getOrDefault(d.id(), d.title())))
                .toList();
        List<Rubric.Item> newItems = rubric.items().stream()
                .map(item -> item(item, items.getOrDefault(item.id(), NONE)))
                .toList();
        return new Rubric(
                rubric.id(),
                rubric.version(),
                or(title, rubric.title()),
                rubric.procedure(),
                rubric.source(),
                or(guidance, rubric.guidance()),
                newLevels,
                newDomains,
                newItems,
                rubric.passStandard(),
                rubric.replaces(),
                rubric.translations());
    }

    private static Rubric.Item item(Rubric.Item item, ItemWords words) {
        return new Rubric.Item(
                item.id(),
                item.domain(),
                or(words.title(), item.title()),
                item.kind(),
                item.phase(),
                item.weight(),
                item.criticalMinimum(),
                item.notApplicable(),
                or(words.guidance(), item.guidance()),
                item.anchors().stream()
                        .map(a -> new Rubric.Anchor(a.points(), words.anchors().getOrDefault(a.points(), a.text())))
                        .toList(),
                item.bands().stream()
                        .map(b -> new Rubric.Band(
                                b.from(), b.points(), words.anchors().getOrDefault(b.points(), b.text())))
                        .toList(),
                or(words.unit(), item.unit()),
                item.quantity());
    }

    private static String or(String translated, String own) {
        return translated.isEmpty() ? own : translated;
    }
}
