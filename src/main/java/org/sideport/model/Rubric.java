package org.sideport.model;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A structured assessment form, read from a file under {@code rubrics/}.
 *
 * @param procedure id of the procedure that it assesses
 * @param source where its structure comes from
 * @param levels the level scale, worst first; points need not start at 1
 * @param passStandard {@code null} where no standard has been agreed, which is the usual state
 * @param replaces earlier versions, with what became of their items
 * @param translations by language tag (BCP 47), such as {@code fr}
 */
public record Rubric(
        String id,
        String version,
        String title,
        String procedure,
        String source,
        String guidance,
        List<Level> levels,
        List<Domain> domains,
        List<Item> items,
        @Nullable PassStandard passStandard,
        List<Predecessor> replaces,
        Map<String, RubricWords> translations) {

    public record Level(int points, String label, String meaning) {}

    public record Domain(String id, String title) {}

    /** How an item is marked. */
    public enum Kind {
        /** one of the rubric's levels */
        LEVEL,
        /** done (1 point) or not done (0 points) */
        CHECK,
        /** a whole number of errors or attempts, that bands turn into points */
        COUNT,
        /** a time or size that bands turn into points; it never fails a rating by itself */
        MEASURED;

        /** True if bands turn a number into the points. */
        public boolean isNumber() {
            return this == COUNT || this == MEASURED;
        }
    }

    /** Where the number of a measured item comes from. */
    public enum Quantity {
        /** entered by the assessor */
        ENTERED,
        /** active time of the item's phase as tagged, seconds */
        PHASE_TIME
    }

    /**
     * Numbers that get the same points: from this one, inclusive, to the next band.
     *
     * @param text what such a number means; may be empty
     */
    public record Band(double from, int points, String text) {}

    /**
     * An earlier version.
     *
     * @param items id of an item then to its id now; {@code null} as the value for one that was given up. Those not named
     *     kept their id
     */
    public record Predecessor(String version, Map<String, @Nullable String> items) {
        public Predecessor {
            items = Collections.unmodifiableMap(new LinkedHashMap<>(items));
        }
    }

    /**
     * @param phase id of the phase or step that it is judged on; {@code null} for the whole operation
     * @param weight relative weight in the score, positive
     * @param criticalMinimum points below which the item is a critical failure; {@code null} if it cannot be one
     * @param notApplicable the reasons for which it may be left unmarked
     * @param anchors what each level looks like, worst first; empty for other kinds
     * @param bands from numbers to points, ascending; empty for a level or a check
     * @param unit of the number; empty for others
     * @param quantity where the number comes from
     */
    public record Item(
            String id,
            String domain,
            String title,
            Kind kind,
            @Nullable String phase,
            double weight,
            @Nullable Integer criticalMinimum,
            Set<NotApplicable> notApplicable,
            String guidance,
            List<Anchor> anchors,
            List<Band> bands,
            String unit,
            Quantity quantity) {
        public Item {
            notApplicable = Set.copyOf(notApplicable);
            anchors = List.copyOf(anchors);
            bands = List.copyOf(bands);
        }

        /** A level or a check. */
        public Item(
                String id,
                String domain,
                String title,
                Kind kind,
                @Nullable String phase,
                double weight,
                @Nullable Integer criticalMinimum,
                Set<NotApplicable> notApplicable,
                String guidance,
                List<Anchor> anchors) {
            this(
                    id,
                    domain,
                    title,
                    kind,
                    phase,
                    weight,
                    criticalMinimum,
                    notApplicable,
                    guidance,
                    anchors,
                    List.of(),
                    "",
                    Quantity.ENTERED);
        }

        /**
         * The band that a number falls into.
         *
         * @param value from the first band's start on
         * @throws IllegalArgumentException if it lies below, is not finite, or no whole number for a count
         */
        public Band band(double value) {
            if (!takes(value)) {
                throw new IllegalArgumentException(id + " cannot be " + value);
            }
            Band found = bands.get(0);
            for (Band band : bands) {
                if (band.from() <= value) {
                    found = band;
                }
            }
            return found;
        }

        /** True if this number can be the item's. */
        public boolean takes(double value) {
            return kind.isNumber()
                    && Double.isFinite(value)
                    && !bands.isEmpty()
                    && value >= bands.get(0).from()
                    && (kind != Kind.COUNT || value == Math.rint(value));
        }
    }

    public record Anchor(int points, String text) {}

    /**
     * @param share least share of the applicable maximum, 0 to 1
     * @param agreedBy who agreed it, by code or body
     * @param agreedOn ISO date
     */
    public record PassStandard(double share, String agreedBy, String agreedOn) {}

    public Rubric {
        levels = List.copyOf(levels);
        domains = List.copyOf(domains);
        items = List.copyOf(items);
        replaces = List.copyOf(replaces);
        translations = Map.copyOf(translations);
    }

    /** A first version, in one language. */
    public Rubric(
            String id,
            String version,
            String title,
            String procedure,
            String source,
            String guidance,
            List<Level> levels,
            List<Domain> domains,
            List<Item> items,
            @Nullable PassStandard passStandard) {
        this(
                id,
                version,
                title,
                procedure,
                source,
                guidance,
                levels,
                domains,
                items,
                passStandard,
                List.of(),
                Map.of());
    }

    /**
     * The item that an item of an earlier version has become.
     *
     * @param earlier version of the rubric that the id is of
     * @return empty if it was given up, or the version is not known as an earlier one
     */
    public Optional<Item> itemOf(String earlier, String itemId) {
        if (earlier.equals(version)) {
            return item(itemId);
        }
        return replaces.stream()
                .filter(r -> r.version().equals(earlier))
                .findFirst()
                .flatMap(r -> r.items().containsKey(itemId)
                        ? Optional.ofNullable(r.items().get(itemId))
                        : Optional.of(itemId))
                .flatMap(this::item);
    }

    /** The rubric in another language; what is not translated stays as it is. Ids and points are the same. */
    public Rubric in(String language) {
        RubricWords words = translations.get(language);
        return words == null ? this : words.applyTo(this);
    }

    public Optional<Item> item(String itemId) {
        return items.stream().filter(i -> i.id().equals(itemId)).findFirst();
    }

    /** The most points an item can get. */
    public int maximumOf(Item item) {
        List<Integer> possible = pointsOf(item);
        return possible.get(possible.size() - 1);
    }

    /** The points that an item can be given, lowest first. */
    public List<Integer> pointsOf(Item item) {
        return switch (item.kind()) {
            case CHECK -> List.of(0, 1);
            case LEVEL -> levels.stream().map(Level::points).sorted().toList();
            case COUNT, MEASURED ->
                item.bands().stream().map(Band::points).distinct().sorted().toList();
        };
    }
}
