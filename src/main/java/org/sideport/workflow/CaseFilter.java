package org.sideport.workflow;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;

/**
 * Which cases to list; every part must agree, and a part that is {@code null} or empty asks for nothing.
 *
 * @param words each must occur in a code, the date or a descriptor
 * @param from first day
 * @param to last day
 * @param recording with a recording, or without
 * @param reviewDue the day on which a review must be due
 */
public record CaseFilter(
        String words,
        @Nullable String trainee,
        @Nullable LocalDate from,
        @Nullable LocalDate to,
        Set<State> states,
        @Nullable Boolean recording,
        @Nullable String procedure,
        Set<ConsentState> consents,
        @Nullable LocalDate reviewDue) {

    public static final CaseFilter ALL = new CaseFilter("", null, null, null, Set.of(), null, null, Set.of(), null);

    /** How far a case has come. */
    public enum State {
        UNTAGGED,
        TAGGED,
        SELF_MARKED,
        UNMARKED,
        MARKED,
        UNSIGNED,
        SIGNED;

        public boolean fits(CaseSummary one) {
            return switch (this) {
                case UNTAGGED -> !one.tagged();
                case TAGGED -> one.tagged();
                case SELF_MARKED -> one.selfMarked();
                case UNMARKED -> !one.marked();
                case MARKED -> one.marked();
                case UNSIGNED -> one.marked() && !one.signed();
                case SIGNED -> one.signed();
            };
        }

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public CaseFilter {
        states = Set.copyOf(states);
        consents = Set.copyOf(consents);
    }

    public boolean accepts(CaseSummary one) {
        return predicate().test(one);
    }

    /** As a test that has split its words already: for long lists. */
    public Predicate<CaseSummary> predicate() {
        List<String> wanted = words.isBlank()
                ? List.of()
                : List.of(words.toLowerCase(Locale.ROOT).strip().split("\\s+"));
        State[] stages = states.toArray(State[]::new);
        return one -> plain(one) && all(stages, one) && found(wanted, one.searchText());
    }

    private boolean plain(CaseSummary one) {
        return (trainee == null || one.trainee().equals(trainee))
                && (from == null || !one.date().isBefore(from))
                && (to == null || !one.date().isAfter(to))
                && (recording == null || one.hasRecording() == recording)
                && (procedure == null || one.procedure().equals(procedure))
                && (consents.isEmpty() || consents.contains(one.consent()))
                && (reviewDue == null || one.reviewDue(reviewDue));
    }

    private static boolean all(State[] stages, CaseSummary one) {
        for (State stage : stages) {
            if (!stage.fits(one)) {
                return false;
            }
        }
        return true;
    }

    private static boolean found(List<String> wanted, String text) {
        for (String word : wanted) {
            if (!text.contains(word)) {
                return false;
            }
        }
        return true;
    }
}
