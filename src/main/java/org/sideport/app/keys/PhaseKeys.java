package org.sideport.app.keys;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination.ModifierValue;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Settings;
import org.sideport.app.Shortcut;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Phase;
import org.sideport.model.Procedure.Step;
import org.sideport.model.Procedure.Term;

/**
 * Which key starts which phase: the procedure file's, but for those that the person has changed. Changes are kept in the
 * person's settings; the file stays as it is.
 */
public final class PhaseKeys {

    private static final Set<Shortcut.Scope> SAME_SCREEN =
            Set.of(Shortcut.Scope.PICTURE, Shortcut.Scope.REVIEW, Shortcut.Scope.TIMELINE, Shortcut.Scope.WINDOW);

    private final Settings settings;
    private final List<Runnable> listeners = new ArrayList<>();

    public PhaseKeys(Settings settings) {
        this.settings = settings;
    }

    /** Why a key cannot be a phase's. */
    public sealed interface Conflict {

        /** No single letter, digit or sign. */
        record NoKey() implements Conflict {}

        /** Another phase or step has it. */
        record WithTerm(Term term) implements Conflict {}

        /** It does something else on the same screen. */
        record WithShortcut(Shortcut shortcut) implements Conflict {}
    }

    /** Hears of every change of a key. */
    public void onChange(Runnable listener) {
        listeners.add(listener);
    }

    /** The procedure with the person's keys. */
    public Procedure applied(Procedure file) {
        List<Phase> phases = new ArrayList<>();
        for (Phase phase : file.phases()) {
            List<Step> steps = new ArrayList<>();
            for (Step step : phase.steps()) {
                String key = settings.get(setting(file, step.id()), step.key());
                steps.add(new Step(step.id(), step.name(), step.shortName(), key, step.definition()));
            }
            phases.add(new Phase(
                    phase.id(),
                    phase.name(),
                    phase.shortName(),
                    settings.get(setting(file, phase.id()), phase.key()),
                    phase.repeatable(),
                    phase.optional(),
                    phase.idle(),
                    phase.definition(),
                    steps));
        }
        return new Procedure(
                file.id(), file.version(), file.title(), file.source(), phases, file.events(), file.descriptors());
    }

    /** The phase or step that a key stands for, in a procedure with the person's keys. */
    public static Optional<Term> termOf(@Nullable Procedure applied, String key) {
        String wanted = key.toLowerCase(Locale.ROOT);
        return applied == null || wanted.isEmpty()
                ? Optional.empty()
                : applied.terms().stream()
                        .filter(term -> term.key().equals(wanted))
                        .findFirst();
    }

    /** Whether any key of this procedure differs from the file's. */
    public boolean isChanged(Procedure file) {
        return !applied(file).equals(file);
    }

    /**
     * Gives a phase or step another key.
     *
     * @param key one character; empty for none
     * @return why it was not done, if so
     */
    public Optional<Conflict> set(Procedure file, Term term, String key) {
        String wanted = key.toLowerCase(Locale.ROOT);
        Conflict conflict = wanted.isEmpty() ? null : conflict(applied(file), term, wanted);
        if (conflict == null) {
            if (keyInFile(file, term.id()).equals(wanted)) {
                settings.remove(setting(file, term.id()));
            } else {
                settings.put(setting(file, term.id()), wanted);
            }
            changed();
        }
        return Optional.ofNullable(conflict);
    }

    /** All keys as in the procedure's file again. */
    public void reset(Procedure file) {
        file.terms().forEach(term -> settings.remove(setting(file, term.id())));
        changed();
    }

    private void changed() {
        settings.save();
        List.copyOf(listeners).forEach(Runnable::run);
    }

    private static String setting(Procedure procedure, String term) {
        return "phase-key." + procedure.id() + "." + term;
    }

    private static String keyInFile(Procedure file, String term) {
        Function<Term, String> key = Term::key;
        return file.terms().stream()
                .filter(known -> known.id().equals(term))
                .map(key)
                .findFirst()
                .orElse("");
    }

    private static @Nullable Conflict conflict(Procedure now, Term term, String key) {
        if (key.codePointCount(0, key.length()) != 1 || Character.isISOControl(key.codePointAt(0)) || key.isBlank()) {
            return new Conflict.NoKey();
        }
        for (Term other : now.terms()) {
            if (!other.id().equals(term.id()) && other.key().equals(key)) {
                return new Conflict.WithTerm(other);
            }
        }
        for (Shortcut shortcut : Shortcut.values()) {
            if (SAME_SCREEN.contains(shortcut.scope()) && key.equals(plainKey(shortcut))) {
                return new Conflict.WithShortcut(shortcut);
            }
        }
        return null;
    }

    /** The character of a shortcut that needs no other key held down; {@code null} if it does. */
    private static @Nullable String plainKey(Shortcut shortcut) {
        if (!(shortcut.keys() instanceof KeyCodeCombination keys)
                || keys.getShift() == ModifierValue.DOWN
                || keys.getControl() == ModifierValue.DOWN
                || keys.getAlt() == ModifierValue.DOWN
                || keys.getMeta() == ModifierValue.DOWN
                || keys.getShortcut() == ModifierValue.DOWN) {
            return null;
        }
        return keys.getCode().getChar().toLowerCase(Locale.ROOT);
    }
}
