package org.sideport.model;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * An operation's vocabulary, read from a file under {@code rubrics/}: phases with their finer steps, event kinds, case
 * descriptors.
 *
 * @param source where the vocabulary comes from
 */
public record Procedure(
        String id,
        String version,
        String title,
        String source,
        List<Phase> phases,
        List<EventKind> events,
        List<Descriptor> descriptors) {

    /**
     * @param key the keyboard key that starts it, one character, or empty
     * @param idle true for the phase that means "nothing is being done"
     */
    public record Phase(
            String id,
            String name,
            String shortName,
            String key,
            boolean repeatable,
            boolean optional,
            boolean idle,
            String definition,
            List<Step> steps) {
        public Phase {
            steps = List.copyOf(steps);
        }
    }

    public record Step(String id, String name, String shortName, String key, String definition) {}

    /** @param complication true if it counts as a complication, false for a notable moment */
    public record EventKind(String id, String name, boolean complication, String definition) {}

    /** How a descriptor is filled in. */
    public enum DescriptorKind {
        /** one of its values */
        CHOICE,
        /** any of its values; kept with "; " between them */
        SEVERAL,
        /** a number within its limits */
        NUMBER,
        /** a few words, never about who the patient is */
        TEXT,
        /** worked out of two others: the first times the second, which is a percentage, by 100; never filled in */
        COMPUTED
    }

    /**
     * What is noted of a case: of the eye, the risk, or what the machine showed in the end.
     *
     * @param values the allowed values of a choice
     * @param minimum least number, or {@code null}
     * @param maximum most number, or {@code null}
     * @param step numbers are whole multiples of it, or {@code null}
     * @param scale name of the grading scale and its source; empty if it is none
     * @param definition what it means; empty where the name says it
     * @param group heading under which it stands; empty for none
     * @param factors ids of the two descriptors that a computed one is worked out of
     */
    public record Descriptor(
            String id,
            String name,
            String unit,
            List<String> values,
            DescriptorKind kind,
            @Nullable BigDecimal minimum,
            @Nullable BigDecimal maximum,
            @Nullable BigDecimal step,
            String scale,
            String definition,
            String group,
            List<String> factors) {
        public Descriptor {
            values = List.copyOf(values);
            factors = List.copyOf(factors);
        }

        /** A choice, or free text where there are no values. */
        public Descriptor(String id, String name, String unit, List<String> values) {
            this(
                    id,
                    name,
                    unit,
                    values,
                    values.isEmpty() ? DescriptorKind.TEXT : DescriptorKind.CHOICE,
                    null,
                    null,
                    null,
                    "",
                    "",
                    "",
                    List.of());
        }

        /**
         * The value of a computed descriptor, rounded to two decimals.
         *
         * @param known values by descriptor id
         * @return {@code null} if it is not computed or one of its factors is not known
         */
        public @Nullable String computed(Map<String, String> known) {
            if (kind != DescriptorKind.COMPUTED || factors.size() != 2) {
                return null;
            }
            BigDecimal time = number(known.get(factors.get(0)));
            BigDecimal percent = number(known.get(factors.get(1)));
            if (time == null || percent == null) {
                return null;
            }
            BigDecimal product = time.multiply(percent).movePointLeft(2).setScale(2, RoundingMode.HALF_UP);
            return product.signum() == 0 ? "0" : product.stripTrailingZeros().toPlainString();
        }

        private static @Nullable BigDecimal number(@Nullable String text) {
            try {
                return text == null || text.isBlank() ? null : new BigDecimal(text.strip());
            } catch (NumberFormatException e) {
                return null;
            }
        }
    }

    /** A phase or step by id, seen alike. {@code phase} is the phase that it belongs to, or is. */
    public record Term(String id, String name, String shortName, String key, Phase phase, boolean isStep) {}

    public Procedure {
        phases = List.copyOf(phases);
        events = List.copyOf(events);
        descriptors = List.copyOf(descriptors);
    }

    /** All phases and steps in order, each phase before its steps. */
    public List<Term> terms() {
        List<Term> terms = new ArrayList<>();
        for (Phase phase : phases) {
            terms.add(new Term(phase.id(), phase.name(), phase.shortName(), phase.key(), phase, false));
            for (Step step : phase.steps()) {
                terms.add(new Term(step.id(), step.name(), step.shortName(), step.key(), phase, true));
            }
        }
        return terms;
    }

    /** The phase or step with this id, name or short name, ignoring case. */
    public Optional<Term> find(String text) {
        String wanted = text.trim().toLowerCase(Locale.ROOT);
        List<Term> terms = terms();
        return terms.stream()
                .filter(t -> t.id().equals(wanted))
                .findFirst()
                .or(() -> terms.stream()
                        .filter(t -> t.name().toLowerCase(Locale.ROOT).equals(wanted)
                                || t.shortName().toLowerCase(Locale.ROOT).equals(wanted))
                        .findFirst());
    }

    /** The values of a case with those that are worked out of them added. */
    public Map<String, String> withComputed(Map<String, String> known) {
        Map<String, String> all = new LinkedHashMap<>(known);
        for (Descriptor descriptor : descriptors) {
            String value = descriptor.computed(known);
            if (value != null) {
                all.put(descriptor.id(), value);
            }
        }
        return all;
    }

    public Optional<Descriptor> descriptor(String id) {
        return descriptors.stream().filter(d -> d.id().equals(id)).findFirst();
    }

    /** The event kind with this id or name, ignoring case. */
    public Optional<EventKind> findEvent(String text) {
        String wanted = text.trim().toLowerCase(Locale.ROOT);
        return events.stream()
                .filter(e -> e.id().equals(wanted)
                        || e.name().toLowerCase(Locale.ROOT).equals(wanted))
                .findFirst();
    }
}
