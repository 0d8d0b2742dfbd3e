package org.sideport.model;

import java.time.LocalDate;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The patient's consent to the use of the recording, as somebody recorded it. It says nothing of who the patient is.
 *
 * @param purposes what it was given or asked for; at least one where it was given
 * @param recordedBy code of the person who recorded it; empty only while it is unknown
 * @param recordedOn the day, or {@code null} while it is unknown
 */
public record Consent(
        ConsentState state,
        Set<ConsentPurpose> purposes,
        String recordedBy,
        @Nullable LocalDate recordedOn) {

    public static final Consent UNKNOWN = new Consent(ConsentState.UNKNOWN, Set.of(), "", null);

    /**
     * @throws InputException if what belongs to the state is missing
     */
    public Consent {
        Set<ConsentPurpose> sorted = EnumSet.noneOf(ConsentPurpose.class);
        sorted.addAll(purposes);
        purposes = Collections.unmodifiableSet(sorted);
        if (state == ConsentState.UNKNOWN) {
            purposes = Set.of();
            recordedBy = "";
            recordedOn = null;
        } else if (recordedBy.isBlank() || recordedOn == null) {
            throw new InputException(
                    "consent \"" + state.id() + "\" does not say who recorded it and when",
                    null,
                    "give the code of the person who recorded it and the date");
        }
        if (state == ConsentState.GIVEN && purposes.isEmpty()) {
            throw new InputException(
                    "consent was given, but not for what",
                    null,
                    "name at least one purpose: assessment, teaching, research");
        }
    }

    /** The purposes with commas between them; empty if there is none. */
    public String purposesText() {
        return purposes.stream().map(ConsentPurpose::id).collect(Collectors.joining(", "));
    }

    /** In one line: "given for assessment, teaching (A1, 2026-03-09)". */
    public String text() {
        if (state == ConsentState.UNKNOWN) {
            return state.id();
        }
        return state.id() + (purposes.isEmpty() ? "" : " for " + purposesText()) + " (" + recordedBy + ", " + recordedOn
                + ")";
    }

    /** What must be said wherever the recording is used; {@code null} unless consent was refused or withdrawn. */
    public @Nullable String warning() {
        if (!state.isAgainst()) {
            return null;
        }
        return "Consent was " + state.id() + " on " + recordedOn
                + ": local rules decide whether the recording and what came of it may still be used.";
    }
}
