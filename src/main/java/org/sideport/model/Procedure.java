package org.sideport.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

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

    /** @param values the allowed values, or empty for free text */
    public record Descriptor(String id, String name, String unit, List<String> values) {
        public Descriptor {
            values = List.copyOf(values);
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

    /** The event kind with this id or name, ignoring case. */
    public Optional<EventKind> findEvent(String text) {
        String wanted = text.trim().toLowerCase(Locale.ROOT);
        return events.stream()
                .filter(e -> e.id().equals(wanted)
                        || e.name().toLowerCase(Locale.ROOT).equals(wanted))
                .findFirst();
    }
}
