package org.sideport.app.cases;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;
import org.sideport.workflow.CaseFilter;

/** Filters with one part changed, and their parts in words. */
final class CaseFilters {

    /** One part of a filter in words, and the filter without it. */
    record Chip(String text, UnaryOperator<CaseFilter> without) {}

    private CaseFilters() {}

    static CaseFilter words(CaseFilter f, String words) {
        String wanted = words.isBlank() ? "" : words.strip();
        return new CaseFilter(
                wanted,
                f.trainee(),
                f.from(),
                f.to(),
                f.states(),
                f.recording(),
                f.procedure(),
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter trainee(CaseFilter f, @Nullable String trainee) {
        return new CaseFilter(
                f.words(),
                trainee,
                f.from(),
                f.to(),
                f.states(),
                f.recording(),
                f.procedure(),
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter days(CaseFilter f, @Nullable LocalDate from, @Nullable LocalDate to) {
        return new CaseFilter(
                f.words(),
                f.trainee(),
                from,
                to,
                f.states(),
                f.recording(),
                f.procedure(),
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter state(CaseFilter f, CaseFilter.State state, boolean on) {
        return new CaseFilter(
                f.words(),
                f.trainee(),
                f.from(),
                f.to(),
                with(f.states(), state, on),
                f.recording(),
                f.procedure(),
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter recording(CaseFilter f, @Nullable Boolean recording) {
        return new CaseFilter(
                f.words(),
                f.trainee(),
                f.from(),
                f.to(),
                f.states(),
                recording,
                f.procedure(),
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter procedure(CaseFilter f, @Nullable String procedure) {
        return new CaseFilter(
                f.words(),
                f.trainee(),
                f.from(),
                f.to(),
                f.states(),
                f.recording(),
                procedure,
                f.consents(),
                f.reviewDue());
    }

    static CaseFilter consent(CaseFilter f, ConsentState consent, boolean on) {
        return new CaseFilter(
                f.words(),
                f.trainee(),
                f.from(),
                f.to(),
                f.states(),
                f.recording(),
                f.procedure(),
                with(f.consents(), consent, on),
                f.reviewDue());
    }

    static CaseFilter reviewDue(CaseFilter f, @Nullable LocalDate due) {
        return new CaseFilter(
                f.words(), f.trainee(), f.from(), f.to(), f.states(), f.recording(), f.procedure(), f.consents(), due);
    }

    private static <T> Set<T> with(Set<T> set, T member, boolean on) {
        Set<T> changed = new HashSet<>(set);
        if (on) {
            changed.add(member);
        } else {
            changed.remove(member);
        }
        return changed;
    }

    /** The parts of a filter but its words, in a fixed order. */
    static List<Chip> chips(CaseFilter filter, Texts texts) {
        List<Chip> chips = new ArrayList<>();
        if (filter.trainee() != null) {
            chips.add(new Chip(texts.get("filter.chip.trainee", filter.trainee()), f -> trainee(f, null)));
        }
        if (filter.from() != null || filter.to() != null) {
            chips.add(new Chip(days(filter, texts), f -> days(f, null, null)));
        }
        for (CaseFilter.State state : CaseFilter.State.values()) {
            if (filter.states().contains(state)) {
                chips.add(new Chip(texts.get("filter.state." + state.name()), f -> state(f, state, false)));
            }
        }
        Boolean recording = filter.recording();
        if (recording != null) {
            chips.add(new Chip(
                    texts.get(recording ? "filter.recording.with" : "filter.recording.without"),
                    f -> recording(f, null)));
        }
        if (filter.procedure() != null) {
            chips.add(new Chip(texts.get("filter.chip.procedure", filter.procedure()), f -> procedure(f, null)));
        }
        for (ConsentState consent : ConsentState.values()) {
            if (filter.consents().contains(consent)) {
                chips.add(new Chip(
                        texts.get("filter.chip.consent", texts.get("consent.state." + consent.name())),
                        f -> consent(f, consent, false)));
            }
        }
        if (filter.reviewDue() != null) {
            chips.add(new Chip(texts.get("filter.review.due"), f -> reviewDue(f, null)));
        }
        return chips;
    }

    private static String days(CaseFilter filter, Texts texts) {
        LocalDate from = filter.from();
        LocalDate to = filter.to();
        if (from != null && to != null) {
            return texts.get("filter.chip.days", from.toString(), to.toString());
        }
        return from != null
                ? texts.get("filter.chip.from", from.toString())
                : texts.get("filter.chip.to", String.valueOf(to));
    }

    /** How far a case has come, a line for each stage. */
    static String stages(CaseSummary one, Texts texts) {
        String by = String.join(", ", one.annotators());
        String assessors = String.join(", ", one.assessors());
        return String.join(
                "\n",
                one.tagged() ? texts.get("stage.tagged", by) : texts.get("stage.untagged"),
                texts.get(one.selfMarked() ? "stage.selfMarked" : "stage.notSelfMarked"),
                one.marked() ? texts.get("stage.marked", assessors) : texts.get("stage.unmarked"),
                texts.get(one.signed() ? "stage.signed" : "stage.unsigned"));
    }
}
