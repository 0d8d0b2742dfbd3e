package org.sideport.workflow.exchange;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How a bundle is taken in.
 *
 * @param caseAs another code for the case here, or {@code null} for its own
 * @param traineeAs code that the bundle's trainee has here; {@code null} if nothing is said
 * @param people codes of other people in the bundle to their codes here; those not named keep theirs
 * @param theirs true if drafts of the bundle go before those here; signed marks never change either way
 * @param by code of the person who takes it in
 */
public record ImportChoice(
        @Nullable String caseAs, @Nullable String traineeAs, Map<String, String> people, boolean theirs, String by) {

    public ImportChoice {
        people = Map.copyOf(people);
    }

    /** As the bundle has it, and what is here stays. */
    public static ImportChoice plain(String by) {
        return new ImportChoice(null, null, Map.of(), false, by);
    }
}
